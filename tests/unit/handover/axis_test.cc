#include "apps/handover/axis.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::handover {
namespace {

std::vector<std::string> labels(const Axis& axis) {
  std::vector<std::string> out;
  for (const Tick& t : axis.ticks) out.push_back(t.label);
  return out;
}

TEST(Axis, LinearHasRoundNumbersAroundTheData) {
  EXPECT_EQ(labels(linear_axis(0, 1467, 6)), (std::vector<std::string>{"0", "500", "1000", "1500"}));
  EXPECT_EQ(labels(linear_axis(0.02, 0.09, 6)), (std::vector<std::string>{"0.02", "0.04", "0.06", "0.08", "0.10"}));
  EXPECT_EQ(labels(linear_axis(-3, 4, 6)), (std::vector<std::string>{"-4", "-2", "0", "2", "4"}));
}

TEST(Axis, EveryLinearAxisCoversItsDataWithFewTicks) {
  for (double low : {-1e5, -3.7, 0.0, 0.013, 12.0, 9e6})
    for (double span : {1e-3, 0.7, 5.0, 3333.0, 2e7})
      for (int most : {2, 4, 6, 9}) {
        const Axis axis = linear_axis(low, low + span, most);
        EXPECT_LE(axis.low, low + 1e-9 * span);
        EXPECT_GE(axis.high, low + span - 1e-9 * span);
        EXPECT_GE(axis.ticks.size(), 2U);
        EXPECT_LE(axis.ticks.size(), static_cast<std::size_t>(most) + 2);
      }
}

TEST(Axis, EqualValuesAreWidened) {
  const Axis axis = linear_axis(5, 5, 4);
  EXPECT_LT(axis.low, 5);
  EXPECT_GT(axis.high, 5);
}

TEST(Axis, LogarithmicHasDecades) {
  const Axis axis = log_axis(3000, 800000, 6);
  EXPECT_DOUBLE_EQ(axis.low, 1000);
  EXPECT_DOUBLE_EQ(axis.high, 1e6);
  EXPECT_NEAR(axis.share(1e3), 0, 1e-12);
  EXPECT_NEAR(axis.share(std::sqrt(1e9)), 0.5, 1e-12);
  EXPECT_EQ(labels(log_axis(1, 1e12, 6)).size(), 7U);
}

}  // namespace
}  // namespace lobewise::handover
