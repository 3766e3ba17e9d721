#include "engine/demand/rainflow.h"

#include <gtest/gtest.h>

#include <map>

namespace lobewise::demand {
namespace {

// ASTM E1049-85, section 5.4.4, worked example of its figure 6 (from memory): peaks -2 1 -3 5 -1 3 -4 4 -2; counts by
// range 3: 0.5, 4: 1.5, 6: 0.5, 8: 1.0, 9: 0.5.
TEST(Rainflow, WorkedExampleOfAstmE1049) {
  std::map<double, double> counts;
  std::vector<Cycle> order;
  const auto sink = [&](const Cycle& c) {
    counts[c.range] += c.count;
    order.push_back(c);
  };
  Rainflow counter;
  for (const double x : {-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0}) counter.push(x, sink);
  counter.finish(sink);
  const std::map<double, double> expected{{3, 0.5}, {4, 1.5}, {6, 0.5}, {8, 1.0}, {9, 0.5}};
  EXPECT_EQ(counts, expected);
  // Order of the standard's table: A-B half, B-C half, E-F one, C-D half, then D-G, G-H, H-I halves.
  ASSERT_EQ(order.size(), 7u);
  EXPECT_EQ(order[2].range, 4);
  EXPECT_EQ(order[2].count, 1);
  EXPECT_EQ(order[2].mean, 1);
}

}  // namespace
}  // namespace lobewise::demand
