#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

/// Hoist or winch for goods, rope or chain on a drum. Mechanics (derived). People are never lifted with figures from
/// here.
struct Hoist {
  std::optional<bool> lifts_people;      ///< must be answered `no`
  std::optional<double> load_mass;       ///< [kg] 1 … 1e6, required
  std::optional<double> dead_mass;       ///< hook, cage or skip [kg] 0 … 1e6, default 5 % of the load
  std::optional<double> counterweight;   ///< [kg] 0 … 1e6, default none
  std::optional<double> guide_friction;  ///< resistance along the way [N] 0 … 1e6, default none
  std::optional<double> speed;           ///< of the load [m/s] 0.001 … 20, required
  std::optional<double> drum_diameter;   ///< to the rope's centre [m] 0.03 … 5, required
  std::optional<double> falls;           ///< rope parts that carry the load 1 … 16, default 1
  std::optional<double> efficiency;      ///< of drum and sheaves 0.2 … 1, default 0.96 and 0.98 for each further fall
  std::optional<double> start_time;      ///< to full speed [s] 0.05 … 60, default 1
  std::optional<double> slope;           ///< of the way to the horizontal [rad] 0.02 … pi/2, default vertical
  std::optional<double> drum_mass;       ///< [kg] 0 … 1e5, default 300 kg/m3 x D^3

  static constexpr MachineInfo kInfo{
      "hoist", "Hoist or winch, goods only",
      "Lifting or pulling goods up a slope by rope or chain. Lifting people is refused."};
};

[[nodiscard]] Result<Demand> compute(const Hoist& hoist);

}  // namespace lobewise::demand
