// cost: when does it pay back, and how sure is that.

#include <fmt/format.h>

#include <algorithm>

#include "engine/evidence/case_of.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

constexpr int kSamples = 400;      ///< of the case; the quantiles move by about a percent of the spread
constexpr int kLossSamples = 40;   ///< of the candidate's losses
constexpr std::size_t kNoted = 3;  ///< figures named as the most important ones

/// The whole cost of both over the horizon. The range is that of the difference, which is what decides.
Check cost_check(const CaseStudy& study) {
  const double keep = study.result.keep.present.total();
  return {fmt::format("cost over {} years, in money of today, against the {}", study.setup.input.years,
                      study.setup.input.keep.name),
          study.result.candidate.present.total(),
          keep,
          Quantity::money,
          true,
          keep - study.spread.npv_high,
          keep - study.spread.npv_low};
}

/// Years until it has paid back against the horizon; nothing when it never does.
std::optional<Check> payback_check(const CaseStudy& study) {
  if (!study.result.payback) return std::nullopt;
  Check check{"years until it has paid back",
              *study.result.payback,
              static_cast<double>(study.setup.input.years),
              Quantity::number,
              true,
              study.spread.payback.low,
              study.spread.payback.high};
  if (check.low) check.low = std::min(*check.low, check.figure);
  if (check.high) check.high = std::max(*check.high, check.figure);
  return check;
}

void add_notes(const CaseStudy& study, Finding& out) {
  const cost::CaseResult& r = study.result;
  const double energy = r.keep.energy - r.candidate.energy;
  out.notes.push_back({energy >= 0 ? "It saves {} of electric energy in the first year."
                                   : "It needs {} more electric energy in the first year: the geared unit wins there.",
                       {{std::abs(energy), Quantity::energy}}});
  if (r.return_rate.rate)
    out.notes.push_back(
        {r.return_rate.ambiguous
             ? "The money put in returns {} a year; the savings change sign more than once, so that the "
               "rate is ambiguous."
             : "The money put in returns {} a year.",
         {{*r.return_rate.rate, Quantity::share}}});
  for (const cost::BreakEven& turn : study.break_evens) out.notes.push_back(turn.sentence);
  for (std::size_t i = 0; i < study.sensitivities.size() && i < kNoted; ++i) {
    const cost::Sensitivity& s = study.sensitivities[i];
    if (s.swing() > 0)
      out.notes.push_back(
          {fmt::format("The {} alone moves the present value from {{}} to {{}} between {{}} and {{}}.", s.label),
           {{s.npv_at_low, Quantity::money},
            {s.npv_at_high, Quantity::money},
            {s.low, s.quantity},
            {s.high, s.quantity}}});
  }
  if (study.with_spare)
    out.notes.push_back(
        {fmt::format("With one of the new units bought for the shelf the present value would be {}.", study.amount()),
         {{*study.with_spare, Quantity::money}}});
  for (const std::string& what : study.setup.not_counted)
    out.notes.push_back({fmt::format("Not counted, because nobody said it: {}.", what), {}});
  if (study.setup.input.keep.stoppages.stated)
    out.notes.push_back(
        {"The present drive stops as the plant counted; the candidate, which has no history here, as "
         "open figures for any reducer.",
         {}});
  else
    out.notes.push_back(
        {"Both stop as open figures for any reducer say: no open field data tells them apart. A count "
         "by the plant would.",
         {}});
}

}  // namespace

void write_cost(const Context& context, Finding& out) {
  const drive::Drive& drive = context.drive;
  out.left_out = {"Taxes, financing and inflation; scrap and resale; carbon of making either unit.",
                  "Inverter losses, reactive power and the peak price of energy.",
                  "The candidate's losses at the warmest surroundings; on colder days thicker oil costs more."};
  out.cautions.push_back({"case_estimate",
                          "The case is an estimate over ranges, no promise: check prices, stoppages and hours with the "
                          "plant before anybody decides."});
  if (!drive.requirement.not_offered.empty()) {
    out.answer = {"No price is named where nothing is offered.", {}};
    out.missing.push_back(drive.requirement.not_offered);
    return;
  }
  out.missing = missing_for_case(drive);
  if (!out.missing.empty()) {
    out.answer = {"Too little is known of the present drive or of the money to say when it pays back.", {}};
    return;
  }
  const auto fail = [&](const Errors& errors) {
    const Error& error = errors.front();
    out.answer = {"The case cannot be computed: " + error.message, {}};
    out.missing.push_back((error.path.empty() ? "" : error.path + ": ") + error.message);
  };
  const incumbent::UnitDuty duty = duty_of(drive, context.nominal);
  const Result<incumbent::GearUnit> unit = unit_beside(drive, context.nominal);
  if (!unit) return fail(unit.errors());
  const cost::DriveLosses losses = candidate_losses(drive, context.nominal, kLossSamples);
  const Against first = deciding(drive.requirement);
  const std::optional<CaseOf> setup = case_of(drive, *unit, losses, first);
  if (!setup) {
    out.answer = {"The present unit must go, and nobody has quoted a new one of its kind.", {}};
    out.missing.emplace_back("a quote for a new unit of the present kind");
    return;
  }
  Result<CaseStudy> main = study(*setup, first, kSamples);
  if (!main) return fail(main.errors());
  main->spare = spare_answer(drive, *unit, losses, first);
  out.answer = case_sentence(*main);
  out.checks.push_back(cost_check(*main));
  if (main->hangs_on_spare()) {
    out.missing.emplace_back("whether a spare of the present unit lies on the shelf (economics.spare_on_shelf)");
    out.verdict = Verdict::cannot_be_judged;
  } else {
    if (const std::optional<Check> check = payback_check(*main)) out.checks.push_back(*check);
    out.verdict = judge(out.checks);
  }
  const std::string& settled_by = drive.requirement.demand.settled_by;
  if (out.verdict == Verdict::holds && !settled_by.empty()) {
    out.verdict = Verdict::holds_if;
    out.condition = {"the machine really takes the load that was only bounded: measure " + settled_by, {}};
  } else if (out.verdict == Verdict::holds_if) {
    const std::string most = main->sensitivities.empty() ? "" : main->sensitivities.front().label;
    out.condition = {
        "the figures turn out near the likely ones: between the 5 % and the 95 % case the present value "
        "runs from {} to " +
            main->amount() + (most.empty() ? "" : " (most depends on: " + most + ")"),
        {{main->spread.npv_low, Quantity::money}, {main->spread.npv_high, Quantity::money}}};
  }
  add_notes(*main, out);
  const Against second = first == Against::present ? Against::replacement : Against::present;
  if (const std::optional<CaseOf> other = case_of(drive, *unit, losses, second)) {
    const Result<CaseStudy> aside = study(*other, second, kSamples);
    if (aside) {
      out.notes.push_back(case_sentence(*aside));
      if (second == Against::replacement)
        out.notes.push_back(
            {"Against an old unit the case mostly shows the age; against a new one of its kind it shows the "
             "difference.",
             {}});
    }
  } else if (second == Against::replacement) {
    out.notes.push_back(
        {"An aged unit against a new one mostly shows the age: ask for a quote for a new unit of the "
         "present kind and look at both.",
         {}});
  }
  out.working = incumbent::unit_working(*unit, duty);
  for (const WorkingStep& step : cost::case_working(main->setup.input, main->result)) out.working.push_back(step);
  out.charts = {cash_flow_chart(*main), cost_parts_chart(*main), sensitivity_chart(*main)};
}

}  // namespace lobewise::evidence
