#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Live roller conveyor for unit loads, rollers chained roller to roller or driven by a line. F = w g (load + rollers).
struct RollerConveyor {
  std::optional<double> load_mass;         ///< all unit loads on the driven rollers [kg] 0 … 1e6, required
  std::optional<double> rollers_mass;      ///< all driven rollers, rotating part [kg] 0 … 1e5, required
  std::optional<double> roller_diameter;   ///< [m] 0.01 … 1, required
  std::optional<double> speed;             ///< of the load [m/s] 0.005 … 5, required
  std::optional<double> resistance;        ///< running resistance over weight 0.005 … 0.3, default 0.05
  std::optional<double> drive_loss;        ///< factor of the roller-to-roller drive 1 … 3, default 1.25
  std::optional<double> breakaway_factor;  ///< 1 … 4, default 1.8
  std::optional<double> slip_friction;  ///< load on roller 0.05 … 1, default 0.3; limits what a stopped load can ask

  static constexpr MachineInfo kInfo{"roller_conveyor", "Live roller conveyor",
                                     "Level rollers under pallets, boxes or drums."};
};

[[nodiscard]] Result<Demand> compute(const RollerConveyor& conveyor);

}  // namespace lobewise::demand
