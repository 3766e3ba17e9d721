// The simulator against an integrator from outside: GNU Scientific Library, rk8pd (Prince-Dormand 8(9)), on equations
// written out here again without events: the flank law as max(), dense output replaced by very small steps.
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/motion/simulate.h"

namespace lobewise::motion {
namespace {

struct Plain {
  std::array<double, 3> inertia{};
  std::array<Link, 2> link{};
  double drive = 0;
  const MotorCurve* motor = nullptr;
  double ratio = 1;
  double load = 0;
  double deceleration = 0;  // of the last inertia while it is being stopped
  double stop_time = 0;

  [[nodiscard]] double torque(const double y[], int l) const {
    const Link& k = link[static_cast<std::size_t>(l)];
    const double d = y[l] - y[l + 1];
    const double v = y[3 + l] - y[4 + l];
    const double x = std::abs(d) - k.play;
    if (x <= 0) return 0;
    const double side = d > 0 ? 1 : -1;
    return side * std::max(0.0, x * (k.stiffness + k.cubic * x * x) + k.damping * side * v);
  }
};

int slopes(double t, const double y[], double dy[], void* data) {
  const Plain& p = *static_cast<const Plain*>(data);
  const double first = p.torque(y, 0);
  const double second = p.torque(y, 1);
  const double drive = p.motor != nullptr ? p.ratio * p.motor->torque(p.ratio * y[3]) : p.drive;
  for (int i = 0; i < 3; ++i) dy[i] = y[3 + i];
  dy[3] = (drive - first) / p.inertia[0];
  dy[4] = (first - second) / p.inertia[1];
  dy[5] = p.deceleration > 0 ? (t < p.stop_time ? -p.deceleration : 0.0) : (second - p.load) / p.inertia[2];
  return GSL_SUCCESS;
}

/// Runs to `duration` in steps of at most `step` and returns the largest |torque| of both links seen at the steps.
std::array<double, 2> peaks(Plain plain, std::array<double, 6> y, double duration, double step) {
  gsl_odeiv2_system system{slopes, nullptr, 6, &plain};
  gsl_odeiv2_driver* driver = gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, step, 1e-13, 1e-12);
  std::array<double, 2> most{};
  double t = 0;
  const int steps = static_cast<int>(std::ceil(duration / step));
  for (int i = 1; i <= steps; ++i) {
    if (gsl_odeiv2_driver_apply(driver, &t, duration * i / steps, y.data()) != GSL_SUCCESS)
      ADD_FAILURE() << "GSL stopped";
    for (std::size_t l = 0; l < 2; ++l)
      most[l] = std::max(most[l], std::abs(plain.torque(y.data(), static_cast<int>(l))));
  }
  gsl_odeiv2_driver_free(driver);
  return most;
}

Chain with_play() {
  Chain chain;
  chain.size = 3;
  chain.inertia = {5.55, 0.3, 3.0};
  chain.link[0] = {4e5, 3e8, 0, 4e-4};
  chain.link[1] = {3e5, 0, 0, 8e-4};
  return chain;
}

void expect_peaks(const Outcome& outcome, const std::array<double, 2>& second) {
  // Peaks at steps of 10 us miss the summit of a 100 Hz swing by less than (w h)^2/8 = 5e-6.
  for (std::size_t l = 0; l < 2; ++l) {
    EXPECT_NEAR(outcome.links[l].spring_peak, second[l], 2e-5 * second[l]) << "link " << l;
  }
}

TEST(SecondIntegrator, DirectStartThroughPlayAgainstAFan) {
  const auto motor = MotorCurve::from_catalogue({157.08, 49.4, 151.8, 98.8, 79, 128});
  ASSERT_TRUE(motor.ok());
  Scenario scenario;
  scenario.chain = with_play();
  scenario.drive.motor = *motor;
  scenario.drive.ratio = 17;
  scenario.load.active = 300;
  scenario.flanks = InitialFlanks::opposite;
  scenario.duration = 0.12;
  const auto outcome = simulate(scenario);
  ASSERT_TRUE(outcome.ok());
  Plain plain{{5.55, 0.3, 3.0}, {scenario.chain.link[0], scenario.chain.link[1]}, 0, &*motor, 17, 300, 0, 0};
  expect_peaks(*outcome, peaks(plain, {-4e-4 - 8e-4, -8e-4, 0, 0, 0, 0}, 0.12, 1e-5));
  EXPECT_GT(outcome->links[1].impacts, 1) << "the case must exercise the flanks";
}

TEST(SecondIntegrator, JamWithinFiveDegrees) {
  Scenario scenario;
  scenario.chain = with_play();
  scenario.drive.torque = 600;
  scenario.speed = 8.93;
  scenario.flanks = InitialFlanks::touching;
  scenario.events = {{EventKind::jam, 0, 0.0873}};
  scenario.duration = 0.08;
  const auto outcome = simulate(scenario);
  ASSERT_TRUE(outcome.ok());
  Plain plain{{5.55, 0.3, 3.0}, {scenario.chain.link[0], scenario.chain.link[1]}, 600};
  plain.deceleration = 0.5 * 8.93 * 8.93 / 0.0873;
  plain.stop_time = 2 * 0.0873 / 8.93;
  expect_peaks(*outcome, peaks(plain, {1.2e-3, 8e-4, 0, 8.93, 8.93, 8.93}, 0.08, 1e-5));
}

TEST(SecondIntegrator, DampedChainWithPlay) {
  Scenario scenario;
  scenario.chain = with_play();
  scenario.chain.link[0].damping = 150;
  scenario.chain.link[1].damping = 120;
  scenario.drive.torque = 900;
  scenario.flanks = InitialFlanks::middle;
  scenario.duration = 0.15;
  const auto outcome = simulate(scenario);
  ASSERT_TRUE(outcome.ok());
  // The peak of spring and damper together: compared with the highest torque seen at the simulator's steps.
  Plain plain{{5.55, 0.3, 3.0}, {scenario.chain.link[0], scenario.chain.link[1]}, 900};
  const auto second = peaks(plain, {}, 0.15, 1e-5);
  for (std::size_t l = 0; l < 2; ++l) EXPECT_NEAR(outcome->links[l].highest_torque, second[l], 2e-3 * second[l]) << l;
}

}  // namespace
}  // namespace lobewise::motion
