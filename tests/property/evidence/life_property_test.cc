// One definition of life: over random builds and jobs.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <optional>

#include "engine/base/constants.h"
#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"
#include "engine/sizing/rating.h"

namespace lobewise::evidence {
namespace {

constexpr double kHour = 3600;
constexpr double kOil = 340;  // held, so that only what a property changes moves

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

Result<std::shared_ptr<const drive::StageTable>> rigid_table(const range::Stage& stage) {
  Result<drive::StageTable> table = drive::rigid_stage_table(stage);
  if (!table) return table.errors();
  return std::make_shared<const drive::StageTable>(std::move(*table));
}

enquiry::Requirement some_job(double torque, double speed) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = speed;
  machine.start_factor = 1.2;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  enquiry::Requirement r = *enquiry::require(enquiry);
  r.life = std::exp(within(std::log(500.0), std::log(60000.0))) * kHour;
  r.reliability = within(0.6, 0.995);
  r.position = within(0, 0.3);
  r.axial_force = *rc::gen::inRange(0, 3) == 0 ? within(0, 2) * torque / 0.1 : 0;
  // A second block: half the time at another torque.
  if (*rc::gen::arbitrary<bool>()) {
    for (enquiry::Block& block : r.duty) block.time_share *= 0.5;
    r.duty.push_back({0.5, within(0, 1.3) * torque, speed});
  }
  return r;
}

drive::Drive some_drive() {
  const auto builds = drive::all_builds(range::demo_range());
  const drive::Build build =
      builds[static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(builds.size())))];
  const double torque = within(0.05, 0.6) * drive::reference_torque(build.last());
  drive::Drive drive = drive::assemble(some_job(torque, within(50, 160) / build.ratio()), build, rigid_table).value();
  drive.radial_force = 2 * torque / within(0.1, 1);
  return drive;
}

bool life_holds(const drive::Drive& drive, const Evaluation& e) {
  for (const Check& check : life_checks(drive, e))
    if (check.margin() < 0) return false;
  return true;
}

const Check* named(const std::vector<Check>& checks, const char* name) {
  for (const Check& check : checks)
    if (check.name == name) return &check;
  return nullptr;
}

/// Static rating, shaft and slope, checked on their own.
bool strength_holds(const drive::Drive& drive, const Evaluation& e) {
  const auto output = drive::output_duty(drive, e.oil_temperature, {}, drive.radial_position, drive.requirement.life);
  const drive::OutputLoads at = output.full_loads(drive.radial_force);
  return drive.output_inside.rating.C_0 >= strength::kStaticSafetyNormal * at.static_inside &&
         drive.output_outside.rating.C_0 >= strength::kStaticSafetyNormal * at.static_outside &&
         e.shaft_safety >= strength::kShaftSafety.nominal && e.end_safety >= strength::kShaftSafety.nominal &&
         e.slope <= strength::kSlopeCylindrical.nominal;
}

Evaluation under(drive::Drive& drive, double force) {
  drive.radial_force = force;
  return evaluate(drive, {}, kOil);
}

RC_GTEST_PROP(LifeProperty, AtTheAllowedForceTheVerdictTurns, ()) {
  drive::Drive drive = some_drive();
  // The friction of the output bearings loads a first stage a little more: the force that is allowed under itself.
  drive::AllowedForce allowed = evaluate(drive, {}, kOil).allowed;
  for (int i = 0; i < 4; ++i) allowed = under(drive, allowed.force).allowed;
  RC_ASSERT(std::isfinite(allowed.force));
  RC_ASSERT(allowed.force >= 0);
  RC_ASSERT(allowed.force == std::min(allowed.by_life, allowed.by_strength));
  if (allowed.force == 0) {
    const Evaluation none = under(drive, 0);
    RC_CLASSIFY(true, "nothing allowed");
    RC_ASSERT(!life_holds(drive, none) || !strength_holds(drive, under(drive, 1)));
    return;
  }
  const Evaluation below = under(drive, (1 - 1e-6) * allowed.force);
  RC_ASSERT(life_holds(drive, below));
  RC_ASSERT(strength_holds(drive, below));
  RC_ASSERT(named(overhung_checks(drive, below), "radial force on the shaft end")->margin() > 0);
  const Evaluation above = under(drive, (1 + 1e-6) * allowed.force);
  const bool by_life = allowed.limit == drive::ForceLimit::unit_life;
  RC_CLASSIFY(by_life, "life");
  if (by_life)
    RC_ASSERT(!life_holds(drive, above));
  else
    RC_ASSERT(!strength_holds(drive, above));  // the limit that is named
  RC_ASSERT(named(overhung_checks(drive, above), "radial force on the shaft end")->margin() < 0);
}

