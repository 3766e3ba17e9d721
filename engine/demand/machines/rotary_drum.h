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

/// Circular segment of the bed.
struct Bed {
  double half_angle = 0;  ///< [rad]
  double area = 0;        ///< [m2]
  double lever = 0;       ///< centroid from the axis [m]
};
/// @param radius inner radius [m] > 0; @param fill share of the section, 0 < fill < 1. Derived; Newton on a - sin a cos
/// a = pi fill.
[[nodiscard]] Bed bed_of(double radius, double fill);

/// US rule for rotary dryers (Perry, from memory): bhp = N (4.75 d w + 0.1925 D W + 0.33 W) / 1e5 with shell d [ft],
/// live load w [lb], riding ring D [ft], total W [lb], N [rpm]; here SI in, W out. Includes lifting flights and drive
/// losses.
[[nodiscard]] double dryer_rule_power(double speed, double shell_diameter, double bed_mass, double ring_diameter,
                                      double total_mass);

[[nodiscard]] Result<Demand> compute(const RotaryDrum& drum);

}  // namespace lobewise::demand
