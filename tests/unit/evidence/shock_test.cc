// The verdict on the worst moments: which part, which event, and where it turns.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;
constexpr double kTorque = 1200;

/// A sound build of a stated machine: direct start, coupling, 20 000 h, half a start an hour.
enquiry::Requirement sound() { return stated(kTorque, 50 * kRpm); }

drive::Drive shocked(double times, double per_year, const char* frame = "ring-315") {
  enquiry::Requirement requirement = sound();
  requirement.spectrum.shocks = {{"a lump at the gate", times * kTorque, per_year, false}};
  return drive_of(requirement, frame, 27);
}

Finding shock_of(const drive::Drive& drive) { return finding(prove(drive, {.samples = 0, .in_time = false}), "shock"); }

bool says(const Finding& finding, const std::string& words) {
  return finding.answer.pattern.find(words) != std::string::npos;
}

TEST(Shock, OfSixtyAndOfAHundredTimesDoesNotHoldAndNamesThePart) {
  for (double times : {60.0, 100.0}) {
    const drive::Drive drive = shocked(times, 400);
    const Finding shock = shock_of(drive);
    EXPECT_EQ(shock.verdict, Verdict::does_not_hold) << times;
    const drive::PeakCase peak = evaluate(drive, {}).peak;
    EXPECT_TRUE(says(shock, label(peak.parts[peak.weakest], drive))) << shock.answer.pattern;
    EXPECT_TRUE(says(shock, "a lump at the gate")) << shock.answer.pattern;
    EXPECT_TRUE(std::any_of(shock.answer.values.begin(), shock.answer.values.end(),
                            [&](const Value& v) { return v.si == peak.marks(); }));
    // The mesh was never solved so far up: that is said.
    EXPECT_TRUE(std::any_of(shock.notes.begin(), shock.notes.end(),
                            [](const Text& t) { return t.pattern.find("was solved up to") != std::string::npos; }));
  }
}

TEST(Shock, OfOneAndAHalfTimesOnceAYearHolds) {
  const Finding shock = shock_of(shocked(1.5, 1));
  EXPECT_EQ(shock.verdict, Verdict::holds);
  const Finding none = shock_of(drive_of(sound(), "ring-315", 27));
  EXPECT_EQ(none.verdict, Verdict::holds);
  ASSERT_EQ(none.checks.size(), shock.checks.size());
}

TEST(Shock, TurnsAtTheTorqueAtWhichTheWeakestLinkMarks) {
  const drive::PeakCase peak = evaluate(shocked(1.5, 1), {}).peak;
  const double times = peak.marks() / kTorque;
  EXPECT_EQ(shock_of(shocked(0.999 * times, 1)).verdict, Verdict::holds) << times;
  const Finding over = shock_of(shocked(1.001 * times, 1));
  EXPECT_EQ(over.verdict, Verdict::does_not_hold);
  EXPECT_NE(worst(over)->name.find(label(peak.parts[peak.weakest], shocked(1.5, 1))), std::string::npos);
}

TEST(Shock, WhatComesOftenTiresWhatItWouldNotMark) {
  // Below what the shaft bears in every start, but 10^6 times in the life asked for.
  const drive::PeakCase peak = evaluate(shocked(1.5, 1), {}).peak;
  double routine = peak.parts.front().routine;
  for (const drive::PathPart& part : peak.parts) routine = std::min(routine, part.routine);
  const double times = 0.95 * routine / kTorque;
  const double a_year = 1e6 * sound().running_per_year / sound().life;
  EXPECT_EQ(shock_of(shocked(times, 1)).verdict, Verdict::holds);
  const Finding often = shock_of(shocked(times, a_year));
  EXPECT_EQ(often.verdict, Verdict::does_not_hold);
  const Check& check = *worst(often);
  EXPECT_NE(check.name.find("bears often"), std::string::npos) << check.name;
  EXPECT_NE(check.name.find("a lump at the gate"), std::string::npos) << check.name;
  for (const Check& c : often.checks)
    if (c.name.find("bears often") == std::string::npos) {
      EXPECT_GE(c.margin(), 0) << c.name;
    }
  EXPECT_TRUE(says(often, "tires the")) << often.answer.pattern;
}

