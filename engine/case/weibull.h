#pragma once
// How often parts fail: Weibull lives and renewal.

#include <vector>

namespace lobewise::cost {

/// R(t) = exp(-(t / eta)^beta). Times in s of running.
struct Weibull {
  double shape = 1;  ///< beta > 0; below 1 early failures, 1 chance, above 1 wear
  double scale = 1;  ///< eta > 0, s: 63.2 % have failed
};

/// Mean life eta Gamma(1 + 1/beta), s.
[[nodiscard]] double mean_life(const Weibull& w);

/// Expected number of failures up to the end of each of `count` intervals, each failed part replaced by a new one; the
/// first one is `age` old. M(t) = F_1(t) + integral of F(t - x) dM(x), by midpoint steps (Xie, Communications in
/// Statistics B 18 (1989) 281-293, from memory) of at most an eighth of the mean life; beyond ten mean lives the count
/// grows by 1/mean.
/// @param age, interval  s, >= 0;  @param count  >= 1
[[nodiscard]] std::vector<double> cumulative_failures(const Weibull& w, double age, double interval, int count);

}  // namespace lobewise::cost
