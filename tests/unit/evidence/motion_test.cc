#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/excitations.h"
#include "engine/drive/shocks.h"
#include "engine/motion/shock.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

enquiry::Requirement job() {
  enquiry::Requirement requirement = stated(1200, 50 * kRpm);
  requirement.coupled = {};
  return requirement;
}
drive::Drive proposed(const enquiry::Requirement& requirement) { return drive_of(requirement, "ring-224", 31); }
Finding motion_of(const drive::Drive& drive) {
  return finding(prove(drive, {.samples = 60, .in_time = false}), "motion");
}
double natural(const drive::Drive& drive) { return drive::torsion_of(drive, {}).natural_frequency / (2 * kPi); }
double turns(const drive::Drive& drive) { return drive.input_speed / (2 * kPi); }

const drive::TorsionalExcitation* named(const std::vector<drive::TorsionalExcitation>& list, const std::string& words) {
  for (const drive::TorsionalExcitation& x : list)
    if (x.name.find(words) != std::string::npos) return &x;
  return nullptr;
}

TEST(Excitations, NoDiscCancelsWhatStandsOutsideOfThem) {
  // Two discs balance the mesh's own first order. The motor's unbalance and the coupling's misalignment are not theirs.
  const drive::Drive drive = proposed(job());
  ASSERT_EQ(drive.build.last().geometry.discs, 2);
  const auto list = drive::torsional_excitations(drive);
  ASSERT_NE(named(list, "a turn of the input shaft"), nullptr);
  EXPECT_DOUBLE_EQ(named(list, "a turn of the input shaft")->low, turns(drive));
  EXPECT_DOUBLE_EQ(named(list, "twice a turn of the input shaft")->low, 2 * turns(drive));
  EXPECT_DOUBLE_EQ(named(list, "a turn of the output shaft")->low, turns(drive) / drive.build.ratio());
  EXPECT_DOUBLE_EQ(named(list, "mains frequency")->low, 50);
  EXPECT_EQ(named(list, "mains frequency")->lasting, drive::Lasting::start);
  EXPECT_EQ(named(list, "polygon"), nullptr);
}

TEST(Excitations, TeethPulsesAndInverterReachThem) {
  enquiry::Requirement requirement = job();
  requirement.coupled.link = demand::Link::single_chain;
  const drive::Drive open = proposed(requirement);
  const double out = turns(open) / open.build.ratio();
  const auto* taken = named(drive::torsional_excitations(open), "polygon");
  ASSERT_NE(taken, nullptr);
  EXPECT_FALSE(taken->said);
  EXPECT_DOUBLE_EQ(taken->low, 15 * out);
  EXPECT_DOUBLE_EQ(taken->high, 45 * out);
  requirement.coupled.teeth = 21;
  requirement.coupled.machine_pulses = 6;
  const auto list = drive::torsional_excitations(proposed(requirement));
  EXPECT_TRUE(named(list, "polygon")->said);
  EXPECT_DOUBLE_EQ(named(list, "polygon")->low, 21 * out);
  EXPECT_DOUBLE_EQ(named(list, "pulses of the machine")->high, 6 * out);

  requirement.starting = enquiry::Starting::inverter;
  requirement.inverter_low = 10;
  requirement.inverter_high = 60;
  const drive::Drive slowed = proposed(requirement);
  const auto swept = drive::torsional_excitations(slowed);
  const double per_hertz = slowed.motor->rated_speed / 50 / (2 * kPi);
  EXPECT_DOUBLE_EQ(named(swept, "a turn of the input shaft")->low, 10 * per_hertz);
  EXPECT_DOUBLE_EQ(named(swept, "a turn of the input shaft")->high, 60 * per_hertz);
  EXPECT_EQ(named(swept, "mains"), nullptr);
}

