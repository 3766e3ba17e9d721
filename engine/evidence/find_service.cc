// service: the service factor that the customer asks for.

#include <algorithm>
#include <limits>

#include "engine/base/formula/record.h"
#include "engine/evidence/prove.h"
#include "engine/evidence/sampling.h"
#include "engine/evidence/service_factor.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

constexpr int kSamples = 60;
constexpr std::uint64_t kSeed = 20240229;  // as the ranges of every other finding

/// Share of what is not known exactly in which the factor is not carried.
double failing_share(const Drive& drive, double factor, double oil_temperature) {
  int failing = 0;
  for (const drive::Coefficients& sample : latin_hypercube(unknowns_of(drive), kSamples, kSeed))
    failing += margin_at_factor(drive, sample, factor, oil_temperature) < 0 ? 1 : 0;
  return static_cast<double>(failing) / kSamples;
}

/// Bars: what strength carries, what the machine runs at, and that times the factor asked for.
Chart service_chart(double carried, double running, const std::optional<double>& factor) {
  Chart chart{"service_torque",
              "Torque that strength carries beside the running torque",
              "What",
              "Torque at the output shaft",
              Quantity::number,
              Quantity::torque,
              {},
              true};
  chart.series = {{"strength carries", {0}, {carried}, false}, {"running torque", {1}, {running}, false}};
  if (factor) chart.series.push_back({"running torque times the factor asked for", {2}, {*factor * running}, false});
  return chart;
}

}  // namespace

double margin_at_factor(const Drive& drive, const drive::Coefficients& c, double factor, double oil_temperature) {
  drive::Coefficients at = c;
  at.torque_factor *= factor;
  const Evaluation e = evaluate(drive, at, std::min(oil_temperature, drive::lubricant_limit(drive.oil)));
  double tightest = std::numeric_limits<double>::infinity();
  for (const auto checks : {contact_checks, life_checks, overhung_checks})
    for (const Check& check : checks(drive, e)) tightest = std::min(tightest, check.margin());
  return tightest;
}

QuickFinding quick_service(const Drive& drive, const Evaluation& nominal) {
  const double factor = *drive.requirement.service_factor;
  const double margin = margin_at_factor(drive, nominal.coefficients, factor, nominal.oil_temperature);
  QuickFinding quick;
  for (const Question& question : questions())
    if (question.write == write_service) quick.question = &question;
  quick.checks = {{"strength at the service factor asked for", 1 + margin, 1, Quantity::number, false, {}, {}}};
  quick.verdict = quick.of_build = judge(quick.checks);
  return quick;
}

void write_service(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const double torque = drive.requirement.torque, carried = context.strength_torque / torque;
  const std::optional<double>& asked = drive.requirement.service_factor;
  out.checks.push_back(
      {"torque it carries over the running torque", carried, asked.value_or(1.0), Quantity::number, false, {}, {}});
  formula::record(
      out.working, "f_s",
      "service factor that strength allows: the torque at which contact, life and overhung load still hold, over the "
      "running torque",
      Quantity::number,
      formula::input("T_strength", "largest torque that strength carries", context.strength_torque, Quantity::torque) /
          formula::input("T", "running torque", torque, Quantity::torque),
      "derived, docs/theory/rating.md");
  out.verdict = judge(out.checks);
  if (asked) {
    out.answer = {carried >= *asked
                      ? "A service factor of {} is asked for; it carries {} times the running torque."
                      : "A service factor of {} is asked for; it carries {} times the running torque only.",
                  {{*asked, Quantity::number}, {carried, Quantity::number}}};
    const double failing = failing_share(drive, *asked, context.nominal.oil_temperature);
    constexpr double kRare = 0.05;
    if (out.verdict == Verdict::holds && failing > kRare) {
      out.verdict = Verdict::holds_if;
      out.condition = {
          "what is not known exactly does not all fall badly: in {} of its range the factor is not carried",
          {{failing, Quantity::share}}};
    }
  } else {
    out.answer = {"No service factor is asked for; it carries {} times the running torque.",
                  {{carried, Quantity::number}}};
  }
  if (const std::string& settled_by = drive.requirement.demand.settled_by;
      !settled_by.empty() && out.verdict == Verdict::holds) {
    out.verdict = Verdict::holds_if;
    out.condition = {"the machine asks for no more than {} at full load. To settle it, measure " + settled_by,
                     {{torque, Quantity::torque}}};
  }
  out.notes.push_back(
      {"The factor stands on the running torque of this machine, not on a rated torque, and on strength alone: "
       "contact, "
       "life on the hours and the duty that are asked, and the shaft with its pull. Heat has its own line.",
       {}});
  if (const auto& practice = drive.requirement.practice)
    out.notes.push_back(
        {"Usual tables would ask {} to {} for such a machine (common practice); the duty computed here "
         "comes to {}.",
         {{practice->practice.low, Quantity::number},
          {practice->practice.high, Quantity::number},
          {practice->computed.value, Quantity::number}}});
  out.charts.push_back(service_chart(context.strength_torque, torque, asked));
  out.left_out = {"A factor that a contract sets on another rating than this one."};
}

}  // namespace lobewise::evidence