TEST(Shock, AnAssumedJamDecidesNothingAlone) {
  enquiry::Requirement requirement = sound();
  requirement.demand.jam.angle = {1e-3, 1e-3, 1e-3, "for this test"};
  requirement.demand.jam.slip_torque.reset();
  const drive::Drive drive = drive_of(requirement, "ring-315", 27);
  const Finding shock = shock_of(drive);
  EXPECT_EQ(shock.verdict, Verdict::holds_if);
  EXPECT_FALSE(shock.condition.empty());
  EXPECT_EQ(worst(shock)->basis, Basis::assumed);
  EXPECT_NE(worst(shock)->name.find("the jam"), std::string::npos);
}

TEST(Shock, AnUnknownStopAngleMakesItHoldUnderACondition) {
  enquiry::Requirement requirement = sound();
  requirement.demand.jam.angle = {0.5, 1e-3, 2, "for this test"};
  requirement.demand.jam.slip_torque.reset();
  const drive::Drive drive = drive_of(requirement, "ring-315", 27);
  EXPECT_EQ(shock_of(drive).verdict, Verdict::holds);
  const Finding sampled = finding(prove(drive, {.samples = 100, .in_time = false}), "shock");
  EXPECT_EQ(sampled.verdict, Verdict::holds_if);
}

TEST(Shock, WithoutAMotorItCannotBeJudgedUnlessAStatedShockFails) {
  enquiry::Requirement requirement = sound();
  requirement.motor_power = 9e6;
  EXPECT_EQ(shock_of(drive_of(requirement, "ring-315", 27)).verdict, Verdict::cannot_be_judged);
  requirement.spectrum.shocks = {{"", 60 * kTorque, 1, false}};
  EXPECT_EQ(shock_of(drive_of(requirement, "ring-315", 27)).verdict, Verdict::does_not_hold);
}

TEST(Shock, EveryLimitIsWhatItsWorkingComputes) {
  for (const bool two : {false, true}) {
    enquiry::Requirement requirement = sound();
    requirement.radial_force = 8000;
    requirement.axial_force = 1500;
    requirement.position = 0.05;
    requirement.link_torque = 9000;
    requirement.mounting = two ? enquiry::MountingKind::flange : enquiry::MountingKind::foot;
    const auto build = drive::find_build(range::demo_range(), two ? drive::BuildName{"ring-530", 17, "", 9}
                                                                  : drive::BuildName{"ring-265", 27, "", std::nullopt});
    ASSERT_TRUE(build.ok());
    const auto drive = drive::assemble(requirement, *build, rigid_table);
    ASSERT_TRUE(drive.ok());
    const drive::PeakCase peak = evaluate(*drive, {}).peak;
    const Finding shock = shock_of(*drive);
    std::size_t found = 0;
    for (const drive::PathPart& part : peak.parts)
      for (const WorkingStep& step : shock.working) {
        if (step.meaning != "torque at the output shaft at which permanent marks begin: " + label(part, *drive))
          continue;
        ++found;
        EXPECT_NEAR(step.value, part.marks, 1e-9 * part.marks) << step.meaning;
        EXPECT_EQ(formula::fault_of(step), "") << step.meaning;
        if (step.kind == StepKind::computed) {
          EXPECT_NEAR(step.tree->value, part.marks, 1e-9 * part.marks);
        }
        if (step.kind == StepKind::solved) {
          EXPECT_LE(std::abs(step.tree->value), step.tolerance) << step.meaning;
        }
      }
    EXPECT_EQ(found, peak.parts.size());
  }
}

