// The simulator against every closed form of shock.h and run_up.h, and against what must happen.
#include "engine/motion/simulate.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/motion/run_up.h"
#include "engine/motion/shock.h"

namespace lobewise::motion {
namespace {

constexpr double kW = 152.0 / 17, kStiff = 3.5e5, kJ = 5.78;
constexpr double kPeak = 2e-7;  // relative; the error of the trajectory, tolerance 1e-9 a step

Scenario jam() {
  Scenario s;
  s.chain.size = 2;
  s.chain.inertia = {kJ, 1.0};
  s.chain.link[0].stiffness = kStiff;
  s.speed = kW;
  s.duration = 0.05;
  s.events = {{EventKind::jam, 0, 0}};
  return s;
}

MotorCurve motor() { return *MotorCurve::from_catalogue({157.08, 49.4, 151.8, 98.8, 79, 128}); }

Scenario drive() {
  Scenario s;
  s.chain.size = 3;
  s.chain.inertia = {5.55, 0.3, 3.0};
  s.chain.link[0] = {4e5, 3e8, 100, 2e-4};
  s.chain.link[1] = {3e5, 0, 100, 2e-4};
  s.drive.motor = motor();
  s.drive.ratio = 17;
  s.duration = 0.5;
  return s;
}

double peak(const Scenario& s, std::size_t link = 0) {
  const auto outcome = simulate(s);
  EXPECT_TRUE(outcome.ok()) << (outcome.ok() ? "" : outcome.errors()[0].path + " " + outcome.errors()[0].message);
  if (!outcome.ok()) return 0;
  EXPECT_LT(outcome->energy_error, 1e-7);
  return outcome->links[link].spring_peak;
}

void expect_peak(const Scenario& s, double exact) { EXPECT_NEAR(peak(s), exact, kPeak * exact); }

TEST(SimulatedJam, RigidWithAndWithoutDrive) {
  Scenario s = jam();
  s.drive.torque = 600;
  expect_peak(s, jam_linear(kW, kStiff, kJ, 600, JamDrive::unwound));
  s.flanks = InitialFlanks::wound;
  s.wound_torque = 600;
  expect_peak(s, jam_linear(kW, kStiff, kJ, 600, JamDrive::constant));
  s.drive.torque = 0;
  expect_peak(s, jam_linear(kW, kStiff, kJ, 600, JamDrive::off));
  s.drive.torque = 600;  // the same by an event
  s.events.insert(s.events.begin(), {EventKind::motor_off, 0, 0});
  expect_peak(s, jam_linear(kW, kStiff, kJ, 600, JamDrive::off));
}

TEST(SimulatedJam, HappensLaterJustTheSame) {
  Scenario s = jam();
  s.drive.torque = s.load.active = 600;
  s.flanks = InitialFlanks::wound;
  s.wound_torque = 600;
  s.events[0].time = 0.0123;
  s.duration = 0.08;
  expect_peak(s, jam_linear(kW, kStiff, kJ, 600, JamDrive::constant));
  EXPECT_EQ(*simulate(s)->standstill, 0.0123);
}

TEST(SimulatedJam, HardeningDampedAndThroughPlay) {
  Scenario s = jam();
  s.chain.link[0].cubic = 3.5e8;
  expect_peak(s, jam_hardening(kW, kJ, kStiff, 3.5e8));
  s = jam();
  s.chain.link[0].damping = 200;
  expect_peak(s, damped_jam(kW, kStiff, kJ, 200));
  s.chain.link[0].play = 1e-3;  // the first stroke of a flank is the same
  s.flanks = InitialFlanks::touching;
  expect_peak(s, damped_jam(kW, kStiff, kJ, 200));
  s = jam();
  s.chain.link[0].play = 2e-3;
  s.drive.torque = 600;
  s.flanks = InitialFlanks::opposite;
  expect_peak(s, jam_after_play(kW, kStiff, kJ, 4e-3, 600).peak_torque);
  EXPECT_NEAR(simulate(s)->links[0].hardest_impact, jam_after_play(kW, kStiff, kJ, 4e-3, 600).impact_speed, 1e-6);
}

TEST(SimulatedJam, WithinAnAngle) {
  for (const double angle : {0.01, 0.05, 0.2}) {
    Scenario s = jam();
    s.drive.torque = 600;
    s.flanks = InitialFlanks::wound;
    s.wound_torque = 600;
    s.duration = 0.1;
    s.events[0].value = angle;
    expect_peak(s, jam_within_angle(kW, kStiff, kJ, angle, 600));
    EXPECT_NEAR(*simulate(s)->standstill, 2 * angle / kW, 1e-12);
  }
}

TEST(SimulatedJam, MirrorsForTheOtherDirection) {
  Scenario s = jam();
  s.chain.link[0] = {kStiff, 1e8, 50, 1e-3};
  s.drive.torque = 600;
  s.events[0].value = 0.05;
  const double forward = peak(s);
  s.drive.torque = -600;
  s.speed = -kW;
  EXPECT_NEAR(peak(s), forward, 1e-9 * forward);
}

TEST(SimulatedStart, StepTorqueWithAndWithoutPlay) {
  Scenario s;
  s.chain.size = 2;
  s.chain.inertia = {2, 8};
  s.chain.link[0].stiffness = kStiff;
  s.drive.torque = 1000;
  s.duration = 0.05;
  expect_peak(s, step_torque(1000, 2, 8).peak_torque);
  s.chain.link[0].play = 1e-3;
  s.flanks = InitialFlanks::opposite;
  s.duration = 0.1;
  expect_peak(s, start_through_play(1000, 2, 8, kStiff, 2e-3).peak_torque);
  s.flanks = InitialFlanks::middle;
  expect_peak(s, start_through_play(1000, 2, 8, kStiff, 1e-3).peak_torque);
}

TEST(SimulatedLoadDrop, SwingsBackAsFarAsTheClosedFormSays) {
  Scenario s;
  s.chain.size = 2;
  s.chain.inertia = {2, 8};
  s.chain.link[0].stiffness = kStiff;
  s.drive.torque = s.load.active = 1000;
  s.speed = 9;
  s.flanks = InitialFlanks::wound;
  s.wound_torque = 1000;
  s.events = {{EventKind::load_drop, 0.01, 0}};
  s.duration = 0.1;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  // Until the drop the chain stands still in itself: rounding only.
  EXPECT_NEAR(outcome->links[0].highest_torque, 1000, 1e-6);
  EXPECT_NEAR(outcome->links[0].lowest_torque, load_drop(1000, 2, 8).minimum_torque, 1e-4);
  s.chain.inertia = {8, 2};
  EXPECT_NEAR(simulate(s)->links[0].lowest_torque, load_drop(1000, 8, 2).minimum_torque, 1e-4);
}

TEST(SimulatedStart, RigidRunUpMeetsTheIntegral) {
  Scenario s;
  s.chain.size = 1;
  s.chain.inertia = {10};
  s.drive.motor = motor();
  s.drive.ratio = 17;
  s.load.curve_torque = 500;
  s.load.curve_speed = 151.8 / 17;
  s.duration = 0.3;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  ASSERT_TRUE(outcome->started);
  const SpeedLoad fan{500.0 / 17, 151.8, 2};
  const auto exact = run_up(10.0 / 17 / 17, *s.drive.motor, fan, kStartedShare * 151.8);
  EXPECT_NEAR(*outcome->started, exact->time, 1e-7);
  s.duration = *outcome->started;
  EXPECT_NEAR(simulate(s)->rotor_heat, exact->rotor_heat, 1e-5 * exact->rotor_heat);
}

TEST(SimulatedBrake, MeetsTheClosedFormAndStaysAtRest) {
  Scenario s;
  s.chain.size = 1;
  s.chain.inertia = {3};
  s.speed = 50;
  s.load.friction = 15;
  s.events = {{EventKind::brake, 0, 60}};
  s.duration = 4;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_NEAR(*outcome->standstill, brake_stop(3, 50, 60, 15).time, 1e-9);
  EXPECT_EQ(outcome->final_speed[0], 0);
  EXPECT_NEAR(outcome->dissipated, 0.5 * 3 * 2500, 1e-6);
}

TEST(SimulatedFriction, HoldsUntilTheDriveExceedsIt) {
  Scenario s = drive();
  s.drive.motor.reset();
  s.drive.torque = 300;
  s.load.friction = 700;  // a dynamic peak of 600 does not break it loose
  s.flanks = InitialFlanks::touching;
  s.chain.link[0] = {4e5, 0, 0, 1e-4};
  s.chain.link[1] = {3e5, 0, 0, 1e-4};
  auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_EQ(outcome->final_speed[2], 0);
  EXPECT_FALSE(outcome->standstill) << "it never moved";
  s.load.friction = 500;
  outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_TRUE(outcome->standstill) << "the swing drags it along, then it sticks again";
}

TEST(SimulatedReversal, PluggingTurnsTheDriveRound) {
  Scenario s = drive();
  s.speed = 8.9;
  s.load.friction = 360;
  s.flanks = InitialFlanks::wound;
  s.wound_torque = 360;
  s.drive.efficiency = 0.92;
  s.events = {{EventKind::reversal, 0, 0}};
  s.duration = 1;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_LT(outcome->final_speed[2], -8.5);
  EXPECT_LT(outcome->links[0].lowest_torque, -360);
  EXPECT_GT(outcome->links[0].impacts, 0);
  // Slip energy of plugging into the other direction without load is four times that of a start: here more than three
  // times, because friction helps to stop and hinders the run-up.
  Scenario start = drive();
  start.load.friction = 360;
  start.drive.efficiency = 0.92;
  start.duration = 1;
  EXPECT_GT(outcome->rotor_heat, 2 * simulate(start)->rotor_heat);
}

TEST(SimulatedStart, GentlerMethodsGiveSmallerPeaks) {
  Scenario s = drive();
  s.load.friction = 300;
  s.drive.efficiency = 0.92;
  s.flanks = InitialFlanks::opposite;
  s.duration = 2.5;
  const double direct = peak(s);
  const auto with = [&](Starting kind, double ramp) {
    Scenario gentle = s;
    gentle.drive.starting.kind = kind;
    gentle.drive.starting.ramp_time = ramp;
    const auto outcome = simulate(gentle);
    EXPECT_TRUE(outcome.ok());
    EXPECT_TRUE(outcome->started) << "it must get there";
    return outcome->links[0].spring_peak;
  };
  EXPECT_LT(with(Starting::soft_start, 1), direct);
  EXPECT_LT(with(Starting::inverter, 1), direct);
  with(Starting::star_delta, 0);
}

TEST(SimulatedInverter, FollowsItsRampAndReverses) {
  Scenario s;
  s.chain.size = 1;
  s.chain.inertia = {5};
  s.drive.motor = motor();
  s.drive.ratio = 17;
  s.drive.starting.kind = Starting::inverter;
  s.drive.starting.ramp_time = 2;
  s.duration = 8;
  s.events = {{EventKind::reversal, 3, 0}};
  s.sample_interval = 0.5;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_NEAR(outcome->samples[2].motor_speed, 157.08 / 17 / 2, 0.15);
  EXPECT_NEAR(outcome->final_speed[0], -157.08 / 17, 1e-3);
  EXPECT_EQ(outcome->samples.size(), 17u);
}

TEST(SimulatedEfficiency, DrivesWithLessAndBrakesWithMore) {
  // A rigid body turning at constant speed: torque at the output while the motor drives and while it is overhauled.
  Scenario s;
  s.chain.size = 1;
  s.chain.inertia = {50};
  s.drive.motor = motor();
  s.drive.ratio = 17;
  s.drive.efficiency = 0.9;
  s.speed = 151.8 / 17;
  s.load.active = 49.4 * 17 * 0.9;  // balances the rated torque
  s.duration = 2;
  EXPECT_NEAR(simulate(s)->final_speed[0], 151.8 / 17, 1e-7);
  s.speed = (2 * 157.08 - 151.8) / 17;
  s.load.active = -49.4 * 17 / 0.9;  // pulls, the motor generates its rated torque
  EXPECT_NEAR(simulate(s)->final_speed[0], s.speed, 1e-7);
}

TEST(Simulation, JammedMotorRestsOnTheFrictionOfTheReducer) {
  // With a lossy reducer the motor settles between T i eta and T i / eta: a stick state, not a chatter.
  Scenario s = drive();
  s.drive.efficiency = 0.92;
  s.speed = 8.9;
  s.flanks = InitialFlanks::wound;
  s.wound_torque = 360;
  s.load.friction = 360;
  s.events = {{EventKind::jam, 0.05, 0.0873}};
  s.duration = 1;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_LT(outcome->steps, 20000);
  EXPECT_EQ(outcome->final_speed[0], 0);
}

TEST(Simulation, LongUndampedRunKeepsItsEnergy) {
  Scenario s = jam();
  s.duration = 2;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_LT(outcome->energy_error, 5e-7);
}

TEST(Simulation, AnswersDoNotHangOnTheTolerance) {
  Scenario s = drive();
  s.load.friction = 360;
  s.drive.efficiency = 0.92;
  s.flanks = InitialFlanks::opposite;
  const auto coarse = simulate(s);
  s.tolerance = 1e-11;
  const auto fine = simulate(s);
  ASSERT_TRUE(coarse.ok() && fine.ok());
  EXPECT_NEAR(coarse->links[0].spring_peak, fine->links[0].spring_peak, 1e-6 * fine->links[0].spring_peak);
  EXPECT_NEAR(*coarse->started, *fine->started, 1e-6);
  EXPECT_LT(fine->energy_error, coarse->energy_error);
}

TEST(Simulation, TinyMotionIsAsExactAsLargeMotion) {
  Scenario s = drive();  // motor on for 40 us: a ten-millionth of the energy of a start
  s.chain.size = 2;
  s.chain.link[0] = {8e4, 0, 0, 0};
  s.events = {{EventKind::motor_off, 4e-5, 0}};
  s.duration = 0.15;
  const auto outcome = simulate(s);
  ASSERT_TRUE(outcome.ok());
  EXPECT_LT(outcome->energy_error, 1e-6);
  EXPECT_GT(outcome->links[0].spring_peak, 0);
}

TEST(Simulation, ChecksItsInputAndNamesEveryField) {
  Scenario s = jam();
  s.chain.inertia[1] = 0;
  s.chain.link[0].stiffness = -1;
  s.duration = 0;
  s.events[0].time = -1;
  const auto outcome = simulate(s);
  ASSERT_FALSE(outcome.ok());
  std::vector<std::string> paths;
  for (const Error& error : outcome.errors()) paths.push_back(error.path);
  EXPECT_EQ(paths,
            (std::vector<std::string>{"chain.inertia[1]", "chain.link[0].stiffness", "duration", "events[0].time"}));
  s = jam();
  s.chain.size = 7;
  EXPECT_EQ(simulate(s).errors()[0].path, "chain.inertia");
}

}  // namespace
}  // namespace lobewise::motion
