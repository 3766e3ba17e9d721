// The list of events: what is in it, how often, and what each torque is before the output shaft.
#include "engine/drive/events.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "peak_support.h"

namespace lobewise::drive {
namespace {

const BuildName kBuild{"ring-265", 27, "", std::nullopt};

const Event* of_kind(const PeakCase& peak, EventKind kind) {
  const auto found =
      std::find_if(peak.events.begin(), peak.events.end(), [&](const Event& e) { return e.kind == kind; });
  return found == peak.events.end() ? nullptr : &*found;
}

TEST(Events, StartsAreCountedOverTheLifeAskedFor) {
  const Drive drive = assembled(stated_machine(), kBuild);
  const PeakCase peak = case_of(drive);
  const Event &start = *of_kind(peak, EventKind::start), &cold = *of_kind(peak, EventKind::cold_start);
  // 2 an hour over 20 000 h, one of them each working day after a night: 20 000 h are 5 years of 4000 h.
  EXPECT_NEAR(start.count + cold.count, 40000, 1e-6);
  EXPECT_NEAR(cold.per_year, 250, 1e-9);
  EXPECT_NEAR(cold.count, 1250, 1e-6);
  EXPECT_TRUE(start.routine);
  EXPECT_EQ(start.source, EventSource::computed);
  EXPECT_EQ(of_kind(peak, EventKind::reversal), nullptr);
  EXPECT_EQ(of_kind(peak, EventKind::jam)->source, EventSource::assumed);
}

TEST(Events, AColdStartHasItsOwnPeak) {
  enquiry::Enquiry enquiry = stated_machine();
  const auto at = [&](double celsius) {
    enquiry.site = enquiry::Site{};
    enquiry.site->ambient_low = kZeroCelsius + celsius;
    return assembled(enquiry, kBuild);
  };
  const Drive drive = at(-25);
  const PeakCase peak = case_of(drive);
  const Event &start = *of_kind(peak, EventKind::start), &cold = *of_kind(peak, EventKind::cold_start);
  const ColdStart resists = cold_start(drive, coldest(drive, {}), {});
  const ColdPeak found = cold_peak(drive, resists, {});
  EXPECT_DOUBLE_EQ(cold.torque, found.torque);
  // Contacts without a film and stiff oil take of the same locked-rotor torque: less winds the chain up.
  const double per_input = drive.build.ratio() * resists.rest.efficiency;
  const double locked_rotor =
      drive.motor->rated_torque * drive.motor->locked_rotor * Coefficients{}.motor_torque_factor;
  EXPECT_NEAR(found.pull, per_input * (locked_rotor - found.drag), 1e-9 * found.pull);
  EXPECT_GT(found.drag, 0.05 * locked_rotor);
  EXPECT_LT(cold.torque, start.torque);
  // The balance holds at the speed that is left, half of what play and wind-up give: derived, docs/theory/peaks.md.
  const Torsion t = torsion_of(drive, {});
  const motion::Characteristic chain = characteristic_of(drive, {});
  const double play = start_play(drive).nominal * 2 * chain.free_angle(), dry = per_input * locked_rotor;
  const double speed = std::sqrt((2 * dry * play + dry * dry / t.stiffness) / t.motor_inertia);
  const double drag = ColdTurning(drive, resists.temperature, {}).at(speed / 2 * drive.build.ratio()).total();
  EXPECT_NEAR(found.drag, drag / (1 + drag / locked_rotor), 1e-9 * locked_rotor);
  EXPECT_NEAR(cold.motor_torque, locked_rotor, 1e-9 * locked_rotor);
  EXPECT_NEAR(start.motor_torque, locked_rotor, 1e-9 * locked_rotor);
  EXPECT_NEAR(cold.input * cold.torque, cold.torque / per_input + found.drag, 1e-9 * locked_rotor);
  EXPECT_NEAR(input_torque(cold, peak.passed),
              cold.input * cold.torque - peak.passed.own_share * (cold.input * cold.torque - locked_rotor),
              1e-9 * locked_rotor);
  // Colder, more.
  const Drive mild = at(5);
  const ColdPeak milder = cold_peak(mild, cold_start(mild, coldest(mild, {}), {}), {});
  EXPECT_LT(milder.drag, found.drag);
  EXPECT_GT(milder.torque, found.torque);
}

TEST(Events, ColdOilTakesItsShareOfALateColdPeak) {
  // In star and delta the peak comes with the change to delta, when the unit turns: then the oil drags.
  enquiry::Enquiry enquiry = stated_machine();
  enquiry.supply = enquiry::Supply{};
  enquiry.supply->starting = enquiry::Starting::star_delta;
  double before = 1e99;
  for (const double celsius : {15.0, -5.0, -25.0}) {
    enquiry.site = enquiry::Site{};
    enquiry.site->ambient_low = kZeroCelsius + celsius;
    const Drive drive = assembled(enquiry, kBuild);
    const ColdStart resists = cold_start(drive, coldest(drive, {}), {});
    const ColdPeak peak = cold_peak(drive, resists, {});
    EXPECT_LT(peak.torque, before) << celsius;
    before = peak.torque;
    // The motor's breakdown torque, whatever the oil takes of it.
    const double breakdown = drive.motor->rated_torque * drive.motor->breakdown * Coefficients{}.motor_torque_factor;
    EXPECT_NEAR(peak.given, breakdown, 1e-9 * breakdown);
    EXPECT_NEAR(peak.input * peak.torque,
                peak.torque / (drive.build.ratio() * resists.rest.efficiency) + resists.drag.total(), 1e-9);
  }
}

TEST(Events, AStatedShockIsTakenAsItWasSaid) {
  enquiry::Enquiry enquiry = stated_machine();
  enquiry.duty->shocks = {{"a stone at the gate", 3.5, 100, false}, {"a log's", 2, 400, true}};
  const PeakCase peak = case_of(assembled(enquiry, kBuild));
  std::vector<Event> shocks;
  for (const Event& event : peak.events)
    if (event.kind == EventKind::shock) shocks.push_back(event);
  ASSERT_EQ(shocks.size(), 2U);
  EXPECT_DOUBLE_EQ(shocks[0].torque, 3.5 * 1200);
  EXPECT_EQ(shocks[0].source, EventSource::stated);
  EXPECT_FALSE(shocks[0].routine) << "500 in the life";
  EXPECT_EQ(shocks[1].source, EventSource::logged);
  EXPECT_TRUE(shocks[1].routine) << "2000 in the life";
  const Drive drive = assembled(enquiry, kBuild);
  EXPECT_EQ(label(shocks[0], drive), "“a stone at the gate”");
}

TEST(Events, AReversingMachineIsReversed) {
  enquiry::Enquiry enquiry = stated_machine();
  enquiry.duty->reversals_per_hour = 10;
  PeakCase peak = case_of(assembled(enquiry, kBuild));
  const Event* reversal = of_kind(peak, EventKind::reversal);
  ASSERT_NE(reversal, nullptr);
  EXPECT_EQ(reversal->source, EventSource::computed);
  EXPECT_EQ(reversal->before, -1200);
  EXPECT_NEAR(reversal->count, 200000, 1e-6);
  const Event* plugging = of_kind(peak, EventKind::plugging);
  ASSERT_NE(plugging, nullptr) << "direct on line";
  EXPECT_EQ(plugging->source, EventSource::assumed) << "nobody said that it is reversed at full speed";
  EXPECT_GT(plugging->torque, 1200);
  enquiry.supply = enquiry::Supply{};
  enquiry.supply->starting = enquiry::Starting::inverter;
  peak = case_of(assembled(enquiry, kBuild));
  EXPECT_EQ(of_kind(peak, EventKind::plugging), nullptr) << "an inverter brings it to rest first";
  EXPECT_NE(of_kind(peak, EventKind::reversal), nullptr);
}

TEST(Events, TheRotorTakesItsShareBeforeTheInput) {
  const Drive drive = assembled(stated_machine(), kBuild);
  const PeakCase peak = case_of(drive);
  const Event& start = *of_kind(peak, EventKind::start);
  const double passed = peak.passed.input * start.torque;
  EXPECT_GT(peak.passed.input, 1.0 / 27) << "losses come on top of the ratio";
  EXPECT_LT(peak.passed.input, 1.2 / 27);
  const double own = drive.build.last().input_inertia;
  EXPECT_NEAR(peak.passed.own_share, own / (own + drive.motor->inertia), 1e-12);
  // The chain swings above the motor's torque: the rotor gives what is missing, and its own parts give their share.
  EXPECT_LT(start.motor_torque, passed);
  EXPECT_NEAR(input_torque(start, peak.passed), passed - peak.passed.own_share * (passed - start.motor_torque),
              1e-9 * passed);
}

TEST(Events, WithoutAMotorOnlyTheMachineActs) {
  Drive drive = assembled(stated_machine(), kBuild);
  drive.motor.reset();
  const PeakCase peak = case_of(drive);
  EXPECT_EQ(of_kind(peak, EventKind::start), nullptr);
  EXPECT_NE(of_kind(peak, EventKind::load_drop), nullptr);
  EXPECT_EQ(peak.passed.own_share, 0);
}

TEST(Events, ALogsShocksAreCountedOnce) {
  enquiry::Enquiry enquiry = stated_machine();
  enquiry.duty->shocks = {{"logged", 3, 2000, true}};
  enquiry.duty->torque_cycles = {{2.5, 1.75, 0.5}};  // from half to three times, every other hour
  const PeakCase both = case_of(assembled(enquiry, kBuild));
  enquiry.duty->shocks.clear();
  const PeakCase cycles_only = case_of(assembled(enquiry, kBuild));
  EXPECT_EQ(both.pulses.size(), cycles_only.pulses.size());
  enquiry.duty->torque_cycles.clear();
  enquiry.duty->shocks = {{"stated", 3, 2000, false}};
  const PeakCase stated = case_of(assembled(enquiry, kBuild));
  EXPECT_EQ(std::count_if(stated.pulses.begin(), stated.pulses.end(), [](const Pulse& p) { return !p.event; }), 0);
  EXPECT_EQ(stated.pulses.size(), both.pulses.size());
}

}  // namespace
}  // namespace lobewise::drive
