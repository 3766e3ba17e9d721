#include "engine/contact/elastic/panel_factor.h"

#include <gtest/gtest.h>

#include <Eigen/Core>
#include <cmath>

namespace {
using namespace lobewise::contact::elastic;

/// Arrow of blocks: three separate groups of five places that all touch the last four; group 2 touches nothing wanted.
struct Example {
  static constexpr int kCount = 19;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(kCount, kCount);
  std::vector<int> starts, rows;
  std::vector<double> entries, diagonal;
  Example() {
    for (int i = 0; i < kCount; ++i)
      for (int j = 0; j <= i; ++j) {
        const bool linked = i / 5 == j / 5 || i >= 15;
        if (linked) K(i, j) = K(j, i) = i == j ? 30 + i : std::sin(3.0 * i + 7.0 * j);
      }
    // Outer-product elimination; the groups fill up inside themselves only.
    Eigen::MatrixXd rest = K;
    for (int j = 0; j < kCount; ++j) {
      starts.push_back(static_cast<int>(rows.size()));
      diagonal.push_back(rest(j, j));
      for (int i = j + 1; i < kCount; ++i)
        if (i / 5 == j / 5 || i >= 15) {
          rows.push_back(i);
          entries.push_back(rest(i, j) / rest(j, j));
        }
      for (int i = j + 1; i < kCount; ++i)
        for (int k = j + 1; k < kCount; ++k) rest(i, k) -= rest(i, j) * rest(k, j) / diagonal[j];
    }
    starts.push_back(static_cast<int>(rows.size()));
  }
  [[nodiscard]] PanelFactor factor(const std::vector<char>& wanted) const {
    return {{starts, rows, entries, diagonal}, wanted};
  }
};

std::vector<double> loads(const std::vector<int>& places) {
  std::vector<double> x(Example::kCount * kBlock, 0.0);
  for (const int place : places)
    for (int k = 0; k < kBlock; ++k) x[place * kBlock + k] = std::cos(1.0 + place + 2.0 * k);
  return x;
}

TEST(PanelFactor, SolvesEveryRightSide) {
  const Example example;
  std::vector<int> all;
  for (int i = 0; i < Example::kCount; ++i) all.push_back(i);
  const auto b = loads(all);
  auto x = b;
  example.factor(std::vector<char>(Example::kCount, 1)).solve(x);
  for (int k = 0; k < kBlock; ++k)
    for (int i = 0; i < Example::kCount; ++i) {
      double sum = 0;
      for (int j = 0; j < Example::kCount; ++j) sum += example.K(i, j) * x[j * kBlock + k];
      EXPECT_NEAR(sum, b[i * kBlock + k], 1e-13);
    }
}

TEST(PanelFactor, LeavesOutWhatIsNotWanted) {
  const Example example;
  const std::vector<int> places = {2, 3, 8};
  std::vector<char> wanted(Example::kCount, 0);
  for (const int place : places) wanted[place] = 1;
  auto full = loads(places), part = loads(places);
  const PanelFactor factor = example.factor(wanted);
  factor.solve(full);
  factor.solve_wanted(part);
  for (const int place : places)
    for (int k = 0; k < kBlock; ++k) EXPECT_EQ(part[place * kBlock + k], full[place * kBlock + k]);
  // The group that nobody asked about was left alone.
  EXPECT_EQ(part[12 * kBlock], 0);
  EXPECT_NE(full[12 * kBlock], 0);
}

}  // namespace
