#include <gtest/gtest.h>

#include "engine/demand/connection.h"
#include "engine/demand/duty.h"
#include "engine/demand/load_log.h"
#include "engine/demand/machines/registry.h"
#include "engine/demand/practice.h"

namespace lobewise::demand {
namespace {

bool mentions(const Errors& errors, std::string_view path, std::string_view words) {
  for (const Error& e : errors)
    if (e.path == path && e.message.find(words) != std::string::npos) return true;
  return false;
}

TEST(Messages, AllMissingFieldsAtOnceWithAQuestion) {
  const auto result = compute(BeltConveyor{});
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors().size(), 5u);
  EXPECT_TRUE(mentions(result.errors(), "machine.belt_conveyor.mass_flow", "How many tonnes an hour"));
  EXPECT_TRUE(mentions(result.errors(), "machine.belt_conveyor.drum_diameter", "drive drum"));
}

TEST(Messages, OutOfRangeSaysWhatIsAllowed) {
  BeltConveyor belt;
  belt.mass_flow = 10;
  belt.speed = 40;
  belt.length = 100;
  belt.lift = 5;
  belt.drum_diameter = 0.5;
  const auto result = compute(belt);
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(result.errors().size(), 1u);
  EXPECT_EQ(result.errors()[0].path, "machine.belt_conveyor.speed");
  EXPECT_EQ(result.errors()[0].offending, "40 m/s");
  EXPECT_EQ(result.errors()[0].message, "Belt speed must lie between 0.01 m/s and 12 m/s.");
}

TEST(Messages, NotANumberIsRefused) {
  BeltConveyor belt;
  belt.speed = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(mentions(compute(belt).errors(), "machine.belt_conveyor.speed", "must lie between"));
}

TEST(Messages, LiftingPeopleIsRefused) {
  Hoist hoist;
  hoist.load_mass = 300;
  hoist.speed = 0.2;
  hoist.drum_diameter = 0.3;
  EXPECT_TRUE(mentions(compute(hoist).errors(), "machine.hoist.lifts_people", "Say whether people"));
  hoist.lifts_people = true;
  const auto refused = compute(hoist);
  ASSERT_FALSE(refused.ok());
  EXPECT_TRUE(mentions(refused.errors(), "machine.hoist.lifts_people", "refused"));
  EXPECT_TRUE(mentions(refused.errors(), "machine.hoist.lifts_people", "specialist"));
  hoist.lifts_people = false;
  const auto goods = compute(hoist);
  ASSERT_TRUE(goods.ok());
  EXPECT_TRUE(std::any_of(goods->cautions.begin(), goods->cautions.end(),
                          [](const Caution& c) { return c.key == "no_people"; }));
  TravelDrive car;
  car.mass = 1000;
  car.speed = 1;
  car.wheel_diameter = 0.2;
  car.carries_people = true;
  EXPECT_TRUE(mentions(compute(car).errors(), "machine.travel_drive.carries_people", "refused"));
}

TEST(Messages, SteepScrewIsOutsideTheModel) {
  ScrewConveyor screw;
  screw.mass_flow = 1;
  screw.length = 3;
  screw.lift = 2;
  screw.diameter = 0.2;
  screw.speed = 5;
  const auto result = compute(screw);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors()[0].kind, ErrorKind::model);
  EXPECT_TRUE(mentions(result.errors(), "machine.screw_conveyor.lift", "20 degrees"));
}

TEST(Messages, ExactlyOneMachine) {
  EXPECT_TRUE(mentions(compute(DrivenMachine{}).errors(), "machine", "exactly one"));
  DrivenMachine two;
  two.hoist = Hoist{};
  two.agitator = Agitator{};
  EXPECT_TRUE(mentions(compute(two).errors(), "machine", "Only one"));
}

TEST(Messages, CurveMustRise) {
  CurveMachine m;
  m.kind = CurveKind::fan;
  m.curve_speeds = {0, 50, 50};
  m.curve_torques = {1, 2, 3};
  EXPECT_TRUE(mentions(compute(m).errors(), "machine.curve.curve_speeds", "must rise"));
  m.curve_speeds = {0};
  EXPECT_TRUE(mentions(compute(m).errors(), "machine.curve.curve_torques", "two points"));
  m.curve_speeds = {0, 100};
  m.curve_torques = {1, 3};
  m.speed = 200;
  EXPECT_TRUE(mentions(compute(m).errors(), "machine.curve.speed", "on the curve"));
  m.speed = 50;
  const auto fine = compute(m);
  ASSERT_TRUE(fine.ok());
  EXPECT_DOUBLE_EQ(fine->torque.value, 2);
}

