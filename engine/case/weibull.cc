#include "engine/case/weibull.h"

#include <algorithm>
#include <cmath>

namespace lobewise::cost {
namespace {

double powered(const Weibull& w, double time) { return std::pow(time / w.scale, w.shape); }

/// ln(n / 2). A grid of equal steps asks for no other logarithm, and asks for these again and again.
double log_of_half(std::size_t n) {
  static const std::vector<double> known = [] {
    std::vector<double> table(512, 0.0);
    for (std::size_t i = 1; i < table.size(); ++i) table[i] = std::log(0.5 * static_cast<double>(i));
    return table;
  }();
  return n < known.size() ? known[n] : std::log(0.5 * static_cast<double>(n));
}

}  // namespace

double mean_life(const Weibull& w) { return w.scale * std::tgamma(1 + 1 / w.shape); }

std::vector<double> cumulative_failures(const Weibull& w, double age, double interval, int count) {
  std::vector<double> at_ends(static_cast<std::size_t>(count), 0.0);
  if (interval <= 0) {
    return at_ends;
  }
  const double mean = mean_life(w);
  const double pieces = std::clamp(std::ceil(8 * interval / mean), 2.0, 1000.0);
  const std::size_t per_interval = static_cast<std::size_t>(pieces);
  const double h = interval / pieces;
  const std::size_t total = per_interval * static_cast<std::size_t>(count);
  const std::size_t grid = std::min(total, static_cast<std::size_t>(std::ceil(10 * mean / h)));
  // (k h / eta)^beta = exp(beta (ln k + ln(h / eta)))
  const double step_power = w.shape * std::log(h / w.scale);
  const auto failed_new = [&](std::size_t half_steps) {
    return 1 - std::exp(-std::exp(w.shape * log_of_half(half_steps) + step_power));
  };
  const double survived = powered(w, age);
  const auto failed_aged = [&](std::size_t k) {
    return age > 0 ? 1 - std::exp(survived - powered(w, age + static_cast<double>(k) * h)) : failed_new(2 * k);
  };
  std::vector<double> middle(grid + 1, 0.0);  // F at (k - 1/2) h
  for (std::size_t k = 1; k <= grid; ++k) {
    middle[k] = failed_new(2 * k - 1);
  }
  std::vector<double> failures(total + 1, 0.0);
  for (std::size_t i = 1; i <= grid; ++i) {
    double sum = failed_aged(i);
    for (std::size_t j = 1; j < i; ++j) {
      sum += middle[i - j + 1] * (failures[j] - failures[j - 1]);
    }
    failures[i] = (sum - middle[1] * failures[i - 1]) / (1 - middle[1]);
  }
  for (std::size_t i = grid + 1; i <= total; ++i) {
    failures[i] = failures[i - 1] + h / mean;
  }
  for (std::size_t k = 0; k < at_ends.size(); ++k) {
    at_ends[k] = failures[(k + 1) * per_interval];
  }
  return at_ends;
}

}  // namespace lobewise::cost
