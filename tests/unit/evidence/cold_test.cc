// The start on the coldest day, starts an hour, the upright shaft: the models of engine/drive/cold.h and what the
// findings make of them.

#include "engine/drive/cold.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/motor_starts.h"
#include "engine/drive/shocks.h"
#include "engine/losses/cold.h"
#include "engine/losses/parts.h"
#include "engine/motion/run_up.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

/// A stated conveyor's demand in the surroundings said.
enquiry::Requirement in_cold(double celsius, double torque = 1200, double speed = 47 * kRpm) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = speed;
  machine.start_factor = 1.3;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  enquiry.site = enquiry::Site{};
  enquiry.site->ambient_low = kZeroCelsius + celsius;
  enquiry.duty = demand::Duty{};
  enquiry.duty->starts_per_hour = 2;
  const auto requirement = enquiry::require(enquiry);
  EXPECT_TRUE(requirement.ok());
  return *requirement;
}

drive::Drive conveyor(double celsius) { return drive_of(in_cold(celsius), "ring-265", 31); }

const Check& check(const Finding& finding, const std::string& part) {
  for (const Check& c : finding.checks)
    if (c.name.find(part) != std::string::npos) return c;
  throw std::runtime_error("no check " + part);
}

double figure(const drive::Drive& drive, const char* id, const std::string& part) {
  for (const QuickFinding& quick : quick_look(drive))
    if (std::string(quick.question->id) == id)
      for (const Check& c : quick.checks)
        if (c.name.find(part) != std::string::npos) return c.figure;
  throw std::runtime_error("no check " + part);
}

TEST(ColdTurning, IsTheNoLoadFormulaWhereThatIsValid) {
  const drive::Drive drive = conveyor(0);
  const double warm = kZeroCelsius + 40, speed = 100;
  const drive::ColdTurning turning(drive, warm, {});
  double bearings = 0;
  for (const drive::ColdTurning::Bearing& part : turning.bearings())
    bearings +=
        part.count * part.speed_share *
        losses::bearing_friction({part.bearing->pitch_diameter, part.f_0, 0}, speed * part.speed_share, turning.nu(), 0)
            .M_0;
  // The two ways of writing the floor below nu n = 2000 differ by a per cent.
  EXPECT_NEAR(turning.at(speed).bearings, bearings, 0.01 * bearings);
  // And the gaps hardly warm themselves there.
  const drive::ColdTurning::Gap& gap = turning.gaps().front();
  const double plain =
      losses::gap_shear_loss(turning.eta(), gap.speed_per_input * speed, gap.area, losses::kDiscGap, 1);
  EXPECT_NEAR(turning.at(speed).gaps, plain / speed, 0.01 * plain / speed);
}

TEST(ColdTurning, BeyondItLiesBetweenTheLimitAndTheFormulaCarriedOn) {
  const double f_0 = 3, d = 0.0865;
  const auto formula = [&](double x) { return 0.1 * f_0 * d * d * d * std::pow(x, 2.0 / 3); };
  const double at_limit = formula(losses::kNoLoadValid);
  EXPECT_NEAR(losses::cold_no_load_moment(f_0, d, losses::kNoLoadValid * (1 + 1e-9), 50.0, 1.0), at_limit,
              1e-6 * at_limit);
  for (const double x : {4e6, 2e7, 2e8, 5e9})
    for (const double heating : {0.01, 1.0, 30.0, 5000.0}) {
      const double moment = losses::cold_no_load_moment(f_0, d, x, heating, 1.0);
      EXPECT_GT(moment, at_limit);
      EXPECT_LT(moment, formula(x));
    }
}

TEST(ColdTurning, HardestSpeedIsTheMaximum) {
  const drive::Drive drive = conveyor(0);
  for (const double celsius : {-70.0, -50.0, -40.0, -25.0, -10.0, 0.0, 20.0}) {
    const drive::ColdTurning turning(drive, kZeroCelsius + celsius, {});
    const double most = turning.at(turning.hardest_speed(drive.input_speed)).total();
    double found = 0;
    for (int i = 0; i <= 4000; ++i)
      found = std::max(found, turning.at(drive.input_speed * std::exp(-i * 0.005)).total());
    EXPECT_NEAR(most, found, 1e-4 * found) << celsius;
  }
}

