#include "engine/evidence/prove.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/sampling.h"
#include "engine/evidence/service_factor.h"

namespace lobewise::evidence {
namespace {

constexpr std::uint64_t kSeed = 20240229;  // any fixed number: the same enquiry gives the same ranges

/// Margins of every check of every question, as they stand with a set of coefficients.
std::vector<std::vector<Check>> all_checks(const drive::Drive& drive, const drive::Coefficients& c) {
  const Evaluation e = evaluate(drive, c);
  std::vector<std::vector<Check>> out;
  for (const Question& question : questions()) out.push_back(question.checks(drive, e));
  return out;
}

/// Smallest margin of a list; infinite without checks.
/// @param promises_only  what was only assumed and the yardsticks of the trade set apart
double worst_margin(const std::vector<Check>& checks, bool promises_only) {
  double worst = std::numeric_limits<double>::infinity();
  for (const Check& check : checks)
    if (!promises_only || check.basis == Basis::promise) worst = std::min(worst, check.margin());
  return worst;
}
double worst_promise(const std::vector<std::vector<Check>>& questions) {
  double worst = std::numeric_limits<double>::infinity();
  for (const std::vector<Check>& checks : questions) worst = std::min(worst, worst_margin(checks, true));
  return worst;
}

void sort_largest_first(std::vector<Influence>& list) {
  std::stable_sort(list.begin(), list.end(),
                   [](const Influence& a, const Influence& b) { return a.change > b.change; });
}

/// Of every unknown on every check, on every finding and on the worst promise of all.
void add_influences(const drive::Drive& drive, Evidence& out) {
  std::vector<std::vector<double>> largest;
  for (const Finding& finding : out.findings) largest.emplace_back(finding.checks.size(), 0.0);
  for (const drive::Unknown& unknown : unknowns_of(drive)) {
    drive::Coefficients low, high;
    low.*unknown.member = unknown.range.low;
    high.*unknown.member = unknown.range.high;
    const auto at_low = all_checks(drive, low), at_high = all_checks(drive, high);
    const std::string label(unknown.label);
    for (std::size_t q = 0; q < at_low.size(); ++q) {
      const double change = std::abs(worst_margin(at_high[q], false) - worst_margin(at_low[q], false));
      if (std::isfinite(change) && change != 0) out.findings[q].influences.push_back({label, change});
      for (std::size_t i = 0; i < std::min({largest[q].size(), at_low[q].size(), at_high[q].size()}); ++i) {
        const double moved = std::abs(at_high[q][i].margin() - at_low[q][i].margin());
        if (!(moved > largest[q][i])) continue;
        largest[q][i] = moved;
        out.findings[q].checks[i].most_depends_on = label;
      }
    }
    out.influences.push_back({label, std::abs(worst_promise(at_high) - worst_promise(at_low))});
  }
  constexpr std::size_t kShown = 3;
  for (Finding& finding : out.findings) {
    sort_largest_first(finding.influences);
    if (finding.influences.size() > kShown) finding.influences.resize(kShown);
  }
  sort_largest_first(out.influences);
}

/// Largest torque, with its radial load, at which every check of contact, life and overhung holds with the oil at a
/// temperature it is allowed [N m]; 0 when none does.
double strength_torque(const drive::Drive& drive, double oil_temperature) {
  double low = 0, high = kStrengthSearch.most;
  for (int i = 0; i < kStrengthSearch.halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (margin_at_factor(drive, {}, middle, oil_temperature) >= 0 ? low : high) = middle;
  }
  return low * drive.requirement.torque;
}

/// 5 % and 95 % of every check over the samples.
void add_ranges(const drive::Drive& drive, int count, std::vector<Finding>& findings) {
  std::vector<std::vector<std::vector<double>>> figures(findings.size());
  for (std::size_t q = 0; q < findings.size(); ++q) figures[q].resize(findings[q].checks.size());
  for (const drive::Coefficients& sample : latin_hypercube(unknowns_of(drive), count, kSeed)) {
    const Evaluation e = evaluate(drive, sample);
    for (std::size_t q = 0; q < findings.size(); ++q) {
      if (!questions()[q].about_build) continue;
      const std::vector<Check> checks = questions()[q].checks(drive, e);
      for (std::size_t i = 0; i < checks.size() && i < figures[q].size(); ++i)
        figures[q][i].push_back(checks[i].figure);
    }
  }
  for (std::size_t q = 0; q < findings.size(); ++q)
    for (std::size_t i = 0; i < figures[q].size(); ++i) {
      std::vector<double>& list = figures[q][i];
      if (list.empty()) continue;
      std::sort(list.begin(), list.end());
      const auto quantile = [&](double share) {
        return list[static_cast<std::size_t>(std::lround(share * static_cast<double>(list.size() - 1)))];
      };
      findings[q].checks[i].low = quantile(0.05);
      findings[q].checks[i].high = quantile(0.95);
    }
}

/// The lubricant's range of temperature, known once everything is sampled, on the charts over it.
void mark_oil_range(const drive::Drive& drive, std::vector<Finding>& findings) {
  const auto named = [&](const char* id) {
    return std::find_if(findings.begin(), findings.end(), [&](const Finding& f) { return f.id == id; });
  };
  const Check& oil = named("heat")->checks.front();
  mark_temperature_range(drive, *oil.low, *oil.high, named("lubrication")->charts);
}

/// What must be true for a finding that neither holds outright nor fails.
Text condition_of(const Finding& finding) {
  const auto kept = [](const Check& check, double figure) {
    return check.at_most ? figure <= check.limit : figure >= check.limit;
  };
  const auto failing = [&](Basis basis) {
    return std::find_if(finding.checks.begin(), finding.checks.end(),
                        [&](const Check& check) { return check.basis == basis && check.margin() < 0; });
  };
  if (const auto check = failing(Basis::assumed); check != finding.checks.end())
    return {fmt::format("what was taken and not said is not so: {} would be {{}}, {{}} is the limit", check->name),
            {{check->figure, check->quantity}, {check->limit, check->quantity}}};
  for (const Check& check : finding.checks) {
    const std::optional<double>& bad = check.at_most ? check.high : check.low;
    if (check.basis == Basis::yardstick || !bad || kept(check, *bad)) continue;
    std::string pattern = fmt::format("the {} stays {} {{}}; over what is not known exactly it may reach {{}}",
                                      check.name, check.at_most ? "below" : "above");
    if (!check.most_depends_on.empty()) pattern += fmt::format(" (most depends on: {})", check.most_depends_on);
    return {pattern, {{check.limit, check.quantity}, {*bad, check.quantity}}};
  }
  if (const auto check = failing(Basis::yardstick); check != finding.checks.end())
    return {fmt::format("nobody asks for the yardstick of the trade: {} is {{}}, usual is {} {{}}; no strength depends "
                        "on it",
                        check->name, check->at_most ? "at most" : "at least"),
            {{check->figure, check->quantity}, {check->limit, check->quantity}}};
  return {};
}

/// Where the load is only bounded by what drives the machine today: which findings hang on it. Their checks fail by a
/// bound that nobody said. Empty where the load is known.
std::vector<bool> hang_on_bounded_load(const drive::Drive& drive, const Evaluation& nominal,
                                       std::vector<Finding>& findings) {
  std::vector<bool> hangs(findings.size(), false);
  if (drive.requirement.demand.settled_by.empty()) return hangs;
  drive::Coefficients half;
  half.torque_factor = 0.5;
  const Evaluation e = evaluate(drive, half);
  for (std::size_t q = 0; q < findings.size(); ++q) {
    if (!questions()[q].about_build) continue;
    std::vector<Check>& checks = findings[q].checks;
    const std::vector<Check> full = questions()[q].checks(drive, nominal), less = questions()[q].checks(drive, e);
    for (std::size_t i = 0; i < std::min({checks.size(), full.size(), less.size()}); ++i) {
      if (full[i].figure == less[i].figure && full[i].limit == less[i].limit) continue;
      hangs[q] = true;
      if (checks[i].basis == Basis::promise) checks[i].basis = Basis::assumed;
    }
  }
  return hangs;
}

/// What holds by a bound of the load holds if it is one; a condition of its own names the measurement beside it.
void bind(const demand::Demand& demand, Finding& finding) {
  if (finding.verdict != Verdict::holds && finding.verdict != Verdict::holds_if) return;
  if (finding.verdict == Verdict::holds_if && finding.condition.empty()) finding.condition = condition_of(finding);
  if (finding.condition.empty())
    finding.condition = {"the machine asks for no more than {} at full load, which its present drive is rated for",
                         {{demand.torque.value, Quantity::torque}}};
  finding.condition.pattern += ". To settle it, measure " + demand.settled_by;
  finding.verdict = Verdict::holds_if;
}

}  // namespace

std::vector<QuickFinding> quick_look(const drive::Drive& drive) {
  const Evaluation e = evaluate(drive, {});
  std::vector<QuickFinding> out;
  for (const Question& question : questions()) {
    if (!question.about_build) continue;
    QuickFinding quick;
    quick.question = &question;
    quick.checks = question.checks(drive, e);
    quick.verdict = judge(quick.checks);
    std::vector<Check> of_build;
    for (const Check& check : quick.checks)
      if (!check.of_order) of_build.push_back(check);
    quick.of_build = judge(of_build);
    out.push_back(std::move(quick));
  }
  if (drive.requirement.service_factor) out.push_back(quick_service(drive, e));
  return out;
}

Evidence prove(const drive::Drive& drive, const ProveOptions& options) {
  Evidence out;
  const drive::Coefficients nominal;
  const Evaluation e = evaluate(drive, nominal);
  const Errors left_out{model_error("in_time", "false", "asked for without")};
  Context context{drive,    e,  left_out,        left_out,
                  left_out, {}, options.in_time, strength_torque(drive, e.oil_temperature)};
  if (options.in_time) {
    context.start = drive::simulate_start(drive, nominal);
    context.first_moments = drive::simulate_first_moments(drive, nominal);
    context.jam = drive::simulate_jam(drive, drive.requirement.demand.jam.angle.nominal, nominal);
    context.events = drive::simulate_events(drive, context.start, nominal);
  }

  for (const Question& question : questions()) {
    Finding finding;
    finding.id = question.id;
    finding.question = question.text;
    finding.checks = question.checks(drive, e);
    question.write(context, finding);
    out.findings.push_back(std::move(finding));
  }
  add_influences(drive, out);
  if (options.samples > 0) {
    add_ranges(drive, options.samples, out.findings);
    mark_oil_range(drive, out.findings);
  }
  const std::vector<bool> bounded = hang_on_bounded_load(drive, e, out.findings);
  for (std::size_t q = 0; q < out.findings.size(); ++q) {
    if (!questions()[q].about_build) continue;
    Finding& finding = out.findings[q];
    finding.verdict = judge(finding.checks);
    if (bounded[q]) bind(drive.requirement.demand, finding);
    if (!finding.missing.empty() && finding.verdict != Verdict::does_not_hold)
      finding.verdict = Verdict::cannot_be_judged;
    if (finding.verdict == Verdict::holds_if && finding.condition.empty()) finding.condition = condition_of(finding);
    if (finding.verdict != Verdict::holds_if) finding.condition = {};
  }
  return out;
}

}  // namespace lobewise::evidence
