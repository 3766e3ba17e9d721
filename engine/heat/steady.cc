#include "engine/heat/steady.h"

#include <algorithm>

#include "engine/base/root.h"

namespace lobewise::heat {
namespace {

constexpr double kScanStep = 5;       // [K]; two crossings closer than this are taken for a touch
constexpr double kTolerance = 1e-10;  // [K]

/// Two temperatures between which the balance turns; equal where it holds at the coldest.
struct Bracket {
  double cold, hot, at_cold, at_hot;
};

class Balance {
 public:
  Balance(const Housing& housing, LossOfTemperature loss)
      : housing_(housing), loss_(loss), coldest_(std::min(housing.ambient_temperature, flange_temperature(housing))) {}

  /// Heat shed beyond what is lost. A housing colder than all its surroundings sheds nothing: below that temperature
  /// the function is continued as a straight line, which keeps its sign and spares the correlations absurd
  /// temperatures.
  [[nodiscard]] double excess(double oil_temperature) const {
    const double power = loss_(oil_temperature);
    const double shell = oil_temperature - power / housing_.oil_conductance;
    const double below = std::min(shell - coldest_, 0.0);
    return heat_flow(housing_, shell - below).net() + housing_.oil_conductance * below - power;
  }

  /// From the coldest upwards; none up to `hottest`.
  [[nodiscard]] std::optional<Bracket> first_crossing(double hottest) const {
    Bracket b{coldest_, coldest_, 0, 0};
    b.at_cold = b.at_hot = excess(coldest_);
    while (b.at_hot < 0) {
      if (b.hot >= hottest) return std::nullopt;
      b.cold = b.hot;
      b.at_cold = b.at_hot;
      b.hot = std::min(b.cold + kScanStep, hottest);
      b.at_hot = excess(b.hot);
    }
    return b;
  }

  /// Whether first_crossing finds one: at the hottest of all it usually shows at once.
  [[nodiscard]] bool settles(double hottest) const {
    return (coldest_ < hottest && excess(hottest) >= 0) || first_crossing(hottest);
  }

  [[nodiscard]] SteadyState state(const Bracket& b) const {
    const auto of_oil = [this](double oil_temperature) { return excess(oil_temperature); };
    SteadyState state;
    state.oil_temperature =
        b.cold == b.hot ? b.cold : bracketed_root(of_oil, b.cold, b.hot, b.at_cold, b.at_hot, kTolerance);
    state.loss = loss_(state.oil_temperature);
    state.housing_temperature = state.oil_temperature - state.loss / housing_.oil_conductance;
    state.flow = heat_flow(housing_, state.housing_temperature);
    return state;
  }

 private:
  const Housing& housing_;
  LossOfTemperature loss_;
  double coldest_;
};

}  // namespace

std::optional<SteadyState> steady_state(const Housing& housing, LossOfTemperature loss, double hottest) {
  const Balance balance(housing, loss);
  const std::optional<Bracket> found = balance.first_crossing(hottest);
  if (!found) return std::nullopt;
  return balance.state(*found);
}

std::optional<ThermalTorque> thermal_torque(const Housing& housing, LossOfTorqueAndTemperature loss, double limit,
                                            double torque_max) {
  const auto same = [&](double) { return housing; };
  return thermal_torque(HousingOfTorque(same), loss, limit, torque_max);
}

std::optional<ThermalTorque> thermal_torque(HousingOfTorque housing, LossOfTorqueAndTemperature loss, double limit,
                                            double torque_max) {
  const auto balance = [&](double torque, auto&& ask) {
    const auto of_temperature = [&](double oil_temperature) { return loss(torque, oil_temperature); };
    const Housing shell = housing(torque);
    return ask(Balance(shell, of_temperature));
  };
  const auto settles = [&](double torque) {
    return balance(torque, [&](const Balance& b) { return b.settles(limit); });
  };
  const auto state = [&](double torque) {
    return balance(torque, [&](const Balance& b) { return b.state(*b.first_crossing(limit)); });
  };
  if (settles(torque_max)) return ThermalTorque{torque_max, false, state(torque_max)};
  if (!settles(0)) return std::nullopt;
  double good = 0;
  double bad = torque_max;
  while (bad - good > 1e-6 * torque_max) {
    const double middle = 0.5 * (good + bad);
    (settles(middle) ? good : bad) = middle;
  }
  return ThermalTorque{good, true, state(good)};
}

}  // namespace lobewise::heat
