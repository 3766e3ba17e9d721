#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <map>

#include "engine/base/constants.h"
#include "engine/demand/load_log.h"
#include "engine/demand/machines/registry.h"
#include "engine/demand/practice.h"

namespace lobewise::demand {
namespace {

double between(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 100001) / 100000.0; }

/// Machines of ordinary size with every needed field, nothing else.
std::vector<DrivenMachine> ordinary(double size) {
  std::vector<DrivenMachine> all;
  const auto add = [&](auto member, auto machine) {
    DrivenMachine m;
    m.*member = machine;
    all.push_back(m);
  };
  BeltConveyor belt;
  belt.mass_flow = 30 * size;
  belt.speed = 1.5;
  belt.length = 80;
  belt.lift = 10;
  belt.drum_diameter = 0.5;
  add(&DrivenMachine::belt_conveyor, belt);
  ScrewConveyor screw;
  screw.mass_flow = 5 * size;
  screw.length = 8;
  screw.lift = 1;
  screw.diameter = 0.4;
  screw.speed = 5;
  add(&DrivenMachine::screw_conveyor, screw);
  BucketElevator elevator;
  elevator.mass_flow = 10 * size;
  elevator.lift = 20;
  elevator.speed = 1.2;
  elevator.head_diameter = 0.6;
  add(&DrivenMachine::bucket_elevator, elevator);
  ChainConveyor chain;
  chain.length = 20;
  chain.speed = 0.2;
  chain.sprocket_diameter = 0.3;
  chain.load = 100 * size;
  chain.chain_mass = 30;
  chain.slope = 0.1;
  add(&DrivenMachine::chain_conveyor, chain);
  RollerConveyor roller;
  roller.load_mass = 2000 * size;
  roller.rollers_mass = 100;
  roller.roller_diameter = 0.09;
  roller.speed = 0.3;
  add(&DrivenMachine::roller_conveyor, roller);
  RollerTable table;
  table.load_mass = 5000 * size;
  table.rollers_mass = 2000;
  table.roller_diameter = 0.3;
  table.speed = 1;
  add(&DrivenMachine::roller_table, table);
  RotaryDrum drum;
  drum.inner_diameter = 2;
  drum.length = 6;
  drum.fill = 0.1;
  drum.density = 1000 * size;
  drum.speed = 1;
  drum.shell_mass = 5000;
  add(&DrivenMachine::rotary_drum, drum);
  Agitator agitator;
  agitator.diameter = 1;
  agitator.speed = 8;
  agitator.density = 1000 * size;
  add(&DrivenMachine::agitator, agitator);
  PaddleMixer mixer;
  mixer.batch = Batch::paste;
  mixer.volume = 0.5 * size;
  mixer.speed = 4;
  mixer.rotor_diameter = 0.8;
  add(&DrivenMachine::paddle_mixer, mixer);
  Hoist hoist;
  hoist.lifts_people = false;
  hoist.load_mass = 2000 * size;
  hoist.speed = 0.2;
  hoist.drum_diameter = 0.4;
  add(&DrivenMachine::hoist, hoist);
  TravelDrive travel;
  travel.mass = 20000 * size;
  travel.speed = 0.5;
  travel.wheel_diameter = 0.4;
  add(&DrivenMachine::travel_drive, travel);
  SlewingDrive slewing;
  slewing.axial_load = 2e5 * size;
  slewing.tilting_moment = 3e5 * size;
  slewing.track_diameter = 1.5;
  slewing.slewing_inertia = 2e5 * size;
  slewing.slewing_speed = 0.1;
  slewing.gear_ratio = 8;
  add(&DrivenMachine::slewing_drive, slewing);
  ApronFeeder feeder;
  feeder.width = 1;
  feeder.length = 6;
  feeder.opening_length = 3;
  feeder.bed_height = 0.5;
  feeder.density = 1400 * size;
  feeder.speed = 0.1;
  feeder.sprocket_diameter = 0.6;
  add(&DrivenMachine::apron_feeder, feeder);
  CurveMachine curve;
  curve.kind = CurveKind::extruder;
  curve.rated_power = 20e3 * size;
  curve.rated_speed = 10;
  add(&DrivenMachine::curve, curve);
  MeasuredDrive measured;
  measured.measured_torque = 1000 * size;
  measured.speed = 4;
  add(&DrivenMachine::measured, measured);
  return all;
}

TEST(EveryMachine, IsInTheOrdinaryList) { EXPECT_EQ(ordinary(1).size(), all_machines().size()); }

RC_GTEST_PROP(EveryMachine, MoreLoadNeverAsksLess, ()) {
  const double small = between(0.5, 1.5), large = small * between(1.0, 1.5);
  const auto light = ordinary(small), heavy = ordinary(large);
  for (std::size_t i = 0; i < light.size(); ++i) {
    const auto a = compute(light[i]), b = compute(heavy[i]);
    RC_ASSERT(a.ok());
    RC_ASSERT(b.ok());
    const double slack = 1e-9 * b->torque.value;
    RC_ASSERT(a->torque.value <= b->torque.value + slack);
    RC_ASSERT(a->starting_torque.value <= b->starting_torque.value + slack);
    RC_ASSERT(a->holding_torque.value <= b->holding_torque.value + slack);
  }
}

RC_GTEST_PROP(EveryMachine, FiguresLieInTheirRangesAndAreComplete, ()) {
  for (const DrivenMachine& machine : ordinary(between(0.5, 2))) {
    const auto d = compute(machine);
    RC_ASSERT(d.ok());
    for (const auto figure : kFigures) {
      const Figure& f = (*d).*figure;
      RC_ASSERT(std::isfinite(f.value) && std::isfinite(f.low) && std::isfinite(f.high));
      RC_ASSERT(f.low <= f.value && f.value <= f.high);
      RC_ASSERT(f.value >= 0);
    }
    RC_ASSERT(d->torque.value > 0);
    RC_ASSERT(d->speed.value > 0);
    RC_ASSERT(d->inertia.value > 0);
    RC_ASSERT(d->runback_torque.value <= d->holding_torque.value * (1 + 1e-12));
    RC_ASSERT(d->jam.angle.low <= d->jam.angle.nominal && d->jam.angle.nominal <= d->jam.angle.high);
    RC_ASSERT(!d->jam.text.empty() && !d->shock_reason.empty() && !d->working.empty() && !d->cautions.empty());
    for (const WorkingStep& step : d->working) RC_ASSERT(!step.source.empty());
    Duty duty;
    const auto spectrum = spectrum_of(duty, *d);
    RC_ASSERT(spectrum.ok());
    RC_ASSERT(cross_check(*d, *spectrum, PrimeMover::electric).ok());
  }
}

RC_GTEST_PROP(Rainflow, CountsEveryTurningPointOnce, ()) {
  const auto raw = *rc::gen::container<std::vector<int>>(rc::gen::inRange(-20, 20));
  double counted = 0, largest = 0;
  Rainflow counter;
  const auto sink = [&](const Cycle& c) {
    counted += c.count;
    largest = std::max(largest, c.range);
  };
  for (const int x : raw) counter.push(x, sink);
  counter.finish(sink);
  // Half cycles = number of ranges between turning points; the largest range is highest minus lowest.
  int ranges = 0, direction = 0;
  for (std::size_t i = 1; i < raw.size(); ++i) {
    const int d = (raw[i] > raw[i - 1]) - (raw[i] < raw[i - 1]);
    if (d != 0 && d != direction) {
      ++ranges;
      direction = d;
    }
  }
  RC_ASSERT(counted == 0.5 * ranges);
  if (!raw.empty())
    RC_ASSERT(largest == *std::max_element(raw.begin(), raw.end()) - *std::min_element(raw.begin(), raw.end()));
}

RC_GTEST_PROP(Rainflow, StackStaysBounded, ()) {
  Rainflow counter(1.0);
  std::size_t most = 0;
  for (int i = 0; i < 2000; ++i) {
    counter.push(between(-15, 15), [](const Cycle&) {});
    most = std::max(most, counter.waiting());
  }
  RC_ASSERT(most <= 33u);
}

RC_GTEST_PROP(LoadLog, DoesNotDependOnWhereItWasRead, ()) {
  // Reading a spectrum in between (a chunk's end) must not change what comes out at the end.
  LogSetup setup;
  setup.speed = 3;
  setup.reference_torque = 100;
  LoadLog whole = std::move(LoadLog::open(setup)).value(), pieces = whole;
  double time = 0;
  const int rows = *rc::gen::inRange(2, 400);
  for (int i = 0; i < rows; ++i) {
    time += between(0.01, 2);
    const double torque = between(-50, 400) * *rc::gen::inRange(0, 2);
    whole.push(time, torque);
    pieces.push(time, torque);
    if (*rc::gen::inRange(0, 4) == 0) (void)pieces.spectrum(3600, 3600);
  }
  const auto a = whole.spectrum(3600, 1e6), b = pieces.spectrum(3600, 1e6);
  RC_ASSERT(a.ok() == b.ok());
  if (!a.ok()) return;
  RC_ASSERT(a->bins.size() == b->bins.size());
  double share = 0;
  for (std::size_t i = 0; i < a->bins.size(); ++i) {
    RC_ASSERT(a->bins[i].torque == b->bins[i].torque && a->bins[i].share == b->bins[i].share);
    share += a->bins[i].share;
  }
  RC_ASSERT(std::fabs(share - 1) < 1e-9);
  RC_ASSERT(a->cycles.size() == b->cycles.size());
  for (std::size_t i = 0; i < a->cycles.size(); ++i)
    RC_ASSERT(a->cycles[i].range == b->cycles[i].range && a->cycles[i].count == b->cycles[i].count);
  RC_ASSERT(peak_torque(*a) >= whole.counts().highest - 1e-9);
}

RC_GTEST_PROP(TimeAtLevel, WideningKeepsTimeTurnsAndWork, ()) {
  TimeAtLevel levels(0.01);
  double time = 0, work = 0, turns = 0;
  for (int i = 0; i < 200; ++i) {
    const double torque = between(-1000, 1000), speed = between(0, 5), duration = between(0, 1);
    levels.push(torque, speed, duration);
    time += duration;
    work += torque * duration;
    turns += speed * duration;
  }
  double t = 0, w = 0, n = 0;
  for (const Level& level : levels.levels()) {
    t += level.time;
    w += level.torque_time;
    n += level.turns;
  }
  RC_ASSERT(std::fabs(t - time) <= 1e-9 * time);
  RC_ASSERT(std::fabs(n - turns) <= 1e-9 * turns);
  RC_ASSERT(std::fabs(w - work) < 1e-6 * (1 + std::fabs(work)));
}

RC_GTEST_PROP(Measured, MoreAmpsMoreTorque, ()) {
  const Nameplate motor{5000, 150, 10, 0.82, 0.88};
  const TorqueFromCurrent current(motor, no_load_current_share(motor.power_factor).nominal);
  const TorqueFromPower power(motor, 0.4);
  const double a = between(0, 15), b = a + between(0, 5);
  RC_ASSERT(current(a) <= current(b));
  RC_ASSERT(power(a * 500) <= power(b * 500));
}

}  // namespace
}  // namespace lobewise::demand
