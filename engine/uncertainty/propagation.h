#pragma once
// What is not known exactly of a formula's inputs, carried to its value and shared out among them.

#include <cstdint>
#include <vector>

#include "engine/base/function_ref.h"
#include "engine/base/result.h"
#include "engine/uncertainty/distributions.h"

namespace lobewise::uncertainty {

/// A model: value at the given inputs.
using Model = FunctionRef<double(const std::vector<double>&)>;

struct Propagated {
  double mean = 0, deviation = 0;
  double low_95 = 0, high_95 = 0;  ///< shortest interval that holds 95 % of the samples (JCGM 101:2008, 5.3.4)
  double gum_mean = 0;             ///< value at the best estimates
  double gum_deviation = 0;        ///< first order at the best estimates (JCGM 100:2008, 5.1.2)
  double gum_degrees = 0;          ///< of freedom by Welch and Satterthwaite (G.4); infinite without a Student
};

/// Samples of scrambled Sobol' points. Errors: a model that has no value at some point.
/// Preconditions: 1 … SobolSequence::kMostDimensions distributions, samples >= 20.
[[nodiscard]] Result<Propagated> propagate(const std::vector<Distribution>& distributions, Model model, int samples,
                                           std::uint64_t seed);

struct Indices {
  std::vector<double> first, total;  ///< share of the variance by input
  double mean = 0, variance = 0;
};

/// Estimators of Saltelli (first order; Comput. Phys. Commun. 181, 2010, (b)) and Jansen (total; 1999): with a, b, ab_i
/// the values at two samples and at the first with input i from the second,
/// S_i = mean((b - f0)(ab_i - a)) / V, S_Ti = mean((a - ab_i)^2) / (2 V). Subtracting the mean f0 keeps S_i and takes
/// away its error by the mean. Zero where nothing varies.
[[nodiscard]] Indices indices_of(const std::vector<double>& a, const std::vector<double>& b,
                                 const std::vector<std::vector<double>>& ab);

struct Interval {
  double low = 0, high = 1;
};
/// Indices of a model whose inputs are uniform in intervals, by n (d + 2) evaluations at scrambled Sobol' points.
/// Errors: a model that has no value at some point. Preconditions: 1 … kMostDimensions / 2 intervals, samples >= 2.
[[nodiscard]] Result<Indices> sobol_indices(const std::vector<Interval>& intervals, Model model, int samples,
                                            std::uint64_t seed);

}  // namespace lobewise::uncertainty
