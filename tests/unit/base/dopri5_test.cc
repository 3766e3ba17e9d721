#include "engine/base/dopri5.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/root.h"

namespace lobewise {
namespace {

// y' = y cos t, y = exp(sin t): smooth, not polynomial, not autonomous.
void swing(double t, const Dopri5<1>::State& y, Dopri5<1>::State& dy) { dy[0] = y[0] * std::cos(t); }

double end_error(int steps) {
  Dopri5<1> integrator(1);
  integrator.start(0, {1}, swing);
  for (int i = 0; i < steps; ++i) {
    integrator.attempt(2.0 / steps, swing, {1});
    integrator.accept();
  }
  return std::abs(integrator.state()[0] - std::exp(std::sin(2.0)));
}

TEST(Dopri5, Order_OfTheStepIsFive) {
  const double order = std::log2(end_error(20) / end_error(40));
  EXPECT_NEAR(order, 5, 0.3);
}

TEST(Dopri5, Order_OfDenseOutputIsFourLocallyFive) {
  const auto inside = [](double h) {
    Dopri5<1> integrator(1);
    integrator.start(0.3, {std::exp(std::sin(0.3))}, swing);
    integrator.attempt(h, swing, {1});
    double worst = 0;
    for (const double share : {0.2, 0.4, 0.6, 0.8})
      worst = std::max(worst, std::abs(integrator.at(share, 0) - std::exp(std::sin(0.3 + share * h))));
    return worst;
  };
  EXPECT_NEAR(std::log2(inside(0.2) / inside(0.1)), 5, 0.3);
}

TEST(Dopri5, DenseOutputMeetsBothEndsOfTheStep) {
  Dopri5<1> integrator(1);
  integrator.start(0, {1}, swing);
  integrator.attempt(0.1, swing, {1});
  EXPECT_DOUBLE_EQ(integrator.at(0, 0), 1);
  EXPECT_DOUBLE_EQ(integrator.at(1, 0), integrator.tried_state()[0]);
}

TEST(Dopri5, ErrorEstimateFallsWithTheFifthPowerOfTheStep) {
  const auto estimate = [](double h) {
    Dopri5<1> integrator(1);
    integrator.start(0.3, {1}, swing);
    return integrator.attempt(h, swing, {1});
  };
  EXPECT_NEAR(std::log2(estimate(0.1) / estimate(0.05)), 5, 0.3);
}

TEST(BracketedRoot, FindsRootsOfEasyAndHardFunctions) {
  const auto line = [](double x) { return x - 0.3; };
  EXPECT_NEAR(bracketed_root(line, 0, 1, -0.3, 0.7, 1e-14), 0.3, 1e-14);
  const auto flat = [](double x) { return std::pow(x - 0.7, 9); };
  EXPECT_NEAR(bracketed_root(flat, 0, 1, flat(0), flat(1), 1e-12), 0.7, 1e-12);
  const auto jump = [](double x) { return x < 0.123456789 ? -1.0 : 1.0; };
  EXPECT_NEAR(bracketed_root(jump, 0, 1, -1, 1, 1e-12), 0.123456789, 1e-12);
  const auto down = [](double x) { return 1 - x * x; };
  EXPECT_NEAR(bracketed_root(down, 0, 5, 1, -24, 1e-13), 1, 1e-13);
}

}  // namespace
}  // namespace lobewise