TEST(Messages, MeasuredDriveWantsOneReading) {
  MeasuredDrive m;
  m.speed = 3;
  m.measured_current = 10;
  m.measured_power = 4000;
  EXPECT_TRUE(mentions(compute(m).errors(), "machine.measured.measured_current", "only one"));
  m.measured_power.reset();
  const auto result = compute(m);
  EXPECT_TRUE(mentions(result.errors(), "machine.measured.rated_power", "nameplate"));
  EXPECT_TRUE(mentions(result.errors(), "machine.measured.rated_current", "nameplate"));
}

TEST(Messages, MeasuredDriveWithoutAReadingTakesTheRating) {
  MeasuredDrive m;
  m.speed = 3;
  m.rated_power = 6000;
  m.rated_speed = 150;
  const auto result = compute(m);
  ASSERT_TRUE(result.ok());
  EXPECT_DOUBLE_EQ(result->torque.value, 6000 / 3.0 * 0.9);  // all of the rating, 90 % of it arrives
  EXPECT_DOUBLE_EQ(result->torque.low, 0.5 * 6000 / 3.0 * 0.75);
  m.load_share = 0.6;
  EXPECT_DOUBLE_EQ(compute(m)->torque.value, 0.6 * 6000 / 3.0 * 0.9);
}

TEST(Messages, ConnectionNeedsADiameter) {
  Demand d;
  Connection chain;
  chain.link = Link::single_chain;
  EXPECT_TRUE(mentions(connect(d, chain).errors(), "connection.pitch_diameter", "tooth count"));
  chain.pitch_diameter = 0.2;
  chain.ratio = 50;
  EXPECT_TRUE(mentions(connect(d, chain).errors(), "connection.ratio", "between"));
}

TEST(Messages, DutySharesMustAddUp) {
  Duty duty;
  duty.blocks = {{0.5, 1, 1}, {0.4, 0.5, 1}};
  EXPECT_TRUE(mentions(spectrum_of(duty, Demand{}).errors(), "duty.blocks", "add up to 1"));
  duty.blocks = {{0.5, 20, 1}, {0.5, 1, 9}};
  const auto result = spectrum_of(duty, Demand{});
  EXPECT_TRUE(mentions(result.errors(), "duty.blocks[0].torque", "between"));
  EXPECT_TRUE(mentions(result.errors(), "duty.blocks[1].speed", "between"));
}

TEST(Messages, LogNeedsANameplate) {
  LogSetup setup;
  setup.signal = Signal::current;
  const auto result = LoadLog::open(setup);
  ASSERT_FALSE(result.ok());
  EXPECT_TRUE(mentions(result.errors(), "log.speed", "greater than zero"));
  EXPECT_TRUE(mentions(result.errors(), "log.motor", "nameplate"));
}

TEST(Assumptions, EveryTakenValueHasARangeASourceAndAQuestionIsRanked) {
  BeltConveyor belt;
  belt.mass_flow = 30;
  belt.speed = 1.5;
  belt.length = 60;
  belt.lift = 10;
  belt.drum_diameter = 0.5;
  const auto result = compute(belt);
  ASSERT_TRUE(result.ok());
  ASSERT_FALSE(result->assumptions.empty());
  for (const Assumption& a : result->assumptions) {
    EXPECT_LE(a.low, a.value) << a.path;
    EXPECT_GE(a.high, a.value) << a.path;
    EXPECT_FALSE(a.source.empty()) << a.path;
  }
  ASSERT_GE(result->questions.size(), 3u);
  for (std::size_t i = 1; i < result->questions.size(); ++i)
    EXPECT_GE(result->questions[i - 1].influence, result->questions[i].influence);
  EXPECT_LT(result->torque.low, result->torque.value);
  EXPECT_GT(result->torque.high, result->torque.value);
  // Saying one of the taken values narrows the range and removes the assumption.
  belt.friction = 0.022;
  const auto narrower = compute(belt);
  EXPECT_LT(narrower->torque.high - narrower->torque.low, result->torque.high - result->torque.low);
  EXPECT_EQ(narrower->torque.value, result->torque.value);
  EXPECT_EQ(narrower->assumptions.size() + 1, result->assumptions.size());
}

}  // namespace
}  // namespace lobewise::demand
