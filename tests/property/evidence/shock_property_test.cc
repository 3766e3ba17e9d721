// What must be true of the peak case for every build, shock and count.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/constants.h"
#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"

namespace lobewise::evidence {
namespace {

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

enquiry::Enquiry any_machine(double torque) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = within(20, 90) * 2 * kPi / 60;
  machine.start_factor = within(1, 2);
  machine.run_up_time = within(0.3, 3);
  machine.can_run_back = *rc::gen::arbitrary<bool>();
  enquiry.machine.measured = machine;
  enquiry.duty = demand::Duty{};
  enquiry.duty->starts_per_hour = within(0, 30);
  enquiry.duty->reversals_per_hour = *rc::gen::arbitrary<bool>() ? within(1, 60) : 0;
  enquiry.connection = enquiry::Connection{};
  enquiry.connection->link = static_cast<demand::Link>(*rc::gen::inRange(0, 11));
  enquiry.connection->pitch_diameter = within(0.2, 0.5);
  enquiry.connection->position = within(0.0, 0.08);
  enquiry.mounting = enquiry::Mounting{};
  enquiry.mounting->kind = static_cast<enquiry::MountingKind>(*rc::gen::inRange(0, 2));
  return enquiry;
}

const std::vector<drive::Build>& builds() {
  static const std::vector<drive::Build> kept = [] {
    std::vector<drive::Build> out;
    for (const drive::BuildName& name : {drive::BuildName{"ring-160", 17, "", std::nullopt},
                                         {"ring-224", 27, "", std::nullopt},
                                         {"ring-530", 17, "", 9}})
      out.push_back(*drive::find_build(range::demo_range(), name));
    return out;
  }();
  return kept;
}

/// Tables are solved once.
Result<std::shared_ptr<const drive::StageTable>> kept_table(const range::Stage& stage) {
  static std::map<const range::Stage*, std::shared_ptr<const drive::StageTable>> kept;
  auto& table = kept[&stage];
  if (!table) table = std::make_shared<const drive::StageTable>(*drive::rough_stage_table(stage));
  return table;
}

drive::Drive any_drive() {
  const double torque = *rc::gen::element(300.0, 1000.0, 3000.0);
  const auto requirement = enquiry::require(any_machine(torque));
  RC_ASSERT(requirement.ok());
  const auto drive = drive::assemble(*requirement, *rc::gen::elementOf(builds()), kept_table);
  RC_ASSERT(drive.ok());
  return *drive;
}

void state_shock(drive::Drive& drive, double times, double per_year) {
  drive.requirement.spectrum.shocks = {{"stated", times * drive.requirement.torque, per_year, false}};
}

double worst_margin(const drive::Drive& drive, bool promised_only = false) {
  double least = 1e300;
  for (const Check& check : shock_checks(drive, evaluate(drive, {})))
    if (!promised_only || check.basis == Basis::promise) least = std::min(least, check.margin());
  return least;
}

RC_GTEST_PROP(ShockProperty, AHarderShockNeverHelps, ()) {
  drive::Drive drive = any_drive();
  const double times = within(0, 60), per_year = within(0, 1) < 0.5 ? within(0, 10) : within(10, 1e6);
  state_shock(drive, times, per_year);
  const std::vector<Check> before = shock_checks(drive, evaluate(drive, {}));
  state_shock(drive, times * within(1, 1.6), per_year);
  const std::vector<Check> after = shock_checks(drive, evaluate(drive, {}));
  RC_ASSERT(before.size() == after.size());
  for (std::size_t i = 0; i < before.size(); ++i) {
    RC_ASSERT(std::isfinite(after[i].figure));
    RC_ASSERT(after[i].margin() <= before[i].margin() + 1e-9);
  }
}

RC_GTEST_PROP(ShockProperty, AMoreFrequentShockNeverHelps, ()) {
  drive::Drive drive = any_drive();
  const double times = within(0.5, 12), per_year = within(0, 2000);
  state_shock(drive, times, per_year);
  const double before = worst_margin(drive);
  state_shock(drive, times, per_year * within(1, 1000) + 1);
  RC_ASSERT(worst_margin(drive) <= before + 1e-9);
}

RC_GTEST_PROP(ShockProperty, MoreStartsNeverHelp, ()) {
  drive::Drive drive = any_drive();
  const double before = worst_margin(drive);
  drive.requirement.starts_per_hour *= within(1, 20);
  RC_ASSERT(worst_margin(drive) <= before + 1e-9);
}

RC_GTEST_PROP(ShockProperty, TheVerdictTurnsWhereTheWeakestLinkMarks, ()) {
  drive::Drive drive = any_drive();
  const drive::PeakCase peak = evaluate(drive, {}).peak;
  const auto marked = [&](double torque) {
    state_shock(drive, torque / drive.requirement.torque, 0.01);  // once in the life: no fatigue
    const drive::PeakCase with = evaluate(drive, {}).peak;
    const auto shock = std::find_if(with.events.begin(), with.events.end(),
                                    [](const drive::Event& e) { return e.kind == drive::EventKind::shock; });
    return std::any_of(with.parts.begin(), with.parts.end(),
                       [&](const drive::PathPart& part) { return shock->torque > drive::borne(part, *shock); }) &&
           std::any_of(with.promised.begin(), with.promised.end(), [](const auto& worst) { return worst.use > 1; });
  };
  RC_ASSERT(marked(1.001 * peak.marks()));
  RC_ASSERT(!marked(0.999 * peak.marks()));
}

RC_GTEST_PROP(ShockProperty, AStrongerPullMarksNoLater, ()) {
  drive::Drive drive = any_drive();
  drive.radial_force = within(0, 20e3);
  const double before = evaluate(drive, {}).peak.marks();
  drive.radial_force *= within(1, 3);
  RC_ASSERT(evaluate(drive, {}).peak.marks() <= before * (1 + 1e-12));
}

}  // namespace
}  // namespace lobewise::evidence
