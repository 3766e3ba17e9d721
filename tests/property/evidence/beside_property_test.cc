// Truths of the comparison for every drive in service and every price.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/evidence/case_of.h"
#include "engine/range/demo_range.h"

namespace lobewise::evidence {
namespace {

constexpr double kHour = 3600;

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }
Span exactly(double value) { return {value, value, value}; }
Span around(double low, double high) {
  const double a = within(low, high), b = within(low, high), c = within(low, high);
  return {std::min({a, b, c}), std::max(std::min(a, b), std::min(std::max(a, b), c)), std::max({a, b, c})};
}

/// One invented drive, put together once; rigid discs are enough for money and dimensions.
const drive::Drive& base() {
  static const drive::Drive kept = [] {
    enquiry::Enquiry enquiry;
    demand::MeasuredDrive machine;
    machine.measured_torque = 1200;
    machine.speed = 47 * 2 * kPi / 60;
    enquiry.machine.measured = machine;
    const auto table = [](const range::Stage& stage) {
      Result<drive::StageTable> made = drive::rigid_stage_table(stage);
      return Result<std::shared_ptr<const drive::StageTable>>(
          std::make_shared<const drive::StageTable>(std::move(*made)));
    };
    const auto build = drive::find_build(range::demo_range(), {"ring-265", 31, "", std::nullopt});
    return drive::assemble(*enquiry::require(enquiry), *build, table).value();
  }();
  return kept;
}
const Evaluation& nominal() {
  static const Evaluation kept = evaluate(base(), {});
  return kept;
}
const cost::DriveLosses& losses() {
  static const cost::DriveLosses kept = candidate_losses(base(), nominal(), 10);
  return kept;
}

drive::Drive any_drive() {
  drive::Drive drive = base();
  enquiry::Incumbent in;
  in.kind = static_cast<incumbent::UnitKind>(*rc::gen::inRange(0, 7));
  in.running_time = within(0, 60000) * kHour;
  enquiry::Economics m;
  m.years = *rc::gen::inRange(1, 20);
  m.energy_price = around(2e-8, 2e-7);
  m.stop_cost = around(0, 2000);
  if (*rc::gen::arbitrary<bool>()) m.stops_per_year = around(0, 3);
  m.repair_time = around(0, 100 * kHour);
  m.repair_cost = around(0, 5000);
  m.candidate_spare = *rc::gen::arbitrary<bool>();
  m.candidate_price = exactly(within(200, 9000));
  m.replacement_price = exactly(within(200, 9000));
  drive.requirement.incumbent = in;
  drive.requirement.economics = m;
  return drive;
}

std::optional<CaseOf> case_against(const drive::Drive& drive, Against against) {
  const auto unit = unit_beside(*drive.requirement.incumbent, duty_of(drive, nominal()));
  RC_ASSERT(unit.ok());
  return case_of(drive, *unit, losses(), against);
}

RC_GTEST_PROP(BesideProperty, EveryCaseTheEnquiryAllowsIsSound, ()) {
  const drive::Drive drive = any_drive();
  RC_ASSERT(missing_for_case(drive).empty());
  for (Against against : {Against::present, Against::replacement}) {
    const auto setup = case_against(drive, against);
    RC_ASSERT(setup.has_value());
    const auto one = study(*setup, against, 20);
    RC_ASSERT(one.ok());
    RC_ASSERT(std::isfinite(one->result.net_present_value));
    RC_ASSERT(!case_sentence(*one).empty());
    const Chart flow = cash_flow_chart(*one);
    RC_ASSERT(std::abs(flow.series[0].y.back() - one->result.net_present_value) <=
              1e-9 * (1 + one->result.keep.present.total() + one->result.candidate.present.total()));
  }
}

RC_GTEST_PROP(BesideProperty, AStoppageThatCostsNothingAddsNothing, ()) {
  drive::Drive drive = any_drive();
  drive.requirement.economics->stop_cost = exactly(0);
  drive.requirement.economics->repair_cost = exactly(0);
  drive.requirement.economics->stops_per_year = exactly(within(0, 5));
  const double with = cost::evaluate(case_against(drive, Against::present)->input)->keep.present.total();
  drive.requirement.economics->stops_per_year = exactly(0);
  RC_ASSERT(cost::evaluate(case_against(drive, Against::present)->input)->keep.present.total() == with);
}

RC_GTEST_PROP(BesideProperty, ADearerCandidateIsNeverTheBetterBuy, ()) {
  drive::Drive drive = any_drive();
  const double cheap = cost::evaluate(case_against(drive, Against::present)->input)->net_present_value;
  drive.requirement.economics->candidate_price->likely *= 1.5;
  drive.requirement.economics->candidate_price->high *= 1.5;
  drive.requirement.economics->candidate_price->low *= 1.5;
  RC_ASSERT(cost::evaluate(case_against(drive, Against::present)->input)->net_present_value < cheap);
}

RC_GTEST_PROP(BesideProperty, TwoEqualUnitsDifferOnlyInAdapters, ()) {
  // A new geared unit with the candidate's losses and price costs what the candidate costs, less its adapters.
  drive::Drive drive = any_drive();
  drive.requirement.economics->replacement_price = drive.requirement.economics->candidate_price;
  if (drive.requirement.incumbent->kind == incumbent::UnitKind::belt_and_gear)
    drive.requirement.incumbent->kind = incumbent::UnitKind::worm;  // a belt fails too
  cost::CaseInput input = case_against(drive, Against::replacement)->input;
  input.keep.losses = input.candidate.losses;
  const cost::CaseResult r = *cost::evaluate(input);
  RC_ASSERT(std::abs(r.net_present_value + input.candidate.adapters.nominal) <= 1e-9 * (1 + r.keep.present.total()));
}

RC_GTEST_PROP(BesideProperty, AStatedEfficiencyIsMetWhateverTheKind, ()) {
  const drive::Drive drive = any_drive();
  enquiry::Incumbent in = *drive.requirement.incumbent;
  in.efficiency = within(0.3, 0.98);
  const auto unit = unit_beside(in, duty_of(drive, nominal()));
  if (!unit) {  // one that would melt the unit is a misreading
    RC_ASSERT(unit.errors().front().path == "incumbent.efficiency");
    RC_ASSERT(*in.efficiency < 0.9);
    return;
  }
  RC_ASSERT(std::abs(incumbent::efficiency_at(*unit, 1) - *in.efficiency) < 1e-9);
  RC_ASSERT(incumbent::loss_power_at(*unit, 0) > 0);
}

RC_GTEST_PROP(BesideProperty, WhatIsRoomierFitsNoWorse, ()) {
  drive::Drive drive = base();
  drive.requirement.max_length = within(0.5, 2);
  const auto verdict = [&] {
    const FitBeside beside = fit_beside(drive);
    for (const incumbent::FitLine& line : beside.fit.lines)
      if (line.field == "length") return line.verdict;
    return incumbent::FitVerdict::unknown;
  };
  const bool fits = verdict() == incumbent::FitVerdict::fits;
  drive.requirement.max_length = *drive.requirement.max_length + within(0, 1);
  RC_ASSERT(!fits || verdict() == incumbent::FitVerdict::fits);
}

}  // namespace
}  // namespace lobewise::evidence
