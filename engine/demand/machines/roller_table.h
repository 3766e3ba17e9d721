#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Roller table for billets, slabs or logs, often reversing: what a roller can ask is limited by slip under the load.
struct RollerTable {
  std::optional<double> load_mass;        ///< carried by the rollers of this drive [kg] 0 … 1e6, required
  std::optional<double> rollers_mass;     ///< rollers of this drive [kg] 0 … 1e5, required
  std::optional<double> roller_diameter;  ///< [m] 0.05 … 1.5, required
  std::optional<double> speed;            ///< of the load [m/s] 0.01 … 20, required
  std::optional<double> resistance;       ///< running resistance over weight 0.005 … 0.3, default 0.03
  std::optional<double> slip_friction;    ///< load on roller 0.05 … 0.8, default 0.3
  std::optional<double> acceleration;     ///< of the load [m/s2] 0 … 10, default 1
  std::optional<bool> reversing;          ///< default yes

  static constexpr MachineInfo kInfo{"roller_table", "Roller table",
                                     "Heavy pieces on driven rollers, often reversing many times an hour."};
};

[[nodiscard]] Result<Demand> compute(const RollerTable& table);

}  // namespace lobewise::demand
