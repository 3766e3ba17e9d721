#pragma once
// Warming up, cooling down, and duty that comes and goes.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "engine/base/function_ref.h"
#include "engine/heat/housing.h"
#include "engine/heat/steady.h"

namespace lobewise::heat {

/// Temperatures of the two nodes, or their rises over ambient where a function says so [K].
struct NodeTemperatures {
  double oil = 0;
  double housing = 0;
};

/// Rise of one node heated from ambient: P/G (1 - exp(-G t / C)) [K].
/// @param power, conductance, capacity  P [W], G > 0 [W/K], C > 0 [J/K]
/// @param time                          t >= 0 [s]
[[nodiscard]] double one_node_rise(double power, double conductance, double capacity, double time);

struct IntermittentRise {
  double peak = 0;    ///< at the end of the load [K]
  double trough = 0;  ///< at the end of the pause [K]
};
/// One node under load for `on_time` and off for `off_time`, once periodic, tau = C / G:
///   peak = P/G (1 - exp(-on/tau)) / (1 - exp(-(on + off)/tau)),  trough = peak exp(-off/tau)
/// Source: derived (geometric series). Checked by: tests/unit/heat/transient_test.cc.
[[nodiscard]] IntermittentRise intermittent_one_node(double power, double conductance, double capacity, double on_time,
                                                     double off_time);

/// Rises of oil and housing, heated from ambient with constant conductances; closed form of the two linear equations
///   C_oil x' = P - G_oil (x - y),  C_housing y' = G_oil (x - y) - G_air y
/// @param oil_conductance, air_conductance  G_oil, G_air > 0 [W/K]
/// Source: derived (matrix exponential). Checked by: tests/unit/heat/transient_test.cc.
[[nodiscard]] NodeTemperatures two_node_linear(double power, double oil_conductance, double air_conductance,
                                               double oil_capacity, double housing_capacity, double time);

/// Temperatures at the given times, from `start`, under a loss that follows the oil temperature:
///   C_oil T_o' = P(T_o) - G_oil (T_o - T_h),  C_housing T_h' = G_oil (T_o - T_h) - Q(T_h)
/// Dormand-Prince 5(4), local error 1e-7 K.
/// @param times  ascending, >= 0 [s]
[[nodiscard]] std::vector<NodeTemperatures> warm_up(const Housing& housing, LossOfTemperature loss,
                                                    NodeTemperatures start, std::span<const double> times);

/// Time until the oil, from `start`, reaches `limit`, searched up to `horizon` [s]; nothing when it stays below.
[[nodiscard]] std::optional<double> time_to_limit(const Housing& housing, LossOfTemperature loss,
                                                  NodeTemperatures start, double limit, double horizon);

/// One part of a duty cycle.
struct DutyPhase {
  double duration = 0;   ///< > 0 [s]
  double air_speed = 0;  ///< across the housing meanwhile: a motor's own fan stands with it [m/s]
};
/// Loss in phase `index` at an oil temperature [W].
using LossOfPhase = FunctionRef<double(std::size_t, double)>;

struct PeriodicDuty {
  double oil_peak = 0, oil_trough = 0, housing_peak = 0;  ///< over the periodic cycle [K]
  NodeTemperatures cycle_start;                           ///< state that repeats
};
/// Temperatures of a duty cycle that goes on for ever: the fixed point of the cycle map by Newton's method, started at
/// the steady state of the mean loss, until a cycle returns within 1e-6 K.
/// @returns nothing when the mean loss has no equilibrium or the cycle runs past kHottestSearched: thermal runaway.
/// Checked by: tests/unit/heat/transient_test.cc (against the closed form of one node and against running 400 cycles).
[[nodiscard]] std::optional<PeriodicDuty> periodic_duty(const Housing& housing, std::span<const DutyPhase> phases,
                                                        LossOfPhase loss);

}  // namespace lobewise::heat
