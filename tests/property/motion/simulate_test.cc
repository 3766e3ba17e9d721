// Truths of any chain: the balance closes, nothing pulls through open flanks, a jam is worse when it is faster.
#include "engine/motion/simulate.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace lobewise::motion {
namespace {

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

Scenario any_scenario() {
  Scenario s;
  s.chain.size = *rc::gen::inRange(1, 5);
  for (int i = 0; i < s.chain.size; ++i) {
    const auto at = static_cast<std::size_t>(i);
    s.chain.inertia[at] = std::exp(within(std::log(0.2), std::log(20)));
    if (i + 1 < s.chain.size) {
      s.chain.link[at] = {std::exp(within(std::log(5e4), std::log(8e5))), within(0, 1) < 0.5 ? 0 : 2e8,
                          within(0, 1) < 0.5 ? 0 : within(20, 400), within(0, 1) < 0.3 ? 0 : within(1e-5, 3e-3)};
    }
  }
  if (within(0, 1) < 0.7) {
    s.drive.motor =
        *MotorCurve::from_catalogue({157.08, 49.4, 151.8, within(60, 140), within(50, 120), within(121, 160)});
    s.drive.ratio = within(6, 60);
    s.drive.efficiency = within(0, 1) < 0.5 ? 1 : within(0.7, 0.99);
    s.drive.starting.kind = static_cast<Starting>(*rc::gen::inRange(0, 4));
    s.drive.starting.ramp_time = within(0.02, 0.5);
  } else {
    s.drive.torque = within(-1500, 1500);
  }
  s.load.active = within(0, 1) < 0.5 ? 0 : within(0, 500);
  s.load.friction = within(0, 1) < 0.5 ? 0 : within(0, 500);
  s.load.curve_torque = within(0, 1) < 0.5 ? 0 : within(0, 500);
  s.load.curve_speed = 9;
  s.speed = within(0, 1) < 0.5 ? 0 : within(-10, 10);
  s.flanks = static_cast<InitialFlanks>(*rc::gen::inRange(0, 4));
  s.wound_torque = s.flanks == InitialFlanks::wound ? within(-500, 500) : 0;
  s.duration = 0.15;
  double time = 0;
  for (int count = *rc::gen::inRange(0, 4); count > 0; --count) {
    time += within(0, 0.05);
    const auto kind = static_cast<EventKind>(*rc::gen::inRange(s.chain.size > 1 ? 0 : 1, 5));
    s.events.push_back({kind, time, kind == EventKind::brake ? within(0, 1500) : within(0, 0.2)});
  }
  return s;
}

RC_GTEST_PROP(MotionProperty, EnergyBalanceCloses, ()) {
  const Scenario s = any_scenario();
  const auto outcome = simulate(s);
  if (!outcome.ok()) RC_FAIL(outcome.errors()[0].path + ": " + outcome.errors()[0].message);
  RC_ASSERT(outcome->energy_error < 1e-6);
  RC_ASSERT(outcome->dissipated >= -1e-6 * (1 + std::abs(outcome->dissipated)));
  RC_ASSERT(outcome->rotor_heat >= 0);
  RC_ASSERT(outcome->steps < 30000);
}

RC_GTEST_PROP(MotionProperty, FasterJamsAndShorterStopsAreWorse, ()) {
  Scenario s;
  s.chain.size = 2;
  s.chain.inertia = {within(1, 10), 1};
  s.chain.link[0] = {within(1e5, 5e5), within(0, 1) < 0.5 ? 0 : 3e8, 0, within(0, 2e-3)};
  s.speed = within(1, 9);
  s.flanks = InitialFlanks::touching;
  const double angle = within(0.005, 0.1);
  s.events = {{EventKind::jam, 0, angle}};
  s.duration = 0.2;
  const double first = simulate(s)->links[0].spring_peak;
  s.speed *= 1.1;
  RC_ASSERT(simulate(s)->links[0].spring_peak > first);
  s.speed /= 1.1;
  s.events[0].value = 0;
  RC_ASSERT(simulate(s)->links[0].spring_peak >= first * (1 - 1e-7));
}

}  // namespace
}  // namespace lobewise::motion
