#pragma once
#include "engine/demand/given.h"

namespace lobewise::demand {

enum class Impeller { disc_turbine, pitched_turbine, hydrofoil, propeller, anchor, helical_ribbon };
enum class Liquid { pure, solids, paste };

/// Agitator in a tank. P = Np rho n^3 D^5 with Np = K / Re + Np_turbulent (sum of the laminar and turbulent
/// asymptotes).
struct Agitator {
  std::optional<Impeller> impeller;    ///< default pitched turbine
  std::optional<Liquid> liquid;        ///< default with solids
  std::optional<double> diameter;      ///< of the impeller [m] 0.02 … 10, required
  std::optional<double> speed;         ///< [rad/s] 0.05 … 400, required
  std::optional<double> density;       ///< of the liquid [kg/m3] 300 … 4000, default 1000
  std::optional<double> viscosity;     ///< dynamic [Pa s] 1e-4 … 1e4, default 0.001
  std::optional<double> impellers;     ///< how many on the shaft 1 … 10, default 1
  std::optional<double> power_number;  ///< turbulent, one impeller 0.01 … 20, default by kind
  std::optional<double>
      blade_width_ratio;  ///< blade width over diameter of a pitched turbine 0.05 … 0.5; Np ~ (ratio / 0.2)^1.25
  std::optional<double> laminar_constant;  ///< K = Np Re 10 … 2000, default by kind
  std::optional<double> start_factor;      ///< 0.5 … 6, default by liquid
  std::optional<double> impeller_mass;  ///< shaft and impellers [kg] 0.1 … 1e5, default 120 kg/m3 x D^3, at least 1 kg
  std::optional<double> shaft_length;   ///< unsupported, impeller below the reducer's shoulder [m] 0 … 20; given when
                                        ///< the reducer carries the shaft
  std::optional<double> hydraulic_factor;     ///< fluctuation of the side force 0.5 … 4, default 1.5
  std::optional<bool> reducer_carries_shaft;  ///< no: the shaft has bearings of its own behind a coupling
  std::optional<double> side_force;  ///< at the impeller, as its maker says [N] 0 … 1e7; instead of the estimate
  std::optional<double> thrust;      ///< of the impeller along the shaft, weight not counted [N] 0 … 1e7

  static constexpr MachineInfo kInfo{
      "agitator", "Agitator",
      "Rotating impeller in a baffled tank, Newtonian liquid; gassing and surface vortices are not covered."};
};

[[nodiscard]] Result<Demand> compute(const Agitator& agitator);

}  // namespace lobewise::demand