TEST(Motion, AStatedCouplingThatMeetsAnOrderDoesNotHold) {
  // Chosen so that the natural frequency falls on a turn of the input shaft, and on each side far from it.
  const drive::Drive rigid = proposed(job());
  const drive::Torsion t = drive::torsion_of(rigid, {});
  enquiry::Requirement requirement = job();
  // A light machine swings high: here the drive alone stands far above every order of the shafts.
  requirement.demand.inertia = {t.motor_inertia / 40, t.motor_inertia / 40, t.motor_inertia / 40};
  const drive::Drive alone = proposed(requirement);
  ASSERT_GT(natural(alone), 1.3 * turns(alone));
  const auto with = [&](double frequency) {
    enquiry::Requirement r = requirement;
    r.coupled.link_stiffness =
        drive::link_that_gives<double>(drive::torsion_of(alone, {}).stiffness, natural(alone), frequency);
    const drive::Drive drive = proposed(r);
    EXPECT_NEAR(natural(drive), frequency, 1e-9 * frequency);
    return motion_of(drive);
  };
  const Finding on = with(turns(alone));
  EXPECT_EQ(on.verdict, Verdict::does_not_hold);
  EXPECT_NEAR(on.checks.front().figure, 0, 1e-9);
  EXPECT_EQ(with(1.1 * turns(alone)).verdict, Verdict::does_not_hold);
  EXPECT_NE(with(0.6 * turns(alone)).verdict, Verdict::does_not_hold);
  EXPECT_EQ(with(2 * turns(alone)).verdict, Verdict::does_not_hold);
}

TEST(Motion, ACouplingThatNobodySaidRefusesNothing) {
  for (const double share : {0.1, 0.5, 1.0, 1.1, 2.0, 5.0, 40.0}) {
    enquiry::Requirement requirement = job();
    const double inertia = drive::torsion_of(proposed(requirement), {}).motor_inertia / share;
    requirement.demand.inertia = {inertia, inertia, inertia};
    const Finding f = motion_of(proposed(requirement));
    EXPECT_NE(f.verdict, Verdict::does_not_hold) << share;
    if (f.checks.front().figure < f.checks.front().limit) {
      EXPECT_EQ(f.verdict, Verdict::holds_if) << share;
      EXPECT_NE(f.condition.pattern.find("joins it to the machine"), std::string::npos) << share;
    }
  }
}

TEST(Motion, TheWholeRangeOfTheInverterCounts) {
  enquiry::Requirement requirement = job();
  requirement.coupled.link_stiffness = 1e9;
  requirement.starting = enquiry::Starting::inverter;
  requirement.poles = 4;
  requirement.inverter_low = requirement.inverter_high = 50;
  const drive::Drive fixed = proposed(requirement);
  // A range that meets the natural frequency with a turn of the input shaft.
  const double there = 50 * natural(fixed) / (fixed.motor->rated_speed / (2 * kPi));
  requirement.inverter_low = std::min(45.0, 0.9 * there);
  requirement.inverter_high = std::max(55.0, 1.1 * there);
  const Finding f = motion_of(proposed(requirement));
  EXPECT_EQ(f.checks.front().figure, 0);
  EXPECT_EQ(f.verdict, Verdict::does_not_hold);
}

TEST(Motion, TheForbiddenStiffnessesAreWhereTheFrequencyIsNear) {
  const drive::TorsionalExcitation x{"x", 1, 24, 26, drive::Lasting::running, true, ""};
  const auto forbidden = drive::forbidden_stiffness(60, 5e5, x, 0.15);
  ASSERT_TRUE(forbidden && forbidden->stiff);
  const auto frequency = [](double link) { return 60 * std::sqrt(link / (link + 5e5)); };
  EXPECT_NEAR(frequency(forbidden->soft), 0.85 * 24, 1e-9);
  EXPECT_NEAR(frequency(*forbidden->stiff), 1.15 * 26, 1e-9);
  EXPECT_FALSE(drive::forbidden_stiffness(25, 5e5, x, 0.15)->stiff);  // rigid is too near already
  EXPECT_FALSE(drive::forbidden_stiffness(15, 5e5, x, 0.15));         // a link only lowers it
}

TEST(Motion, TwoDiscsOnAShaft) {
  // Worked example read in an open text on rotating machines: 211.4 and 8.3 kg m2 on 9.775e6 N m/rad swing at 176.1 Hz.
  EXPECT_NEAR(motion::natural_frequency(9.775e6, 211.4, 8.3) / (2 * kPi), 176.1, 0.05);
}

}  // namespace
}  // namespace lobewise::evidence