// With the oil as warm as it gets under the force itself, both findings judge it alike.
RC_GTEST_PROP(LifeProperty, LifeAndOverhungAgree, ()) {
  drive::Drive drive = some_drive();
  const Evaluation e = evaluate(drive, {});
  RC_PRE(std::abs(drive.radial_force - e.allowed.by_life) > 1e-6 * drive.radial_force);
  RC_CLASSIFY(drive.radial_force < e.allowed.by_life, "life allows it");
  if (drive.radial_force < e.allowed.by_strength)
    RC_ASSERT(life_holds(drive, e) == (drive.radial_force < e.allowed.by_life));
  if (drive.radial_force <= e.allowed.force) RC_ASSERT(life_holds(drive, e));
}

RC_GTEST_PROP(LifeProperty, MoreForceNeverImprovesLife, ()) {
  drive::Drive drive = some_drive();
  double before = 1;
  for (const double factor : {0.0, 0.3, 1.0, 1.7, 4.0}) {
    const double share = under(drive, factor * 5000).lives.reliability;
    RC_ASSERT(share <= before + 1e-12);
    before = share;
  }
}

RC_GTEST_PROP(LifeProperty, MoreAxialForceNeverImprovesLife, ()) {
  drive::Drive drive = some_drive();
  double share = 1, force = 1e12;
  for (const double axial : {0.0, 200.0, 3000.0, 20000.0}) {
    drive.requirement.axial_force = axial;
    const Evaluation e = evaluate(drive, {}, kOil);
    RC_ASSERT(e.lives.reliability <= share + 1e-12);
    RC_ASSERT(e.allowed.force <= force * (1 + 1e-9));
    share = e.lives.reliability;
    force = e.allowed.force;
  }
}

RC_GTEST_PROP(LifeProperty, LongerOrSurerNeverImproves, ()) {
  drive::Drive drive = some_drive();
  const auto margins = [&] {
    const Evaluation e = evaluate(drive, {}, kOil);
    std::vector<double> list{e.allowed.force};
    for (const auto checks : {life_checks, overhung_checks})
      for (const Check& check : checks(drive, e)) list.push_back(check.margin());
    return list;
  };
  const std::vector<double> first = margins();
  const auto no_better = [&] {
    const std::vector<double> now = margins();
    for (std::size_t i = 0; i < now.size(); ++i) RC_ASSERT(now[i] <= first[i] + 1e-9 * std::abs(first[i]));
  };
  const enquiry::Requirement asked = drive.requirement;
  drive.requirement.life *= within(1.01, 5);
  no_better();
  drive.requirement = asked;
  drive.requirement.reliability += within(0.05, 0.9) * (1 - asked.reliability);
  no_better();
}

RC_GTEST_PROP(LifeProperty, AUnitIsNoBetterThanAnyOfItsParts, ()) {
  const drive::Drive drive = some_drive();
  const Evaluation e = evaluate(drive, {}, kOil);
  const double t = e.lives.hours;
  for (const drive::PartLife& part : e.lives.parts) {
    const strength::SystemPart one = part.in_system();
    RC_ASSERT(e.lives.reliability <= strength::system_reliability(t, {&one, 1}) + 1e-12);
    // A kind of part that misses its own life takes the unit with it.
    if (part.modified_hours < t * (1 - 1e-9)) RC_ASSERT(e.lives.reliability < drive.requirement.reliability);
  }
  const double hours = e.lives.hours_of(drive.requirement.reliability);
  if (hours > 0 && std::isfinite(hours))
    RC_ASSERT(std::abs(e.lives.reliability_at(hours) - drive.requirement.reliability) < 1e-9);
  RC_ASSERT(std::abs(std::exp(e.lives.log_rest(t) +
                              drive::output_duty(drive, kOil, {}, drive.radial_position, drive.requirement.life)
                                  .log_reliability(drive.radial_force, t)) -
                     e.lives.reliability) < 1e-9);
}

}  // namespace
}  // namespace lobewise::evidence