TEST(AtRest, TakesMoreThanTurning) {
  const drive::Drive drive = conveyor(20);
  const Evaluation e = evaluate(drive, {});
  const drive::Rest rest = drive::at_rest(drive, 1200, kZeroCelsius + 20, {});
  const double speed = e.full.stages.front().input_speed;
  // Needles at rest take twice what they take with a full film. Rolling does not grow at rest and the rise at low speed
  // is already on its way there, so both are left out of the comparison.
  drive::Coefficients sliding;
  sliding.rolling_arm = sliding.low_speed_rise = 0;
  const Evaluation s = evaluate(drive, sliding);
  const drive::Rest dry = drive::at_rest(drive, 1200, kZeroCelsius + 20, sliding);
  EXPECT_NEAR(dry.friction.lobes, 2 * s.full.places.lobes / speed, 0.05 * dry.friction.lobes);
  EXPECT_GT(dry.friction.output_pins, 1.9 * s.full.places.output_pins / speed);
  // With both it still takes more than turning.
  EXPECT_GT(rest.friction.lobes, e.full.places.lobes / speed);
  EXPECT_GT(rest.friction.output_pins, e.full.places.output_pins / speed);
  EXPECT_GT(rest.efficiency, 0.8);
  EXPECT_LT(rest.efficiency, 0.98);
  EXPECT_NEAR(rest.torque, 1200 / (31 * rest.efficiency), 1e-9);
  EXPECT_NEAR(rest.torque, 1200.0 / 31 + rest.friction.total(), 1e-9);
  // No film, no drag: without load only the seals are left.
  EXPECT_NEAR(drive::at_rest(drive, 0, kZeroCelsius + 20, {}).torque, rest.friction.seals, 1e-9);
}

TEST(ColdStart, IsTheLeastRatioOnTheWayUp) {
  for (const double celsius : {-40.0, -25.0, 0.0, 20.0}) {
    const drive::Drive drive = conveyor(celsius);
    const drive::ColdStart start = drive::cold_start(drive, kZeroCelsius + celsius, {});
    const auto curve = drive::motor_curve_of(drive, {});
    ASSERT_TRUE(curve.ok());
    const drive::ColdTurning turning(drive, kZeroCelsius + celsius, {});
    double least = curve->torque(0) / start.rest.torque, passed = 0;
    for (int i = 1; i <= 2000; ++i) {
      const double speed = curve->breakdown_speed() * i / 2000;
      passed = std::max(passed, turning.at(speed).total());
      least = std::min(least, curve->torque(speed) / (start.rest.torque + passed));
    }
    EXPECT_NEAR(start.ratio(), least, 0.02 * least) << celsius;
  }
}

TEST(ColdStart, RunUpIsTheRigidBodyOnWhatIsLeft) {
  // Against the integrator of a run-up on the full curve, the load held at what is asked at most.
  const drive::Drive drive = conveyor(20);
  const drive::ColdStart start = drive::cold_start(drive, kZeroCelsius + 20, {});
  const drive::Torsion t = drive::torsion_of(drive, {});
  const auto curve = drive::motor_curve_of(drive, {});
  const double inertia = (t.motor_inertia + t.load_inertia) / (31 * 31);
  const auto least = motion::run_up(inertia, *curve, {start.rest.torque, 100, 0}, 0.95 * drive.motor->rated_speed);
  const auto most = motion::run_up(inertia, *curve, {start.asked() + 1.5 * start.drag.total(), 100, 0},
                                   0.95 * drive.motor->rated_speed);
  ASSERT_TRUE(least.ok() && most.ok());
  const drive::ColdRunUp run_up = drive::cold_run_up(drive, start, {});
  EXPECT_FALSE(run_up.sticks);
  EXPECT_GT(run_up.time, 0.99 * least->time);
  EXPECT_LT(run_up.time, 1.01 * most->time);
}

TEST(ColdDay, AtMinus25LubricationDoesNotHoldAndNamesWhatMendsIt) {
  const drive::Drive drive = conveyor(-25);
  const Evidence evidence = prove(drive, {.samples = 20, .in_time = false});
  const Finding& lubrication = finding(evidence, "lubrication");
  EXPECT_EQ(lubrication.verdict, Verdict::does_not_hold);
  EXPECT_NE(lubrication.answer.pattern.find("What mends it: the synthetic oil of this range"), std::string::npos);
  const Finding& motor = finding(evidence, "motor");
  EXPECT_LT(check(motor, "coldest day").margin(), check(motor, "usual day").margin());
}

