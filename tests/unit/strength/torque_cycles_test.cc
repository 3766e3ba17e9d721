#include "engine/strength/torque_cycles.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::strength {
namespace {

TEST(TorqueCycles, SlopeOfTheWoehlerLine) {
  // By hand: f S_ut / S_e = 0.85 * 800 / 272 = 2.5, lg = 0.39794, k = 7.5388.
  EXPECT_NEAR(woehler_exponent(800e6, 272e6), 7.5388, 1e-4);
}

TEST(TorqueCycles, AMillionCyclesAreWorthTheirOwnAmplitude) {
  EXPECT_DOUBLE_EQ(equivalent_amplitude({{120, 1e6}}, 8), 120);
  EXPECT_NEAR(equivalent_amplitude({{120, 5e5}, {120, 5e5}}, 8), 120, 1e-9);
  // 1000 cycles do what a million of (10^-3)^(1/8) of their amplitude do: 0.42170.
  EXPECT_NEAR(equivalent_amplitude({{120, 1e3}}, 8), 120 * 0.42170, 1e-3);
  EXPECT_EQ(equivalent_amplitude({}, 8), 0);
  EXPECT_EQ(equivalent_amplitude({{0, 1e9}}, 8), 0);
}

TEST(TorqueCycles, MoreCyclesNeverDoLess) {
  const double few = equivalent_amplitude({{100, 1e4}, {50, 1e5}}, 9);
  EXPECT_GT(equivalent_amplitude({{100, 1e4}, {50, 1e6}}, 9), few);
  EXPECT_GT(equivalent_amplitude({{110, 1e4}, {50, 1e5}}, 9), few);
}

}  // namespace
}  // namespace lobewise::strength
