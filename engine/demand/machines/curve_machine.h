#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

enum class CurveKind { centrifugal_pump, fan, displacement_pump, extruder };

/// A machine known by its torque over speed: points, or the law of its kind through one rated point.
struct CurveMachine {
  std::optional<CurveKind> kind;             ///< required
  std::optional<double> rated_power;         ///< at the shaft [W] 1 … 1e8, required unless points are given
  std::optional<double> rated_speed;         ///< [rad/s] 0.01 … 1000, required unless points are given
  std::optional<double> speed;               ///< of service [rad/s] 0.01 … 1000, default the rated speed
  std::vector<double> curve_speeds;          ///< rising [rad/s]
  std::vector<double> curve_torques;         ///< at those speeds [N m]
  std::optional<double> breakaway_share;     ///< torque at rest over torque at speed 0 … 5, default by kind
  std::optional<double> stored_energy_time;  ///< kinetic energy over running power [s] 0 … 200, default by kind
  std::optional<double> inertia;             ///< [kg m2] 0 … 1e7; instead of the above

  static constexpr MachineInfo kInfo{"curve", "Pump, fan or extruder",
                                     "Machine with a torque-speed curve, by points or by the law of its kind."};
};

[[nodiscard]] Result<Demand> compute(const CurveMachine& machine);

}  // namespace lobewise::demand
