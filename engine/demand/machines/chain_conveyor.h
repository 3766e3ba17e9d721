#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Chain or slat conveyor, also drag chain: Coulomb friction of both strands and of the load, plus lift. Derived
/// (mechanics).
struct ChainConveyor {
  std::optional<double> length;             ///< along the slope [m] 0.5 … 500, required
  std::optional<double> speed;              ///< [m/s] 0.001 … 3, required
  std::optional<double> sprocket_diameter;  ///< pitch circle [m] 0.05 … 3, required
  std::optional<double> load;               ///< on the carrying strand [kg/m] 0 … 20000, required
  std::optional<double> slope;              ///< upward positive [rad] -pi/4 … pi/4, default level
  std::optional<double> chain_mass;         ///< all strands with slats, carrying run [kg/m] 0.5 … 2000, required
  std::optional<double> chain_friction;     ///< chain on its rail 0.02 … 0.6, default 0.15
  std::optional<double> load_friction;      ///< load over its bed 0.02 … 1, default as chain (carried, not dragged)
  std::optional<double> breakaway_factor;   ///< 1 … 3, default 1.5
  std::optional<Feed> feed;                 ///< default uneven

  static constexpr MachineInfo kInfo{"chain_conveyor", "Chain, slat or drag conveyor",
                                     "Endless chain with carried or dragged load, level or sloping."};
};

[[nodiscard]] Result<Demand> compute(const ChainConveyor& conveyor);

}  // namespace lobewise::demand
