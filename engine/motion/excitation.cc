#include "engine/motion/excitation.h"

#include <cmath>
#include <complex>
#include <numeric>

#include "engine/base/constants.h"

namespace lobewise::motion {

std::vector<Excitation> stage_excitations(const ExcitationStage& stage, double input_speed) {
  const int rollers = stage.lobes + 1;
  const double n = stage.lobes;
  const double z = rollers;
  const bool ring = stage.fixed == Fixed::ring;
  std::vector<Excitation> out;
  const auto add = [&](std::string name, double order, Sum sum) {
    out.push_back({std::move(name), order, order * input_speed / (2 * kPi), sum});
  };
  const auto over_discs = [&](int phases) {
    if (stage.discs == 1) return Sum::single;
    return phases % stage.discs == 0 ? Sum::adds : Sum::cancels;
  };
  add("input shaft and eccentric", 1, over_discs(1));
  add(ring ? "output shaft" : "ring (output)", ring ? 1 / n : 1 / z, Sum::single);
  add("disc on its eccentric bearing", ring ? z / n : 1, over_discs(1));
  for (const int m : {1, 2}) {
    const std::string times = m == 1 ? "" : ", second order";
    add("lobes on ring rollers" + times, m * (ring ? z : n), over_discs(m * rollers));
    add("output pins" + times, m * stage.pins * (ring ? z / n : 1), over_discs(m * stage.pins));
  }
  return out;
}

BearingRhythm bearing_rhythm(int elements, double element_diameter, double pitch_diameter, double contact_angle) {
  const double g = element_diameter * std::cos(contact_angle) / pitch_diameter;
  const RhythmOrders<double> orders = rhythm_orders<double>(elements, element_diameter, pitch_diameter, g);
  return {0.5 * (1 - g), orders.outer, orders.inner, orders.rolling_element};
}

Unbalance disc_unbalance(int discs, double mass, double eccentricity, double spacing, double speed) {
  const double one = mass * eccentricity * speed * speed;
  std::complex<double> couple = 0;
  for (int d = 0; d < discs; ++d) {
    const auto direction = std::polar(1.0, 2 * kPi * d / discs);
    couple += spacing * (d - 0.5 * (discs - 1)) * direction;
  }
  return {discs == 1 ? one : 0.0, one * std::abs(couple)};  // evenly spread unit vectors cancel exactly
}

}  // namespace lobewise::motion
