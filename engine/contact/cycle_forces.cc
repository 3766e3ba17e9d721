#include "engine/contact/cycle_forces.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::contact {

CycleForces equal_stiffness_cycle(const mechanism::StageGeometry& stage, double torque, int phases) {
  const std::size_t Z = static_cast<std::size_t>(stage.rollers()), n = static_cast<std::size_t>(phases);
  const double step = 2 * kPi / static_cast<double>(n * Z);
  CycleForces cycle;
  cycle.flank.resize(n * Z);
  cycle.bearing.resize(n);
  if (stage.pins > 0) {
    const double largest = 4 * torque / (stage.pins * stage.pin_circle_radius);
    cycle.pins.resize(n * Z);
    for (std::size_t j = 0; j < n * Z; ++j) {
      cycle.pins[j] = largest * std::max(std::sin(step * (static_cast<double>(j) + 0.5)), 0.0);
    }
  }
  const double pin_sum = stage.pins > 0 ? 4 * torque / (kPi * stage.pin_circle_radius) : 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double f = step * (static_cast<double>(i) + 0.5);
    double squares = 0;
    for (int k = 0; k < stage.rollers(); ++k) {
      const double lever = std::max(-mechanism::roller_mesh(stage, f, k).lever_arm, 0.0);
      squares += lever * lever;
    }
    mechanism::Vec2 resultant = -pin_sum * mechanism::unit(f);
    for (int k = 0; k < stage.rollers(); ++k) {
      const mechanism::RollerMesh mesh = mechanism::roller_mesh(stage, f, k);
      const double force = torque * std::max(-mesh.lever_arm, 0.0) / squares;
      cycle.flank[i + n * ((Z - static_cast<std::size_t>(k)) % Z)] = force;
      resultant += force * mesh.force_direction;
    }
    cycle.bearing[i] = mechanism::norm(resultant);
  }
  return cycle;
}

CrankTurn::CrankTurn(const mechanism::StageGeometry& stage, int fewest)
    : rollers_(stage.rollers()), pins_(stage.pins), phases_(std::max(fewest, 1)) {
  while (std::gcd(phases_, rollers_) != 1) ++phases_;
}

double CrankTurn::crank(int phase) const { return 2 * kPi * (phase + 0.5 / rollers_) / phases_; }

CycleForces CrankTurn::empty_forces() const {
  CycleForces forces;
  forces.flank.resize(static_cast<std::size_t>(phases_ * rollers_));
  forces.pins.reserve(static_cast<std::size_t>(phases_ * pins_));
  forces.bearing.reserve(static_cast<std::size_t>(phases_));
  return forces;
}

void CrankTurn::record(int phase, std::span<const double> rings, std::span<const double> pins, mechanism::Vec2 bearing,
                       CycleForces& forces) const {
  // psi of roller k is (2 pi/(n Z)) (i Z - k n + 1/2): every place of the grid once, since n and Z share no divisor.
  const int samples = phases_ * rollers_;
  for (int k = 0; k < rollers_; ++k) {
    const int place = (phase * rollers_ + (rollers_ - k) * phases_) % samples;
    forces.flank[static_cast<std::size_t>(place)] = rings[static_cast<std::size_t>(k)];
  }
  forces.pins.insert(forces.pins.end(), pins.begin(), pins.end());
  forces.bearing.push_back(mechanism::norm(bearing));
}

HardContact hardest_lobe_contact(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                 const Elastic& material, bool rollers_turn) {
  const mechanism::Profile profile(stage);
  const double modulus = contact_modulus(material, material);
  HardContact hardest;
  for (std::size_t j = 0; j < flank.size(); ++j) {
    if (flank[j] <= 0) continue;
    const double psi = 2 * kPi * (static_cast<double>(j) + 0.5) / static_cast<double>(flank.size());
    const double load = flank[j] / stage.width;
    const double radius = effective_radius(1 / stage.roller_radius, profile.curvature(psi / stage.lobes));
    const double pressure = hertz_pressure(load, radius, modulus);
    if (pressure <= hardest.pressure) continue;
    const mechanism::RollerMesh mesh = mechanism::roller_mesh(stage, psi, 0);
    const double roller = rollers_turn ? mesh.disc_rolling_speed : mesh.roller_rolling_speed;
    hardest = {flank[j], pressure, radius, std::abs(mesh.disc_rolling_speed + roller) / 2, load};
  }
  return hardest;
}

}  // namespace lobewise::contact
