#include "engine/heat/transient.h"

#include <algorithm>
#include <cmath>

#include "engine/base/dopri5.h"
#include "engine/base/root.h"

namespace lobewise::heat {
namespace {

using Integrator = Dopri5<2>;
constexpr Integrator::State kLocalError{1e-7, 1e-7};  // [K]

/// Runs the two nodes from `start` for `duration`. `on_step(integrator)` sees every tried and permitted step before it
/// is taken and may end the run by returning false.
template <class OnStep>
NodeTemperatures run(const Housing& housing, LossOfTemperature loss, NodeTemperatures start, double duration,
                     OnStep&& on_step) {
  const auto slopes = [&](double, const Integrator::State& y, Integrator::State& dy) {
    const double across = housing.oil_conductance * (y[0] - y[1]);
    dy[0] = (loss(y[0]) - across) / housing.oil_capacity;
    dy[1] = (across - heat_flow(housing, y[1]).net()) / housing.housing_capacity;
  };
  Integrator integrator(2);
  integrator.start(0, {start.oil, start.housing}, slopes);
  double h = std::min(duration, 0.05 * housing.oil_capacity / housing.oil_conductance);
  while (integrator.time() < duration) {
    const double rest = duration - integrator.time();
    const bool last = h >= rest * (1 - 1e-12);
    const double tried = last ? rest : h;
    const double error = integrator.attempt(tried, slopes, kLocalError);
    h = Integrator::next_step(tried, error);
    if (error > 1) {
      continue;
    }
    if (!on_step(integrator)) {
      break;
    }
    integrator.accept();
    if (last) {
      break;
    }
  }
  return {integrator.state()[0], integrator.state()[1]};
}

}  // namespace

double one_node_rise(double power, double conductance, double capacity, double time) {
  return -power / conductance * std::expm1(-conductance * time / capacity);
}

IntermittentRise intermittent_one_node(double power, double conductance, double capacity, double on_time,
                                       double off_time) {
  const double rate = conductance / capacity;
  const double peak = power / conductance * std::expm1(-rate * on_time) / std::expm1(-rate * (on_time + off_time));
  return {peak, peak * std::exp(-rate * off_time)};
}

NodeTemperatures two_node_linear(double power, double oil_conductance, double air_conductance, double oil_capacity,
                                 double housing_capacity, double time) {
  const double a = oil_conductance / oil_capacity;
  const double b = oil_conductance / housing_capacity;
  const double d = b + air_conductance / housing_capacity;
  // x' = -a (x - y) + P/C, y' = b x - d y; both eigenvalues real and negative because a b > 0.
  const double fast = -0.5 * (a + d) - std::sqrt(0.25 * (a - d) * (a - d) + a * b);
  const double slow = a * (d - b) / fast;
  const double y_end = power / air_conductance;
  const double x_end = y_end + power / oil_conductance;
  const double e_slow = std::exp(slow * time);
  const double e_fast = std::exp(fast * time);
  const auto decay = [&](double own, double derivative) {  // row of exp(A t) applied to the final rise
    return ((derivative - fast * own) * e_slow - (derivative - slow * own) * e_fast) / (slow - fast);
  };
  return {x_end - decay(x_end, -a * x_end + a * y_end), y_end - decay(y_end, b * x_end - d * y_end)};
}

std::vector<NodeTemperatures> warm_up(const Housing& housing, LossOfTemperature loss, NodeTemperatures start,
                                      std::span<const double> times) {
  std::vector<NodeTemperatures> out;
  out.reserve(times.size());
  while (out.size() < times.size() && times[out.size()] <= 0) {
    out.push_back(start);
  }
  if (out.size() < times.size()) {
    run(housing, loss, start, times.back(), [&](const Integrator& step) {
      const double end = step.time() + step.step();
      while (out.size() < times.size() && (times[out.size()] <= end || end >= times.back() * (1 - 1e-12))) {
        const double share = (times[out.size()] - step.time()) / step.step();
        out.push_back({step.at(share, 0), step.at(share, 1)});
      }
      return true;
    });
  }
  return out;
}

std::optional<double> time_to_limit(const Housing& housing, LossOfTemperature loss, NodeTemperatures start,
                                    double limit, double horizon) {
  if (start.oil >= limit) {
    return 0.0;
  }
  std::optional<double> found;
  run(housing, loss, start, horizon, [&](const Integrator& step) {
    const double end = step.tried_state()[0] - limit;
    if (end < 0) {
      return true;
    }
    const auto over = [&](double share) { return step.at(share, 0) - limit; };
    found = step.time() + step.step() * bracketed_root(over, 0.0, 1.0, step.state()[0] - limit, end, 1e-12);
    return false;
  });
  return found;
}

std::optional<PeriodicDuty> periodic_duty(const Housing& housing, std::span<const DutyPhase> phases, LossOfPhase loss) {
  double period = 0;
  double air = 0;
  for (const DutyPhase& phase : phases) {
    period += phase.duration;
    air += phase.duration * phase.air_speed;
  }
  Housing mean = housing;
  mean.air_speed = air / period;
  const auto mean_loss = [&](double oil_temperature) {
    double sum = 0;
    for (std::size_t i = 0; i < phases.size(); ++i) {
      sum += phases[i].duration * loss(i, oil_temperature);
    }
    return sum / period;
  };
  PeriodicDuty duty;
  const auto cycle = [&](NodeTemperatures state) {
    duty = {state.oil, state.oil, state.housing, state};
    for (std::size_t i = 0; i < phases.size(); ++i) {
      Housing now = housing;
      now.air_speed = phases[i].air_speed;
      const auto phase_loss = [&](double oil_temperature) { return loss(i, oil_temperature); };
      state = run(now, phase_loss, state, phases[i].duration, [&](const Integrator& step) {
        duty.oil_peak = std::max(duty.oil_peak, step.tried_state()[0]);
        duty.oil_trough = std::min(duty.oil_trough, step.tried_state()[0]);
        duty.housing_peak = std::max(duty.housing_peak, step.tried_state()[1]);
        return step.tried_state()[0] < 2 * kHottestSearched;
      });
    }
    return state;
  };
  const auto steady = steady_state(mean, mean_loss);
  if (!steady) {
    return std::nullopt;
  }
  NodeTemperatures x{steady->oil_temperature, steady->housing_temperature};
  constexpr double kProbe = 0.1;  // [K], far above the integrator's error
  // The map is nearly affine: its slopes serve several steps.
  constexpr int kSlopesServe = 8;
  double a = 0, b = 0, c = 0, d = 0;
  for (int i = 0; i < 20 * kSlopesServe; ++i) {
    const NodeTemperatures y = cycle(x);
    const double r0 = y.oil - x.oil;
    const double r1 = y.housing - x.housing;
    if (std::max(std::abs(r0), std::abs(r1)) < 1e-6) {
      return duty.oil_peak < kHottestSearched ? std::optional(duty) : std::nullopt;
    }
    if (i % kSlopesServe == 0) {
      const NodeTemperatures by_oil = cycle({x.oil + kProbe, x.housing});
      const NodeTemperatures by_housing = cycle({x.oil, x.housing + kProbe});
      a = (by_oil.oil - y.oil) / kProbe - 1;
      b = (by_housing.oil - y.oil) / kProbe;
      c = (by_oil.housing - y.housing) / kProbe;
      d = (by_housing.housing - y.housing) / kProbe - 1;
    }
    const double det = a * d - b * c;
    x.oil -= (d * r0 - b * r1) / det;
    x.housing -= (a * r1 - c * r0) / det;
    if (!(x.oil > 0.5 * housing.ambient_temperature && x.oil < 2 * kHottestSearched &&
          x.housing > 0.5 * housing.ambient_temperature)) {
      return std::nullopt;
    }
  }
  return std::nullopt;
}

}  // namespace lobewise::heat