TEST(Shock, WhatComesOftenIsWhatItsWorkingComputes) {
  const drive::Drive drive = shocked(2.5, 2000);
  const drive::PeakCase peak = evaluate(drive, {}).peak;
  const Finding shock = shock_of(drive);
  const auto value = [&](const char* symbol) {
    for (const WorkingStep& step : shock.working)
      if (step.symbol == symbol) {
        EXPECT_EQ(formula::fault_of(step), "") << symbol;
        return step.value;
      }
    ADD_FAILURE() << "no step " << symbol;
    return 0.0;
  };
  for (const drive::PulseUse& use : peak.fatigue) {
    const char* symbol = use.part == drive::Part::pins         ? "sigma_pin"
                         : use.part == drive::Part::key        ? "p_key"
                         : use.part == drive::Part::shaft_seat ? "A_seat"
                                                               : "A_end";
    EXPECT_NEAR(value(symbol), use.equivalent, 1e-9 * use.equivalent) << symbol;
  }
  EXPECT_GT(value("n_end"), 0);
}

TEST(Shock, APullThatMayLiftTheFeetIsAskedFor) {
  enquiry::Requirement requirement = sound();
  requirement.radial_force = 2 * kTorque / 0.12;  // a small sprocket
  requirement.position = 0.05;
  const auto feet = [&] {
    const Finding shock = shock_of(drive_of(requirement, "ring-315", 27));
    std::vector<Check> found;
    for (const Check& check : shock.checks)
      if (check.about == "share of what it bears: bolts of the feet" ||
          check.name.find("should the pull") != std::string::npos)
        found.push_back(check);
    return found;
  };
  std::vector<Check> unsaid = feet();
  ASSERT_EQ(unsaid.size(), 2U) << "along the base, and an assumed one";
  EXPECT_EQ(unsaid[0].basis, Basis::promise);
  EXPECT_EQ(unsaid[1].basis, Basis::assumed);
  requirement.pull = enquiry::PullDirection::away;
  ASSERT_EQ(feet().size(), 1U);
  EXPECT_NEAR(feet()[0].margin(), unsaid[1].margin(), 1e-9);
  EXPECT_LT(feet()[0].margin(), unsaid[0].margin());
  requirement.pull = enquiry::PullDirection::toward;
  ASSERT_EQ(feet().size(), 1U);
  EXPECT_GT(feet()[0].margin(), unsaid[0].margin());
}

TEST(Shock, TheReversalAtFullSpeedIsNearWhatFollowedInTimeGives) {
  enquiry::Requirement requirement = sound();
  requirement.reversing = true;
  requirement.spectrum.reversals_per_hour = 5;
  const drive::Drive drive = drive_of(requirement, "ring-315", 27);
  const drive::Peaks peaks = evaluate(drive, {}).peaks;
  for (const drive::ShockRun& run : drive::simulate_events(drive, drive::simulate_start(drive, {}), {}))
    if (std::string(run.id) == "reversal") {
      EXPECT_LE(run.peak(), 1.05 * peaks.plugging) << "damping only takes torque away";
      EXPECT_GE(run.peak(), 0.6 * peaks.plugging);
    }
}

TEST(Shock, ItsChartsAgreeOnTheWeakestLink) {
  const drive::Drive drive = shocked(2, 1);
  const double marks = evaluate(drive, {}).peak.marks();
  std::size_t lines = 0;
  const Evidence evidence = prove(drive, {.samples = 0});
  for (const Chart& chart : finding(evidence, "shock").charts) {
    double least_bar = std::numeric_limits<double>::infinity();
    for (const Series& series : chart.series) {
      if (series.name == "permanent marks begin") {
        ++lines;
        EXPECT_EQ(series.y.front(), marks) << chart.id;
      }
      if (!series.dashed) least_bar = std::min(least_bar, series.y.front());
    }
    if (chart.id == "torque_path") {
      EXPECT_EQ(least_bar, marks);
    }
  }
  EXPECT_EQ(lines, 2U);
}

}  // namespace
}  // namespace lobewise::evidence
