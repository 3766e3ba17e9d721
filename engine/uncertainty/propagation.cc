#include "engine/uncertainty/propagation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/uncertainty/sobol_sequence.h"

namespace lobewise::uncertainty {
namespace {

Error no_value(const std::vector<double>& inputs) {
  std::vector<double> shown(inputs.begin(), inputs.begin() + std::min<std::ptrdiff_t>(8, std::ssize(inputs)));
  return model_error("expression", fmt::format("{:.6g}", fmt::join(shown, ", ")),
                     "has no finite value where its symbols are these; narrow the inputs or change the formula.");
}

/// Shortest interval of sorted values that holds a share of them.
Interval shortest(const std::vector<double>& sorted, double share) {
  const auto count = sorted.size();
  const auto inside = std::min(count - 1, static_cast<std::size_t>(share * static_cast<double>(count) + 0.5));
  std::size_t best = 0;
  for (std::size_t i = 0; i + inside < count; ++i)
    if (sorted[i + inside] - sorted[i] < sorted[best + inside] - sorted[best]) best = i;
  return {sorted[best], sorted[best + inside]};
}

/// d model / d input by differences of fourth order over a thousandth of the input's uncertainty.
Result<double> slope(Model model, std::vector<double> at, std::size_t input, double uncertainty) {
  if (uncertainty == 0) return 0.0;
  const double centre = at[input], h = 1e-3 * uncertainty;
  double sum = 0;
  for (const auto& [step, weight] : {std::pair{-2, 1.0}, {-1, -8.0}, {1, 8.0}, {2, -1.0}}) {
    at[input] = centre + step * h;
    const double value = model(at);
    if (!std::isfinite(value)) return no_value(at);
    sum += weight * value;
  }
  return sum / (12 * h);
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

}  // namespace

Result<Propagated> propagate(const std::vector<Distribution>& distributions, Model model, int samples,
                             std::uint64_t seed) {
  const std::size_t d = distributions.size();
  Propagated out;
  std::vector<double> inputs(d);
  for (std::size_t i = 0; i < d; ++i) inputs[i] = estimate(distributions[i]);
  out.gum_mean = model(inputs);
  if (!std::isfinite(out.gum_mean)) return no_value(inputs);
  double variance = 0, spent = 0;
  for (std::size_t i = 0; i < d; ++i) {
    const double u = standard_uncertainty(distributions[i]);
    const Result<double> c = slope(model, inputs, i, u);
    if (!c) return c.errors();
    const double part = *c * u * *c * u;
    variance += part;
    if (distributions[i].kind == Distribution::Kind::student) spent += part * part / distributions[i].degrees;
  }
  out.gum_deviation = std::sqrt(variance);
  out.gum_degrees = spent > 0 ? variance * variance / spent : std::numeric_limits<double>::infinity();

  const SobolSequence points(static_cast<int>(d), mixed(seed, 1) | 1U);
  std::vector<double> values(static_cast<std::size_t>(samples));
  for (std::size_t s = 0; s < values.size(); ++s) {
    for (std::size_t i = 0; i < d; ++i)
      inputs[i] = value_at(distributions[i], points.at(static_cast<std::uint32_t>(s), static_cast<int>(i)));
    values[s] = model(inputs);
    if (!std::isfinite(values[s])) return no_value(inputs);
  }
  out.mean = mean_of(values);
  double squares = 0;
  for (const double value : values) squares += (value - out.mean) * (value - out.mean);
  out.deviation = std::sqrt(squares / static_cast<double>(values.size() - 1));
  std::sort(values.begin(), values.end());
  const Interval interval = shortest(values, 0.95);
  out.low_95 = interval.low;
  out.high_95 = interval.high;
  return out;
}

Indices indices_of(const std::vector<double>& a, const std::vector<double>& b,
                   const std::vector<std::vector<double>>& ab) {
  Indices out;
  const auto n = static_cast<double>(a.size());
  out.mean = (mean_of(a) + mean_of(b)) / 2;
  for (const auto* half : {&a, &b})
    for (const double value : *half) out.variance += (value - out.mean) * (value - out.mean) / (2 * n);
  for (const std::vector<double>& mixed_values : ab) {
    double first = 0, total = 0;
    for (std::size_t s = 0; s < a.size(); ++s) {
      first += (b[s] - out.mean) * (mixed_values[s] - a[s]) / n;
      total += (a[s] - mixed_values[s]) * (a[s] - mixed_values[s]) / (2 * n);
    }
    out.first.push_back(out.variance > 0 ? first / out.variance : 0);
    out.total.push_back(out.variance > 0 ? total / out.variance : 0);
  }
  return out;
}

Result<Indices> sobol_indices(const std::vector<Interval>& intervals, Model model, int samples, std::uint64_t seed) {
  const std::size_t d = intervals.size();
  const SobolSequence points(static_cast<int>(2 * d), mixed(seed, 2) | 1U);
  const auto count = static_cast<std::size_t>(samples);
  std::vector<double> a(count), b(count), inputs(d), others(d);
  std::vector<std::vector<double>> ab(d, std::vector<double>(count));
  for (std::size_t s = 0; s < count; ++s) {
    for (std::size_t i = 0; i < d; ++i) {
      const auto at = [&](std::size_t dimension) {
        return intervals[i].low + (intervals[i].high - intervals[i].low) *
                                      points.at(static_cast<std::uint32_t>(s), static_cast<int>(dimension));
      };
      inputs[i] = at(i);
      others[i] = at(d + i);
    }
    a[s] = model(inputs);
    if (!std::isfinite(a[s])) return no_value(inputs);
    b[s] = model(others);
    if (!std::isfinite(b[s])) return no_value(others);
    for (std::size_t i = 0; i < d; ++i) {
      const double own = std::exchange(inputs[i], others[i]);
      ab[i][s] = model(inputs);
      if (!std::isfinite(ab[i][s])) return no_value(inputs);
      inputs[i] = own;
    }
  }
  return indices_of(a, b, ab);
}

}  // namespace lobewise::uncertainty
