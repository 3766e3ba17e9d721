// Lognormal fatigue limits.
#include "engine/strength/fatigue_scatter.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/strength/shaft.h"

namespace lobewise::strength {
namespace {

TEST(FatigueScatter, NormalDistribution) {  // handbook table of the normal distribution
  EXPECT_NEAR(normal_score(0.975), 1.95996, 5e-6);
  EXPECT_NEAR(normal_score(0.9), 1.28155, 5e-6);
  EXPECT_NEAR(std::exp(log_standing(0)), 0.5, 1e-12);
  EXPECT_NEAR(std::exp(log_standing(3)), 0.99865, 5e-6);
  EXPECT_NEAR(std::exp(log_standing(-1)), 0.15866, 5e-6);
  EXPECT_EQ(log_standing(40), 0);
}

TEST(FatigueScatter, EightPercent) {
  EXPECT_NEAR(log_deviation(0.08), 0.079872, 5e-7);  // sqrt(ln 1.0064)
  const double s = fatigue_scatter(FatiguePart::shaft).deviation;
  EXPECT_NEAR(s, 0.079872, 5e-7);
  // Shigley's k_e = 1 - 0.08 z (from memory) is a normal distribution of the same width: 0.897 at 90 %, 0.814 at 99 %;
  // the lognormal one has the longer tail upwards and lies above it, 0.903 and 0.830.
  EXPECT_NEAR(std::exp(-normal_score(0.9) * s), 0.897, 0.006);
  EXPECT_NEAR(std::exp(-normal_score(0.99) * s), 0.814, 0.017);
}

TEST(FatigueScatter, LimitOfPracticeStandsForItsShare) {
  const FatigueScatter& pin = fatigue_scatter(FatiguePart::output_pin);
  const double median = median_limit(300e6, normal_score(pin.share_at_limit), pin.deviation);
  EXPECT_NEAR(std::exp(log_standing(fatigue_score(median, 300e6, pin.deviation))), 0.975, 1e-9);
  EXPECT_NEAR(median, 350.8e6, 0.1e6);  // 300 exp(1.95996 * 0.079872)
}

// The endurance limit that a load needs is the one with which its Goodman safety is 1.
TEST(EnduranceNeeded, GivesSafetyOne) {
  FatigueLoad load;
  load.moment_amplitude = 700;
  load.torque_mean = 900;
  load.torque_amplitude = 200;
  const double needed = endurance_needed(load, 0.06, 700e6);
  EXPECT_NEAR(goodman_safety(load, 0.06, needed, 700e6), 1, 1e-12);
}

TEST(MomentForSafety, GivesThatSafety) {
  FatigueLoad load;
  load.torque_mean = 900;
  load.torque_amplitude = 200;
  load.moment_amplitude = moment_for_safety(load, 0.06, 200e6, 700e6, 1.5);
  EXPECT_GT(load.moment_amplitude, 0);
  EXPECT_NEAR(goodman_safety(load, 0.06, 200e6, 700e6), 1.5, 1e-12);
  load.torque_mean = 1e5;
  EXPECT_EQ(moment_for_safety(load, 0.06, 200e6, 700e6, 1.5), 0);
}

}  // namespace
}  // namespace lobewise::strength
