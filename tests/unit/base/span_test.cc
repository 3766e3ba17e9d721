// Ranges as people write them.
#include "engine/base/span.h"

#include <gtest/gtest.h>

namespace lobewise {
namespace {

Span read(const char* text, Quantity quantity) { return parse_span(text, quantity, "x").value(); }

TEST(Span, OneTwoAndThreeValues) {
  const Span exact = read("0.16 /kWh", Quantity::energy_price);
  EXPECT_TRUE(exact.exact());
  EXPECT_DOUBLE_EQ(exact.likely, 0.16 / 3.6e6);
  const Span two = read("0.12 … 0.2 /kWh", Quantity::energy_price);
  EXPECT_DOUBLE_EQ(two.low, 0.12 / 3.6e6);
  EXPECT_DOUBLE_EQ(two.likely, 0.16 / 3.6e6);
  const Span three = read("2 to 3 to 6 week", Quantity::duration);
  EXPECT_DOUBLE_EQ(three.low, 2 * 604800.0);
  EXPECT_DOUBLE_EQ(three.likely, 3 * 604800.0);
  EXPECT_DOUBLE_EQ(three.high, 6 * 604800.0);
}

TEST(Span, EachEndMayHaveItsOwnUnit) {
  const Span mixed = read("90 min ... 4 h", Quantity::duration);
  EXPECT_DOUBLE_EQ(mixed.low, 5400);
  EXPECT_DOUBLE_EQ(mixed.high, 14400);
  const Span negative = read("-2 % - 3 %", Quantity::share);
  EXPECT_DOUBLE_EQ(negative.low, -0.02);
  EXPECT_DOUBLE_EQ(negative.high, 0.03);
}

TEST(Span, RefusesWithTheFieldAndTheText) {
  for (const char* text : {"0.2 … 0.1 /kWh", "1 … 2 … 3 … 4 /kWh", "… 2 /kWh", "", "2 m … 3 /kWh"}) {
    const Result<Span> result = parse_span(text, Quantity::energy_price, "economics.energy_price");
    ASSERT_FALSE(result.ok()) << text;
    EXPECT_EQ(result.errors().front().path, "economics.energy_price");
  }
}

}  // namespace
}  // namespace lobewise
