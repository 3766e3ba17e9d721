// Weibull lives and renewal against closed forms and an independent series.
#include "engine/case/weibull.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::cost {
namespace {

// Poisson: for beta = 1 failures come evenly whatever the age.
TEST(WeibullReference, ChanceFailuresComeEvenly) {
  const Weibull w = {1, 100};
  const auto m = cumulative_failures(w, 1234, 25, 12);
  for (std::size_t i = 0; i < m.size(); ++i) {
    EXPECT_NEAR(m[i], 0.25 * static_cast<double>(i + 1), 2e-3 * m[i]);
  }
}

/// Renewal function of a Weibull life as a power series in t^beta: M = sum (-1)^(k-1) A_k (t/eta)^(k beta) / Gamma(k
/// beta + 1) with A_k = g_k - sum_{j<k} g_j A_{k-j}, g_k = Gamma(k beta + 1)/k!; Smith and Leadbetter, Technometrics 5
/// (1963) 393-396, from memory (the recursion follows from the renewal equation).
double renewal_series(double beta, double x) {
  constexpr int kTerms = 40;
  double a[kTerms + 1] = {};
  const auto g = [&](int k) { return std::exp(std::lgamma(k * beta + 1) - std::lgamma(k + 1.0)); };
  double sum = 0;
  for (int k = 1; k <= kTerms; ++k) {
    a[k] = g(k);
    for (int j = 1; j < k; ++j) {
      a[k] -= g(j) * a[k - j];
    }
    sum += (k % 2 == 1 ? 1 : -1) * a[k] * std::exp(k * beta * std::log(x) - std::lgamma(k * beta + 1));
  }
  return sum;
}

TEST(WeibullReference, RenewalMatchesItsSeries) {
  for (const double beta : {1.3, 2.0}) {
    const Weibull w = {beta, 1};
    const auto m = cumulative_failures(w, 0, 0.25, 6);
    for (std::size_t i = 0; i < m.size(); ++i) {
      const double x = 0.25 * static_cast<double>(i + 1);
      EXPECT_NEAR(m[i] / renewal_series(beta, x), 1, 0.01) << beta << " " << x;
    }
  }
}

TEST(WeibullReference, LongRunIsOneFailurePerMeanLife) {
  // Elementary renewal theorem with its second term: M -> t/mu + (s^2 - mu^2)/(2 mu^2).
  const Weibull w = {2, 1};
  const double mean = mean_life(w);
  EXPECT_NEAR(mean, std::sqrt(std::acos(-1.0)) / 2, 1e-12);
  const double variance = 1 - mean * mean;
  const auto m = cumulative_failures(w, 0, 1, 50);
  EXPECT_NEAR(m.back(), 50 / mean + (variance - mean * mean) / (2 * mean * mean), 0.05);
}

}  // namespace
}  // namespace lobewise::cost