TEST(ColdDay, AtMinus40TheMotorSticksAndAHeaterIsNamed) {
  const drive::Drive drive = conveyor(-40);
  const Evidence evidence = prove(drive, {.samples = 20, .in_time = false});
  const Finding& motor = finding(evidence, "motor");
  EXPECT_EQ(motor.verdict, Verdict::does_not_hold);
  EXPECT_LT(check(motor, "ask, on the coldest day").margin(), 0);
  const bool heater = std::any_of(motor.notes.begin(), motor.notes.end(), [](const Text& note) {
    return note.pattern.find("a heater that keeps the lubricant at") != std::string::npos;
  });
  EXPECT_TRUE(heater);
}

TEST(ColdDay, ChangesNeitherMotorNorOilNorBuild) {
  const drive::Drive warm = conveyor(20), cold = conveyor(-25);
  EXPECT_EQ(warm.motor->rated_power, cold.motor->rated_power);
  EXPECT_EQ(warm.oil.fill.viscosity_40, cold.oil.fill.viscosity_40);
  EXPECT_EQ(warm.oil.fill.base, cold.oil.fill.base);
  // What the order can mend is no reason to take another build.
  for (const QuickFinding& quick : quick_look(cold)) {
    const std::string id = quick.question->id;
    if (id == "lubrication") {
      EXPECT_EQ(quick.verdict, Verdict::does_not_hold);
    }
    if (id == "lubrication" || id == "motor") {
      EXPECT_EQ(quick.of_build, Verdict::holds) << id;
    }
  }
}

TEST(ColdDay, NobodyWhoSaidNothingIsPromisedAnything) {
  // 0 °C is taken, -20 to 10 °C may be: the mineral oil's -13 °C lies within.
  const drive::Drive drive = drive_of(stated(1200, 47 * kRpm), "ring-265", 31);
  const Evidence evidence = prove(drive, {.samples = 100, .in_time = false});
  const Finding& lubrication = finding(evidence, "lubrication");
  EXPECT_EQ(lubrication.verdict, Verdict::holds_if);
  EXPECT_EQ(check(lubrication, "still flows").basis, Basis::assumed);
}

TEST(ColdDay, AGreaseIsJudgedByItsLowerTemperature) {
  const drive::Drive drive = drive_of(in_cold(-25, 60, 47 * kRpm), "ring-112", 31);
  ASSERT_TRUE(drive.oil.grease());
  const Evidence evidence = prove(drive, {.samples = 0, .in_time = false});
  EXPECT_EQ(finding(evidence, "lubrication").verdict, Verdict::does_not_hold);
}

TEST(Starts, ManyAreTooMany) {
  enquiry::Requirement requirement = in_cold(0);
  requirement.starts_per_hour = 3600;
  const Evidence evidence = prove(drive_of(requirement, "ring-265", 31), {.samples = 0, .in_time = false});
  const Finding& motor = finding(evidence, "motor");
  EXPECT_EQ(motor.verdict, Verdict::does_not_hold);
  EXPECT_NE(motor.answer.pattern.find("starts an hour"), std::string::npos);
}

TEST(Starts, TurnAtTheNumberPermitted) {
  for (const enquiry::Starting way :
       {enquiry::Starting::direct, enquiry::Starting::soft_starter, enquiry::Starting::inverter}) {
    enquiry::Requirement requirement = in_cold(0);
    requirement.starting = way;
    const drive::Drive drive = drive_of(requirement, "ring-265", 31);
    const drive::MotorStarts starts = drive::motor_starts(drive, evaluate(drive, {}).full, {});
    ASSERT_GT(starts.permissible, 1);
    requirement.starts_per_hour = starts.permissible;
    EXPECT_NEAR(figure(drive_of(requirement, "ring-265", 31), "motor", "heat of running"), 1, 1e-9);
    // The trade's product is the same balance of heat.
    if (way == enquiry::Starting::inverter) continue;
    const double product = starts.bare * starts.motor_inertia / (starts.motor_inertia + starts.load_inertia) *
                           starts.to_spare * (1 - starts.running / starts.shed);
    EXPECT_NEAR(product, starts.permissible, 1e-9 * product);
  }
}

TEST(Starts, NobodyWhoSaidNothingIsPromisedAnything) {
  enquiry::Requirement requirement = stated(1200, 47 * kRpm);
  requirement.starts_per_hour = 3600;
  const Evidence evidence = prove(drive_of(requirement, "ring-265", 31), {.samples = 0, .in_time = false});
  EXPECT_EQ(check(finding(evidence, "motor"), "heat of running").basis, Basis::assumed);
}

