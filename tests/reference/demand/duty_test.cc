// Duty, connection, measured drives and service-factor practice against published or independently worked values.
#include "engine/demand/duty.h"

#include "engine/demand/connection.h"
#include "engine/demand/load_log.h"
#include "engine/demand/machines/measured_drive.h"
#include "engine/demand/practice.h"
#include "tests/reference/demand/support.h"

namespace lobewise::demand {
namespace {

Demand torque_and_speed(double torque, double speed) {
  Demand d;
  d.torque = d.starting_torque = {torque, torque, torque};
  d.speed = {speed, speed, speed};
  return d;
}

// Pull of a belt over its effective pull at tension ratios 2.5, 3 and 3.5: inputs of Sadhu Singh, Machine Design I, ch.
// 6 Ex 6.1 and 6.4, and Jindal CH18 Ex 18.6; values computed from the inputs there.
TEST(ConnectionReference, BeltPullFactors) {
  EXPECT_NEAR(belt_pull_factor(2.5), 2.33333, 5e-6);
  EXPECT_NEAR(belt_pull_factor(3), 2, 1e-12);
  EXPECT_NEAR(belt_pull_factor(3.5), 1.8, 1e-12);
}

// Overhung pull F1 + F2: Sadhu Singh, Machine Design I, ch. 6 Ex 6.4: 25 kW at 600 rpm, pulley 400 mm, tension ratio 3
// -> 3 978.87 N.
TEST(ConnectionReference, OverhungBeltPulley) {
  const double speed = 600 * kRpm;
  Connection belt;
  belt.link = Link::flat_belt;
  belt.pitch_diameter = 0.4;
  belt.efficiency = 1;
  belt.factor = belt_pull_factor(3);
  const auto d = get(connect(torque_and_speed(25e3 / speed, speed), belt));
  EXPECT_NEAR(d.radial_load.value, 3978.87, 0.005);
}

// Flat belt: effective pull T / r + 2 x slack side: Wentzell, Machine Design, ch. 14 Ex 14.1 (public notebook): 2
// hp, 2450 rpm, r = 3 in, slack side 10 lbf -> torque 51.43 lbf in, shaft pull 37.14 lbf (the book takes 63 000 hp /
// n).
TEST(ConnectionReference, BeltWithKnownSlackSide) {
  const double lbf = kPound * kGravity;
  const double torque = 63000.0 * 2 / 2450 * lbf * kInch;
  EXPECT_NEAR(torque / (lbf * kInch), 51.43, 0.005);
  const double effective = torque / (3 * kInch);
  Connection belt;
  belt.link = Link::flat_belt;
  belt.pitch_diameter = 6 * kInch;
  belt.efficiency = 1;
  belt.factor = belt_pull_factor((effective + 10 * lbf) / (10 * lbf));
  EXPECT_NEAR(get(connect(torque_and_speed(torque, 1), belt)).radial_load.value / lbf, 37.14, 0.005);
}

// Typical factors of data/overhung_factors.csv (chain and pinion: from memory / common practice).
TEST(ConnectionReference, FactorsOfTheTable) {
  EXPECT_EQ(overhung_factor(Link::single_chain).nominal, 1.0);
  EXPECT_EQ(overhung_factor(Link::pinion).nominal, 1.25);
  EXPECT_EQ(overhung_factor(Link::v_belt).nominal, 1.5);
  EXPECT_EQ(overhung_factor(Link::flat_belt).nominal, 2.5);
  EXPECT_EQ(overhung_factor(Link::rack_pinion).nominal, 1.25);
  EXPECT_EQ(overhung_factor(Link::coupling).nominal, 0.0);
}

// Equivalent load, worked by hand: half the turns at 100, half at 50, p = 3: (0.5 (1 + 1/8))^(1/3) = 0.82548.
TEST(DutyReference, EquivalentTorque) {
  EXPECT_NEAR(equivalent_torque({{100, 10, 0.5}, {-50, 10, 0.5}}, 3), 100 * std::cbrt(0.5625), 1e-9);
  // Turns weigh, not time: the same torques with half the time at twice the speed.
  EXPECT_NEAR(equivalent_torque({{100, 10, 2.0 / 3}, {50, 20, 1.0 / 3}}, 3), 100 * std::cbrt(0.5625), 1e-9);
  EXPECT_NEAR(mean_speed({{100, 10, 2.0 / 3}, {50, 20, 1.0 / 3}}), 40.0 / 3, 1e-12);
}

// Time at level of a made-up log, by hand: 10 s at 100 N m, 20 s at rest, 30 s at 50 N m with a moment at 160 N m.
TEST(LoadLogReference, TimeAtLevelByHand) {
  LogSetup setup;
  setup.speed = 2;
  setup.reference_torque = 100;
  LoadLog l = std::move(LoadLog::open(setup)).value();
  for (const auto& [t, torque] :
       {std::pair{0.0, 100.0}, {10.0, 0.0}, {30.0, 50.0}, {50.0, 160.0}, {51.0, 50.0}, {60.0, 0.0}})
    l.push(t, torque);
  EXPECT_EQ(l.counts().rows, 6);
  EXPECT_DOUBLE_EQ(l.counts().running, 40);
  EXPECT_DOUBLE_EQ(l.counts().resting, 20);
  EXPECT_EQ(l.counts().starts, 1);
  const auto spectrum = l.spectrum(16 * 3600, 40 * 100);
  ASSERT_TRUE(spectrum.ok());
  ASSERT_EQ(spectrum->bins.size(), 3u);
  EXPECT_NEAR(spectrum->bins[0].torque, 50, 1e-9);
  EXPECT_NEAR(spectrum->bins[0].share, 29.0 / 40, 1e-12);
  EXPECT_NEAR(spectrum->bins[1].share, 10.0 / 40, 1e-12);
  EXPECT_NEAR(spectrum->bins[2].torque, 160, 1e-9);
  ASSERT_EQ(spectrum->shocks.size(), 1u);
  EXPECT_NEAR(spectrum->shocks[0].torque, 160, 1e-9);
  EXPECT_NEAR(spectrum->shocks[0].per_year, 100, 1e-9);
}

// The two limits every motor formula must keep: nameplate current and power give rated torque, no-load current none.
TEST(MeasuredReference, NameplatePointIsExact) {
  const Nameplate motor{7500, 1455 * kRpm, 15.1, 0.83, 0.887};
  const TorqueFromCurrent from_current(motor, no_load_current_share(motor.power_factor).nominal);
  EXPECT_NEAR(from_current(15.1), motor.torque(), 1e-9);
  EXPECT_EQ(from_current(15.1 * no_load_current_share(motor.power_factor).nominal), 0);
  const TorqueFromPower from_power(motor, 0.4);
  EXPECT_NEAR(from_power(7500 / 0.887), motor.torque(), 1e-9);
  EXPECT_NEAR(from_power(0.4 * 7500 * (1 / 0.887 - 1)), 0, 1e-9);
  EXPECT_LT(from_power(-3000), 0);
}

// Common practice, no source (data/service_factor_practice.csv), by hand: an uneven load above 12 h a day 1.45 to 1.65;
// a belt fed in heaps 1.25 to 1.5 over a long shift, shifted by the same (1.45 - 1.25 and 1.65 - 1.5). 10 to 60 starts
// an hour: times 1.1 to 1.2. An engine of one cylinder adds 0.4 to 0.6.
TEST(PracticeReference, TableRows) {
  Demand d = torque_and_speed(1000, 5);
  d.shock_class = ShockClass::uneven;
  d.practice_machine = "belt fed in heaps";
  const auto plain = practice_factor(d, 16 * 3600, 2, 0, PrimeMover::electric);
  ASSERT_TRUE(plain.ok());
  EXPECT_NEAR(plain->low, 1.45, 1e-12);
  EXPECT_NEAR(plain->high, 1.65, 1e-12);
  const auto starting = practice_factor(d, 16 * 3600, 30, 0, PrimeMover::electric);
  EXPECT_NEAR(starting->low, 1.595, 1e-12);
  EXPECT_NEAR(starting->high, 1.98, 1e-12);
  const auto engine = practice_factor(d, 8 * 3600, 2, 0, PrimeMover::single_cylinder);
  EXPECT_NEAR(engine->low, 1.65, 1e-12);
  EXPECT_NEAR(engine->high, 2.1, 1e-12);
}

TEST(PracticeReference, LongerDaysMoreStartsAndReversalsNeverAskForLess) {
  Demand d = torque_and_speed(1000, 5);
  for (const ShockClass load : {ShockClass::steady, ShockClass::uneven, ShockClass::striking}) {
    d.shock_class = load;
    Practice before{0, 0, {}};
    for (const double hours : {0.0, 2.0, 4.0, 8.0, 12.0, 13.0, 24.0})
      for (const double starts : {1.0, 30.0, 100.0, 900.0})
        for (const double reversals : {0.0, 1.0}) {
          const auto now = practice_factor(d, hours * 3600, starts, reversals, PrimeMover::electric);
          ASSERT_TRUE(now.ok()) << hours;
          EXPECT_LE(now->low, now->high);
          const auto less = practice_factor(d, hours * 3600, starts / 2, 0, PrimeMover::electric);
          EXPECT_GE(now->high, less->high);
          if (starts == 1 && reversals == 0) {
            EXPECT_GE(now->low, before.low);
            EXPECT_GE(now->high, before.high);
            before = *now;
          }
        }
  }
}

// Steady load, ten hours: life asks for 1; breaking away at 4.2 times the running torque over the 2 a factor covers
// asks for 2.1.
TEST(PracticeReference, CrossCheckExplainsADisagreement) {
  Demand d = torque_and_speed(1000, 5);
  d.starting_torque = {4200, 4200, 4200};
  d.shock_class = ShockClass::steady;
  Duty duty;
  duty.hours_per_day = 10 * 3600.0;
  duty.days_per_year = 250;
  duty.starts_per_hour = 1;
  duty.pattern = Pattern::steady;
  const auto spectrum = spectrum_of(duty, d);
  ASSERT_TRUE(spectrum.ok());
  const auto check = cross_check(d, *spectrum, PrimeMover::electric);
  ASSERT_TRUE(check.ok());
  EXPECT_NEAR(check->life.value, 1, 1e-12);
  EXPECT_NEAR(check->peak.value, 2.1, 1e-12);
  EXPECT_EQ(check->agreement, CrossCheck::Agreement::duty_asks_more);
  ASSERT_GE(check->explanation.size(), 3u);
  EXPECT_NE(check->explanation[1].pattern.find("worst moment"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::demand
