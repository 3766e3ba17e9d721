#include "engine/heat/steady.h"

#include <algorithm>

#include "engine/base/root.h"

namespace lobewise::heat {
namespace {

constexpr double kScanStep = 5;       // [K]; two crossings closer than this are taken for a touch
constexpr double kTolerance = 1e-10;  // [K]

}  // namespace

std::optional<SteadyState> steady_state(const Housing& housing, LossOfTemperature loss, double hottest) {
  const double coldest = std::min(housing.ambient_temperature, flange_temperature(housing));
  // Heat shed beyond what is lost. A housing colder than all its surroundings sheds nothing: below that temperature the
  // function is continued as a straight line, which keeps its sign and spares the correlations absurd temperatures.
  const auto excess = [&](double oil_temperature) {
    const double power = loss(oil_temperature);
    const double shell = oil_temperature - power / housing.oil_conductance;
    const double below = std::min(shell - coldest, 0.0);
    return heat_flow(housing, shell - below).net() + housing.oil_conductance * below - power;
  };
  double cold = coldest;
  double at_cold = excess(cold);
  double hot = cold;
  double at_hot = at_cold;
  while (at_hot < 0) {
    if (hot >= hottest) {
      return std::nullopt;
    }
    cold = hot;
    at_cold = at_hot;
    hot = std::min(cold + kScanStep, hottest);
    at_hot = excess(hot);
  }
  const double oil = cold == hot ? cold : bracketed_root(excess, cold, hot, at_cold, at_hot, kTolerance);
  SteadyState state;
  state.oil_temperature = oil;
  state.loss = loss(oil);
  state.housing_temperature = oil - state.loss / housing.oil_conductance;
  state.flow = heat_flow(housing, state.housing_temperature);
  return state;
}

std::optional<ThermalTorque> thermal_torque(const Housing& housing, LossOfTorqueAndTemperature loss, double limit,
                                            double torque_max) {
  const auto same = [&](double) { return housing; };
  return thermal_torque(HousingOfTorque(same), loss, limit, torque_max);
}

std::optional<ThermalTorque> thermal_torque(HousingOfTorque housing, LossOfTorqueAndTemperature loss, double limit,
                                            double torque_max) {
  const auto at = [&](double torque) {
    const auto of_temperature = [&](double oil_temperature) { return loss(torque, oil_temperature); };
    return steady_state(housing(torque), of_temperature, limit);
  };
  auto state = at(torque_max);
  if (state) {
    return ThermalTorque{torque_max, false, *state};
  }
  double good = 0;
  state = at(0);
  if (!state) {
    return std::nullopt;
  }
  double bad = torque_max;
  while (bad - good > 1e-6 * torque_max) {
    const double middle = 0.5 * (good + bad);
    if (auto tried = at(middle)) {
      good = middle;
      state = tried;
    } else {
      bad = middle;
    }
  }
  return ThermalTorque{good, true, *state};
}

}  // namespace lobewise::heat