TEST(Upright, UpperBearingsInOilAreJudged) {
  enquiry::Requirement requirement = in_cold(0);
  requirement.orientation = enquiry::Orientation::output_down;
  range::Range range = range::demo_range();
  const auto judged = [&](std::optional<range::UprightLubrication> how, bool vertical) {
    for (range::Frame& frame : range.frames) {
      frame.upright_lubrication = how;
      frame.vertical = vertical;
    }
    const auto build = drive::find_build(range, {"ring-265", 31, "", std::nullopt});
    const auto drive = drive::assemble(requirement, *build, rigid_table);
    return finding(prove(*drive, {.samples = 0, .in_time = false}), "lubrication");
  };
  EXPECT_EQ(judged(range::UprightLubrication::grease, true).verdict, Verdict::holds);
  EXPECT_EQ(judged(range::UprightLubrication::pump, true).verdict, Verdict::holds);
  EXPECT_EQ(judged(std::nullopt, true).verdict, Verdict::cannot_be_judged);
  EXPECT_FALSE(judged(std::nullopt, true).missing.empty());
  EXPECT_EQ(judged(range::UprightLubrication::grease, false).verdict, Verdict::does_not_hold);
  // Grease in upper bearings that turn too fast for it.
  requirement = in_cold(0);
  requirement.orientation = enquiry::Orientation::output_down;
  const Finding greased = judged(range::UprightLubrication::grease, true);
  EXPECT_LT(check(greased, "upper input bearings").figure, check(greased, "upper input bearings").limit);
}

TEST(Upright, AFullHousingCostsDrag) {
  enquiry::Requirement requirement = in_cold(0);
  range::Range range = range::demo_range();
  const auto idle = [&](enquiry::Orientation orientation, range::UprightLubrication how) {
    requirement.orientation = orientation;
    for (range::Frame& frame : range.frames) frame.upright_lubrication = how;
    const auto build = drive::find_build(range, {"ring-265", 31, "", std::nullopt});
    const auto drive = drive::assemble(requirement, *build, rigid_table);
    return no_load_torque(*drive, evaluate(*drive, {}), kZeroCelsius + 60);
  };
  using range::UprightLubrication;
  const double lying = idle(enquiry::Orientation::horizontal, UprightLubrication::flooded);
  EXPECT_EQ(idle(enquiry::Orientation::output_up, UprightLubrication::grease), lying);
  EXPECT_GT(idle(enquiry::Orientation::output_up, UprightLubrication::pump), 1.2 * lying);
  EXPECT_GT(idle(enquiry::Orientation::output_up, UprightLubrication::flooded),
            idle(enquiry::Orientation::output_up, UprightLubrication::pump));
}

TEST(RunsToday, BoundsWhatWasAssumedOfTheStart) {
  enquiry::Requirement requirement = in_cold(0);
  requirement.demand.starting_torque = {4000, 1300, 6000};  // assumed, far more than the motor of today gives
  requirement.demand.torque = {1200, 1000, 4000};
  const drive::Drive alone = drive_of(requirement, "ring-265", 31);
  EXPECT_GT(alone.motor->rated_power, 11e3);
  requirement.incumbent = enquiry::Incumbent{};
  requirement.incumbent->motor_power = 11e3;
  requirement.incumbent->input_speed = 1460 * kRpm;
  requirement.motor_power = 11e3;
  const drive::Drive replaced = drive_of(requirement, "ring-265", 31);
  ASSERT_TRUE(replaced.today);
  EXPECT_LT(replaced.requirement.demand.starting_torque.high, 4000);
  EXPECT_LT(replaced.requirement.demand.torque.high, 4000);
  EXPECT_GE(figure(replaced, "motor", "usual day"), drive::kSpareStartTorque);
  // What was said stays as it was said.
  requirement.demand.starting_torque = {4000, 4000, 4000};
  EXPECT_EQ(drive_of(requirement, "ring-265", 31).requirement.demand.starting_torque.value, 4000);
}

TEST(Voltage, ReachesTheCurrent) {
  enquiry::Requirement requirement = in_cold(0);
  const auto current = [&](std::optional<double> voltage) {
    requirement.voltage = voltage;
    const Evidence evidence = prove(drive_of(requirement, "ring-265", 31), {.samples = 0, .in_time = false});
    for (const WorkingStep& step : finding(evidence, "motor").working)
      if (step.symbol == "I_N") return step.value;
    return 0.0;
  };
  EXPECT_NEAR(current(690) * 690, current(std::nullopt) * 400, 1e-6);
}

}  // namespace
}  // namespace lobewise::evidence
