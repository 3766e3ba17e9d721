#include "engine/evidence/prove.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/evidence/sampling.h"

namespace lobewise::evidence {
namespace {

constexpr std::uint64_t kSeed = 20240229;  // any fixed number: the same enquiry gives the same ranges

/// Smallest margin over all checks of all questions about the build.
double worst_margin(const drive::Drive& drive, const drive::Coefficients& c) {
  const Evaluation e = evaluate(drive, c);
  double worst = std::numeric_limits<double>::infinity();
  for (const Question& question : questions())
    for (const Check& check : question.checks(drive, e)) worst = std::min(worst, check.margin());
  return worst;
}

std::vector<Influence> influences_of(const drive::Drive& drive) {
  std::vector<Influence> out;
  for (const drive::Unknown& unknown : unknowns_of(drive)) {
    drive::Coefficients low, high;
    low.*unknown.member = unknown.range.low;
    high.*unknown.member = unknown.range.high;
    out.push_back({std::string(unknown.label), std::abs(worst_margin(drive, high) - worst_margin(drive, low))});
  }
  std::stable_sort(out.begin(), out.end(), [](const Influence& a, const Influence& b) { return a.change > b.change; });
  return out;
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

/// What must be true for a finding that holds at nominal values only.
Text condition_of(const Finding& finding, const std::vector<Influence>& influences) {
  for (const Check& check : finding.checks) {
    const std::optional<double>& bad = check.at_most ? check.high : check.low;
    if (!bad || (check.at_most ? *bad <= check.limit : *bad >= check.limit)) continue;
    std::string pattern = fmt::format("the {} stays {} {{}}; over what is not known exactly it may reach {{}}",
                                      check.name, check.at_most ? "below" : "above");
    if (!influences.empty() && influences.front().change > 0)
      pattern += fmt::format(" (most depends on: {})", influences.front().unknown);
    return {pattern, {{check.limit, check.quantity}, {*bad, check.quantity}}};
  }
  return {};
}

}  // namespace

Verdict overall(const std::vector<Finding>& findings) {
  const auto any = [&](Verdict verdict) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.verdict == verdict; });
  };
  if (any(Verdict::does_not_hold)) return Verdict::does_not_hold;
  if (any(Verdict::holds_if) || any(Verdict::cannot_be_judged)) return Verdict::holds_if;
  return Verdict::holds;
}

std::vector<QuickFinding> quick_look(const drive::Drive& drive) {
  const Evaluation e = evaluate(drive, {});
  std::vector<QuickFinding> out;
  for (const Question& question : questions()) {
    if (!question.about_build) continue;
    QuickFinding quick{&question, question.checks(drive, e), Verdict::cannot_be_judged};
    quick.verdict = judge(quick.checks);
    out.push_back(std::move(quick));
  }
  return out;
}

Evidence prove(const drive::Drive& drive, const ProveOptions& options) {
  Evidence out;
  const drive::Coefficients nominal;
  const Evaluation e = evaluate(drive, nominal);
  const Context context{drive,
                        e,
                        drive::simulate_start(drive, nominal),
                        drive::simulate_first_moments(drive, nominal),
                        drive::simulate_jam(drive, drive.requirement.demand.jam.angle.nominal, nominal),
                        drive::simulate_events(drive, nominal)};

  for (const Question& question : questions()) {
    Finding finding;
    finding.id = question.id;
    finding.question = question.text;
    finding.checks = question.checks(drive, e);
    question.write(context, finding);
    out.findings.push_back(std::move(finding));
  }
  out.influences = influences_of(drive);
  if (options.samples > 0) add_ranges(drive, options.samples, out.findings);
  for (std::size_t q = 0; q < out.findings.size(); ++q) {
    if (!questions()[q].about_build) continue;
    Finding& finding = out.findings[q];
    finding.verdict = judge(finding.checks);
    if (!finding.missing.empty() && finding.verdict != Verdict::does_not_hold)
      finding.verdict = Verdict::cannot_be_judged;
    if (finding.verdict == Verdict::holds_if) finding.condition = condition_of(finding, out.influences);
  }
  return out;
}

}  // namespace lobewise::evidence
