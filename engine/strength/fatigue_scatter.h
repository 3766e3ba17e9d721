#pragma once
// Parts that stand for ever below a fatigue limit have no Weibull life; their limits scatter from part to part. Scatter
// in data/fatigue_scatter.csv. Theory: docs/theory/life.md.

#include <string_view>

#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::strength {

/// Lognormal scatter of a fatigue limit.
struct FatigueScatter {
  double deviation = 0;       ///< s of ln(limit)
  double share_at_limit = 0;  ///< of parts that stand the limit stated
  Coefficient variation;      ///< standard deviation over mean, with its source
};
enum class FatiguePart { shaft, output_pin };
[[nodiscard]] const FatigueScatter& fatigue_scatter(FatiguePart part);

/// Standard deviation of the logarithm: sqrt(ln(1 + v^2)) of a coefficient of variation v >= 0. Source: lognormal
/// distribution.
template <class X>
X log_deviation(const X& variation) {
  using namespace formula;
  return sqrt(ln(1 + variation * variation));
}

/// Standard score of a stress under a scattered limit: z = ln(median/stress)/s. Share that stands it: Phi(z).
/// @param median, stress > 0 [Pa]  @param deviation s > 0
template <class X>
X fatigue_score(const X& median, const X& stress, const X& deviation) {
  using namespace formula;
  return ln(median / stress) / deviation;
}

/// Median of a limit that a share of the parts stands: limit exp(z s), z = normal_score(share).
template <class X>
X median_limit(const X& limit, const X& score, const X& deviation) {
  using namespace formula;
  return limit * exp(score * deviation);
}

/// ln Phi(z), log of the share that stands; 0 for z towards infinity.
[[nodiscard]] double log_standing(double score);
/// z with Phi(z) = share in (0, 1), within 1e-12.
[[nodiscard]] double normal_score(double share);

}  // namespace lobewise::strength
