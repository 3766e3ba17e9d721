#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

enum class DrumKind { trommel, mixing_drum, kiln_or_dryer };

/// Rotary drum, trommel, dryer or kiln on trunnion rollers. The bed leans at its dynamic angle; its weight times the
/// lever of its centroid is the load (derived, mechanics). The old US dryer rule stands beside it.
struct RotaryDrum {
  std::optional<DrumKind> kind;          ///< default trommel
  std::optional<double> inner_diameter;  ///< [m] 0.2 … 8, required
  std::optional<double> length;          ///< filled length [m] 0.2 … 200, required
  std::optional<double> fill;            ///< share of the cross-section 0.005 … 0.6, required
  std::optional<double> density;         ///< bulk [kg/m3] 50 … 6000, required
  std::optional<double> speed;           ///< [rad/s] 0.01 … 10, required
  std::optional<double> shell_mass;      ///< rotating without the bed [kg] 10 … 3e6, required
  std::optional<double> dynamic_angle;   ///< of the moving bed [rad] 0.3 … 1.3, default 35 degrees
  std::optional<double>
      start_angle;  ///< to which the bed climbs before it first slides [rad] 0.3 … pi/2, default 15 degrees more
  std::optional<double> tyre_diameter;     ///< [m] 0.2 … 9, default 1.15 x inner diameter
  std::optional<double> trunnion_angle;    ///< half the angle between the rollers [rad] 0.3 … 1.2, default 30 degrees
  std::optional<double> journal_ratio;     ///< journal over roller diameter 0.1 … 1, default 0.35
  std::optional<double> bearing_friction;  ///< 0.001 … 0.2, default 0.02

  static constexpr MachineInfo kInfo{
      "rotary_drum", "Rotary drum, trommel, kiln",
      "Horizontal drum on trunnion rollers, driven at its shell or axis; torque is at the drum's axis."};
};

/// What a - sin a cos a lacks of pi fill: 0 at the half angle of the bed's circular segment. Derived.
template <class X>
[[nodiscard]] X bed_residual(const X& half_angle, const X& fill) {
  using namespace formula;
  return half_angle - sin(half_angle) * cos(half_angle) - pi<X>() * fill;
}
/// Its root [rad], by Newton. @param fill share of the section, 0 < fill < 1
[[nodiscard]] double bed_half_angle(double fill);

/// Section of the bed [m2]. @param radius inner radius [m] > 0
template <class X>
[[nodiscard]] X bed_area(const X& radius, const X& fill) {
  using namespace formula;
  return pow(radius, 2.0) * pi<X>() * fill;
}
/// Its centroid from the axis [m]. Derived.
template <class X>
[[nodiscard]] X bed_lever(const X& radius, const X& half_angle, const X& fill) {
  using namespace formula;
  return 2.0 * radius * pow(sin(half_angle), 3.0) / (3.0 * pi<X>() * fill);
}

/// US rule for rotary dryers (Perry, from memory): bhp = N (4.75 d w + 0.1925 D W + 0.33 W) / 1e5 with shell d [ft],
/// live load w [lb], riding ring D [ft], total W [lb], N [rpm]; here SI in, W out. Includes lifting flights and drive
/// losses.
template <class X>
[[nodiscard]] X dryer_rule_power(const X& speed, const X& shell_diameter, const X& bed_mass, const X& ring_diameter,
                                 const X& total_mass) {
  using namespace formula;
  constexpr double kHorsepower = 745.6998715822702, kFoot = 0.3048, kPound = 0.45359237;
  return kHorsepower * (speed * 60.0 / (2.0 * pi<X>())) *
         (4.75 * (shell_diameter / kFoot) * (bed_mass / kPound) +
          0.1925 * (ring_diameter / kFoot) * (total_mass / kPound) + 0.33 * (total_mass / kPound)) /
         1e5;
}

[[nodiscard]] Result<Demand> compute(const RotaryDrum& drum);

}  // namespace lobewise::demand
