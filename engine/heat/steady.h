#pragma once
// Steady temperature, and the torque or time that heat allows.
#include <optional>

#include "engine/base/constants.h"
#include "engine/base/function_ref.h"
#include "engine/heat/housing.h"

namespace lobewise::heat {

/// Loss of the reducer at an oil temperature: [K] -> [W], >= 0. May rise again when thin oil lets surfaces touch.
using LossOfTemperature = FunctionRef<double(double)>;
/// Loss at an output torque and an oil temperature: [N m], [K] -> [W], >= 0, not falling with torque.
using LossOfTorqueAndTemperature = FunctionRef<double(double, double)>;

/// Housing in its surroundings at an output torque [N m]; not shedding more at a larger one.
using HousingOfTorque = FunctionRef<Housing(double)>;

/// The search ends here: no lubricant serves at 300 degC.
inline constexpr double kHottestSearched = kZeroCelsius + 300;

struct SteadyState {
  double oil_temperature = 0;      ///< [K]
  double housing_temperature = 0;  ///< [K]
  double loss = 0;                 ///< [W]
  HeatFlow flow;
};

/// Temperature at which the housing sheds what the reducer loses.
///   P(T_oil) = Q(T_oil - P / G_oil): scan upwards from the coldest surroundings in steps of 5 K, then a bracketed root
///   to 1e-10 K at the first crossing from gain to loss: the lowest stable state, the one a cold start runs into.
/// @returns nothing when no equilibrium exists up to `hottest`: thermal runaway, to be reported as such.
/// Valid: lumped temperatures, every loss into the oil node. Source: derived, docs/theory/heat.md.
/// Checked by: tests/unit/heat/steady_test.cc.
[[nodiscard]] std::optional<SteadyState> steady_state(const Housing& housing, LossOfTemperature loss,
                                                      double hottest = kHottestSearched);

struct ThermalTorque {
  double torque = 0;     ///< [N m]
  bool limited = false;  ///< false: heat allows even `torque_max`
  SteadyState state;     ///< at that torque
};

/// Largest continuous output torque with T_oil <= limit, by bisection to 1e-6 of `torque_max`.
/// @param limit       of the oil or grease [K]
/// @param torque_max  > 0, where the search ends [N m]
/// @returns nothing when even the idling losses pass the limit.
[[nodiscard]] std::optional<ThermalTorque> thermal_torque(const Housing& housing, LossOfTorqueAndTemperature loss,
                                                          double limit, double torque_max);
/// The same where the surroundings warm with the torque: what drives the housing loses more, too.
[[nodiscard]] std::optional<ThermalTorque> thermal_torque(HousingOfTorque housing, LossOfTorqueAndTemperature loss,
                                                          double limit, double torque_max);

}  // namespace lobewise::heat
