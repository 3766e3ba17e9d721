#include "engine/uncertainty/sobol_sequence.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace {
using lobewise::uncertainty::SobolSequence;

// As commonly printed for three dimensions (from memory).
TEST(SobolSequence, FirstPoints) {
  const double points[][3] = {{0, 0, 0},
                              {0.5, 0.5, 0.5},
                              {0.75, 0.25, 0.25},
                              {0.25, 0.75, 0.75},
                              {0.375, 0.375, 0.625},
                              {0.875, 0.875, 0.125},
                              {0.625, 0.125, 0.875},
                              {0.125, 0.625, 0.375}};
  const SobolSequence plain(3, 0);
  for (std::uint32_t i = 0; i < 8; ++i)
    for (int d = 0; d < 3; ++d) EXPECT_EQ(plain.at(i, d), points[i][d]) << i << " " << d;
}

/// Each of 2^k equal intervals of every coordinate holds one of the first 2^k points.
TEST(SobolSequence, EveryCoordinateIsEven) {
  for (const std::uint64_t scramble : {0ULL, 5ULL}) {
    const SobolSequence points(SobolSequence::kMostDimensions, scramble);
    for (int d = 0; d < points.dimensions(); ++d) {
      std::set<int> cells;
      for (std::uint32_t i = 0; i < 1024; ++i) cells.insert(static_cast<int>(points.at(i, d) * 1024));
      EXPECT_EQ(cells.size(), 1024u) << d;
    }
  }
}

/// Pairs of the first dimensions form (t, m, 2)-nets of the t that primitive polynomials of degrees s give, at most the
/// sum of (s - 1): every elementary box of area 2^(t - m) holds 2^t of the first 2^m points, scrambled or not.
TEST(SobolSequence, PairsAreNets) {
  const int degrees[] = {1, 1, 2, 3, 3, 4, 4, 5};  // of the polynomial; the first dimension counts as degree 1
  constexpr int m = 10;
  for (const std::uint64_t scramble : {0ULL, 9ULL}) {
    const SobolSequence points(8, scramble);
    for (int a = 0; a < 8; ++a)
      for (int b = a + 1; b < 8; ++b) {
        const int t = degrees[a] + degrees[b] - 2;
        for (int ka = 0; ka <= m - t; ++ka) {
          const int kb = m - t - ka;
          std::vector<int> boxes(std::size_t{1} << static_cast<unsigned>(m - t));
          for (std::uint32_t i = 0; i < (1U << m); ++i) {
            const int x = static_cast<int>(std::ldexp(points.at(i, a), ka));
            const int y = static_cast<int>(std::ldexp(points.at(i, b), kb));
            ++boxes[static_cast<std::size_t>((x << kb) + y)];
          }
          for (const int held : boxes) ASSERT_EQ(held, 1 << t) << a << " " << b << " " << ka;
        }
      }
  }
}

TEST(SobolSequence, SeedsReproduceAndDiffer) {
  const SobolSequence one(12, 77), same(12, 77), other(12, 78);
  int different = 0;
  for (std::uint32_t i = 0; i < 100; ++i)
    for (int d = 0; d < 12; ++d) {
      EXPECT_EQ(one.at(i, d), same.at(i, d));
      EXPECT_GT(one.at(i, d), 0);
      EXPECT_LT(one.at(i, d), 1);
      different += one.at(i, d) != other.at(i, d) ? 1 : 0;
    }
  EXPECT_GT(different, 1150);
}

/// The mean over points of one seed is unbiased: over many seeds it comes to the integral, far closer than random
/// points.
TEST(SobolSequence, MeansOverSeedsAreUnbiased) {
  double sum = 0, squares = 0;
  constexpr int kSeeds = 200, kPoints = 64;
  for (int seed = 1; seed <= kSeeds; ++seed) {
    const SobolSequence points(4, static_cast<std::uint64_t>(seed));
    double mean = 0;
    for (std::uint32_t i = 0; i < kPoints; ++i) {
      double product = 1;
      for (int d = 0; d < 4; ++d) product *= 2 * points.at(i, d);
      mean += product / kPoints;
    }
    sum += mean;
    squares += (mean - 1) * (mean - 1);
  }
  const double deviation = std::sqrt(squares / kSeeds);
  EXPECT_NEAR(sum / kSeeds, 1, 4 * deviation / std::sqrt(static_cast<double>(kSeeds)));
  EXPECT_LT(deviation, 0.5 * std::sqrt((std::pow(4.0 / 3, 4) - 1) / kPoints));  // random points: 0.184
}

}  // namespace
