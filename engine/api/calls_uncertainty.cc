// uncertainty.*, sensitivity.*, tolerance.*: what is not known exactly, and what a drawing allows.
#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "engine/api/calls.h"
#include "engine/base/formula/expression.h"
#include "engine/tolerance/iso_286.h"
#include "engine/uncertainty/coverage.h"
#include "engine/uncertainty/propagation.h"
#include "engine/uncertainty/sobol_sequence.h"

namespace lobewise::api {
namespace {

using uncertainty::Distribution;

constexpr std::size_t kLongestFormula = 4000;
/// Evaluations of one request.
constexpr double kMostEvaluations = 4e6;
constexpr model::Limits kSeeds{0, 1e15};
constexpr double kNotGiven = std::numeric_limits<double>::quiet_NaN();

std::uint64_t seed_of(Arguments& in) {
  return static_cast<std::uint64_t>(in.number_or("seed", Quantity::number, 1, kSeeds));
}

/// x_1 … x_count.
std::vector<std::string> symbols(std::size_t count) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i <= count; ++i) names.push_back(fmt::format("x_{}", i));
  return names;
}

Result<formula::Expression> expression_of(const std::string& text, std::size_t count) {
  auto read = formula::Expression::read(text, symbols(count));
  if (read) return read;
  Errors errors = read.errors();
  for (Error& error : errors) error.path = "expression";
  return errors;
}

Distribution read_distribution(Arguments& in) {
  using Kind = Distribution::Kind;
  Distribution d;
  const std::string kind = in.text("kind", {"normal", "rectangular", "t"});
  d.kind = kind == "normal" ? Kind::normal : kind == "t" ? Kind::student : Kind::rectangular;
  const auto read = [&](const char* key, double& value, bool wanted, model::Limits limits) {
    const double found = in.number_or(key, Quantity::number, kNotGiven, limits);
    const bool given = in.has(key);
    if (given && wanted) value = found;
    if (in.ok() && given != wanted)
      in.refuse(key, wanted ? fmt::format("is needed for a distribution of kind {}", kind)
                            : fmt::format("is no part of a distribution of kind {}", kind));
  };
  const bool rectangular = d.kind == Kind::rectangular;
  read("mean", d.mean, !rectangular, {});
  read("deviation", d.deviation, !rectangular, kPositive);
  read("low", d.low, rectangular, {});
  read("high", d.high, rectangular, {});
  read("degrees", d.degrees, d.kind == Kind::student, {1, 1e9});
  if (in.ok() && rectangular && !(d.low < d.high)) in.refuse("high", "must be above low");
  return d;
}

void propagate(Arguments& in, Json& out) {
  std::vector<Distribution> distributions;
  for (Arguments& one : in.records("distributions")) {
    distributions.push_back(read_distribution(one));
    in.absorb(one);
  }
  const std::string text = in.free_text("expression", kLongestFormula);
  const int samples = in.count("samples", {20, 1e6});
  const std::uint64_t seed = seed_of(in);
  if (in.ok() && static_cast<double>(samples) * static_cast<double>(distributions.size()) > kMostEvaluations)
    in.refuse("samples", fmt::format("samples times distributions may be at most {:.0f}", kMostEvaluations));
  if (in.ok() && distributions.size() > uncertainty::SobolSequence::kMostDimensions)
    in.refuse("distributions", fmt::format("at most {} are allowed", uncertainty::SobolSequence::kMostDimensions));
  if (!in.ok()) return;
  const auto expression = expression_of(text, distributions.size());
  if (!expression) return in.refuse(expression.errors());
  const auto value = [&](const std::vector<double>& x) { return expression->value(x); };
  const auto found = uncertainty::propagate(distributions, value, samples, seed);
  if (!found) return in.refuse(found.errors());
  out = Json{{"mean", found->mean},
             {"deviation", found->deviation},
             {"low_95", found->low_95},
             {"high_95", found->high_95},
             {"gum_mean", found->gum_mean},
             {"gum_deviation", found->gum_deviation},
             {"gum_degrees", found->gum_degrees}};
  if (!std::isfinite(found->gum_degrees)) out["gum_degrees"] = nullptr;
}

void sobol(Arguments& in, Json& out) {
  std::vector<uncertainty::Interval> ranges;
  for (const auto& [low, high] : in.intervals("ranges")) ranges.push_back({low, high});
  const std::string text = in.free_text("expression", kLongestFormula);
  const int samples = in.count("samples", {2, 1e6});
  const std::uint64_t seed = seed_of(in);
  constexpr int kMost = uncertainty::SobolSequence::kMostDimensions / 2;
  if (in.ok() && ranges.size() > kMost) in.refuse("ranges", fmt::format("at most {} are allowed", kMost));
  const double evaluations = samples * (static_cast<double>(ranges.size()) + 2);
  if (in.ok() && evaluations > kMostEvaluations)
    in.refuse("samples", fmt::format("samples times (ranges + 2) is {:.0f}; at most {:.0f} are allowed", evaluations,
                                     kMostEvaluations));
  if (!in.ok()) return;
  const auto expression = expression_of(text, ranges.size());
  if (!expression) return in.refuse(expression.errors());
  const auto value = [&](const std::vector<double>& x) { return expression->value(x); };
  const auto found = uncertainty::sobol_indices(ranges, value, samples, seed);
  if (!found) return in.refuse(found.errors());
  out = Json{{"first", found->first}, {"total", found->total}, {"mean", found->mean}, {"variance", found->variance}};
}

}  // namespace

void add_uncertainty_calls(Registry& registry) {
  registry.add("uncertainty.propagate", "Distribution of a formula's value from those of x_1, x_2 …", propagate);
  registry.add("uncertainty.share", "Interval of a share from failures among trials (95 %)",
               [](Arguments& in, Json& out) {
                 const int failures = in.count("failures", {0, 1e9});
                 const int trials = in.count("trials", {1, 1e9});
                 if (in.ok() && failures > trials) in.refuse("failures", "must be at most the trials");
                 if (!in.ok()) return;
                 const auto interval = uncertainty::share_interval(failures, trials, 0.95);
                 out["low_95"] = interval.low;
                 out["high_95"] = interval.high;
                 out["at_most_95"] = uncertainty::share_at_most(failures, trials, 0.95);
               });
  registry.add("sensitivity.sobol", "Shares of a formula's variance by x_1, x_2 …, uniform in ranges", sobol);
  registry.add("tolerance.fit", "Tolerance of a grade of ISO 286-1, before rounding", [](Arguments& in, Json& out) {
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const int grade = in.count("grade", {5, 8});
    if (!in.ok()) return;
    const auto found = tolerance::grade_tolerance(diameter, grade);
    if (!found) return in.refuse(found.errors());
    out["tolerance"] = *found;
  });
}

}  // namespace lobewise::api
