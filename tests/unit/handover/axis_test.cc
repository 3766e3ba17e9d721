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
  EXPECT_EQ(labels(linear_axis(-3, 4, 6)), (std::vector<std::string>{"\u22124", "\u22122", "0", "2", "4"}));
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

TEST(Axis, LogarithmicEndsNextToItsData) {
  const Axis axis = log_axis(3000, 800000, 6);
  EXPECT_DOUBLE_EQ(axis.low, 2000);
  EXPECT_DOUBLE_EQ(axis.high, 1e6);
  EXPECT_NEAR(axis.share(2e3), 0, 1e-12);
  EXPECT_NEAR(axis.share(std::sqrt(2e9)), 0.5, 1e-12);
  EXPECT_EQ(labels(axis), (std::vector<std::string>{"10\u202f000", "100\u202f000", "1\u202f000\u202f000"}));
  EXPECT_EQ(labels(log_axis(7, 44, 6)), (std::vector<std::string>{"5", "10", "20", "50"}));
  EXPECT_EQ(labels(log_axis(0.3, 1, 6)), (std::vector<std::string>{"0.2", "0.5", "1"}));
  EXPECT_EQ(labels(log_axis(1, 1e12, 6)).size(), 7U);
  const Axis one = log_axis(10, 10, 6);  // a single value gets room
  EXPECT_LE(one.low, 10);
  EXPECT_GT(one.high, 10);
}

}  // namespace
}  // namespace lobewise::handover
