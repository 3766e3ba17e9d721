#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Slewing drive through pinion and ring on a slewing bearing; figures at one pinion shaft. Bearing friction from the
/// raceway forces (derived in docs/theory/machines.md), wind, slope.
struct SlewingDrive {
  std::optional<double> axial_load;       ///< on the bearing [N] 0 … 1e8, required
  std::optional<double> tilting_moment;   ///< [N m] 0 … 1e8, required
  std::optional<double> radial_load;      ///< [N] 0 … 1e7, default 0
  std::optional<double> track_diameter;   ///< raceway [m] 0.1 … 20, required
  std::optional<double> friction;         ///< raceway 0.001 … 0.05, default 0.006
  std::optional<double> seal_torque;      ///< [N m] 0 … 1e5, default 0
  std::optional<double> slewing_inertia;  ///< about the slewing axis [kg m2] 0 … 1e10, required
  std::optional<double> slewing_speed;    ///< [rad/s] 1e-4 … 3, required
  std::optional<double> gear_ratio;       ///< ring teeth over pinion teeth 1 … 40, required
  std::optional<double> mesh_efficiency;  ///< 0.7 … 1, default 0.95
  std::optional<double> wind_moment;      ///< about the slewing axis, in service [N m] 0 … 1e8, default 0
  std::optional<double> slope_moment;     ///< from a leaning axis [N m] 0 … 1e8, default 0
  std::optional<double> drives;           ///< 1 … 8, default 1
  std::optional<double> start_time;       ///< [s] 0.2 … 120, default 5

  static constexpr MachineInfo kInfo{"slewing_drive", "Slewing drive",
                                     "Boom, bucket wheel, turntable on a slewing bearing with ring gear. Goods only."};
};

/// Friction torque of a slewing bearing with 45 degree raceways [N m]: the raceway forces add up to
/// (F_a + 8 M / (pi D)) / sin 45 + (4 / pi) F_r / cos 45, times mu D / 2. All SI. Derived.
template <class X>
[[nodiscard]] X slewing_friction(const X& axial, const X& moment, const X& radial, const X& diameter,
                                 const X& friction) {
  using namespace formula;
  const X slanted = sqrt(X(2.0));  // 1 / sin 45 = 1 / cos 45
  return friction * diameter / 2.0 * slanted * (axial + 8.0 * moment / (pi<X>() * diameter) + 4.0 / pi<X>() * radial);
}

[[nodiscard]] Result<Demand> compute(const SlewingDrive& drive);

}  // namespace lobewise::demand
