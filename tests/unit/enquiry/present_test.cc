// What stands there as evidence: plates alone, plates against each other, a drive that runs.
#include "engine/enquiry/present.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::enquiry {
namespace {

constexpr double kRpm = 2 * kPi / 60;

Enquiry plates() {
  Enquiry enquiry;
  enquiry.supply = Supply{};
  enquiry.supply->motor_power = 11e3;
  enquiry.supply->motor_speed = 1460 * kRpm;
  enquiry.incumbent = Incumbent{};
  enquiry.incumbent->ratio = 29.4;
  return enquiry;
}

bool names(const Errors& errors, const std::string& path, const std::string& other) {
  return std::any_of(errors.begin(), errors.end(),
                     [&](const Error& e) { return e.path == path && e.message.find(other) != std::string::npos; });
}

TEST(Plates, BoundTheLoadAndNameTheMeasurement) {
  const auto r = require(plates());
  ASSERT_TRUE(r.ok()) << r.errors().front().message;
  // By hand: 11 kW at 1460/29.4 = 49.66 1/min through a train of 0.90 is 1904 N m.
  EXPECT_NEAR(r->speed, 1460 * kRpm / 29.4, 1e-12);
  EXPECT_NEAR(r->torque, 1904, 0.5);
  EXPECT_NEAR(r->demand.torque.low, 0.5 * 1904 * 0.75 / 0.9, 0.5);
  EXPECT_NEAR(r->demand.torque.high, 1904 * 0.96 / 0.9, 0.5);
  EXPECT_FALSE(r->demand.settled_by.empty());
  EXPECT_EQ(r->questions.front().path, "machine.measured.measured_power");
  ASSERT_FALSE(r->demand.working.empty());
  EXPECT_EQ(r->demand.working[0].symbol, "w_2");
  EXPECT_EQ(r->demand.working[1].symbol, "T_r");
  EXPECT_NEAR(r->demand.working[1].value, r->torque, 1e-9);
  for (const WorkingStep& step : r->demand.working)
    if (step.kind == StepKind::computed) {
      EXPECT_EQ(formula::fault_of(step), "") << step.symbol;
    }
}

TEST(Plates, AnyOfThemServeThatSayPowerAndSpeed) {
  Enquiry e = plates();
  e.supply.reset();
  e.incumbent->motor_power = 11e3;
  e.incumbent->input_speed = 1460 * kRpm;
  EXPECT_NEAR(require(e)->torque, 1904, 0.5);
  e = plates();
  e.incumbent->ratio.reset();
  e.incumbent->output_speed = 1460 * kRpm / 29.4;
  EXPECT_NEAR(require(e)->torque, 1904, 0.5);
  e = plates();
  e.supply->motor_speed.reset();
  e.supply->poles = 4;
  EXPECT_NEAR(require(e)->speed, 0.97 * 1500 * kRpm / 29.4, 1e-9);
  // The torque on a unit's plate where no power is said.
  Enquiry torque;
  torque.incumbent = Incumbent{};
  torque.incumbent->rated_torque = 1500;
  torque.incumbent->output_speed = 50 * kRpm;
  EXPECT_NEAR(require(torque)->torque, 1500, 1e-6);
}

TEST(Plates, WhatIsMissingIsNamed) {
  Enquiry e = plates();
  e.incumbent.reset();
  const auto no_ratio = require(e);
  ASSERT_FALSE(no_ratio.ok());
  EXPECT_TRUE(names(no_ratio.errors(), "machine", "incumbent.ratio"));
  e = plates();
  e.supply->motor_power.reset();
  const auto no_power = require(e);
  ASSERT_FALSE(no_power.ok());
  EXPECT_TRUE(names(no_power.errors(), "machine", "supply.motor_power"));
  EXPECT_TRUE(names(require(Enquiry{}).errors(), "machine", "exactly one machine"));
}

TEST(Plates, TheKindOfTheUnitSaysWhatArrives) {
  Enquiry e = plates();
  e.incumbent->kind = incumbent::UnitKind::worm;
  const double worm = require(e)->torque;
  e.incumbent->kind = incumbent::UnitKind::parallel_shaft;
  const double helical = require(e)->torque;
  EXPECT_LT(worm, 0.92 * helical);
  e.incumbent->efficiency = 0.8;
  EXPECT_NEAR(require(e)->torque, 11e3 * 0.8 / (1460 * kRpm / 29.4), 1e-6);
}

TEST(Plates, ALinkInFrontOfTheMachineDividesNothing) {
  Enquiry e = plates();
  e.connection = Connection{};
  e.connection->link = demand::Link::single_chain;
  e.connection->pitch_diameter = 0.2;
  e.connection->ratio = 2;
  const auto r = require(e);
  ASSERT_TRUE(r.ok());
  EXPECT_NEAR(r->torque, 1904, 0.5);
  EXPECT_GT(r->radial_force, 2 * 1904 / 0.2 * 0.99);
}

TEST(Measured, TheKindOfTheUnitSaysWhatArrives) {
  Enquiry e;
  demand::MeasuredDrive m;
  m.rated_power = 11e3;
  m.rated_speed = 1460 * kRpm;
  m.measured_power = 9e3;
  m.speed = 48 * kRpm;
  e.machine.measured = m;
  const double unknown = require(e)->torque;
  e.incumbent = Incumbent{};
  e.incumbent->ratio = 30;
  e.incumbent->kind = incumbent::UnitKind::worm;
  const auto worm = require(e);
  EXPECT_LT(worm->torque, 0.97 * unknown);
  // What arrives is what the unit's own model says at this torque.
  incumbent::UnitDuty duty;
  duty.output_torque = worm->torque;
  duty.output_speed = worm->speed;
  duty.input_speed = 1460 * kRpm;
  duty.service_time = worm->life;
  const auto unit = incumbent::gear_unit(unit_in_service(*e.incumbent), duty);
  ASSERT_TRUE(unit.ok());
  EXPECT_NEAR(worm->torque / unit->efficiency.nominal, unknown / 0.9, 2e-3 * worm->torque);
  m.train_efficiency = 0.9;  // stated rules
  e.machine.measured = m;
  EXPECT_NEAR(require(e)->torque, unknown, 1e-9);
}

TEST(Contradictions, BothFieldsAreNamed) {
  Enquiry e = plates();
  e.supply->frequency = 60;
  e.supply->poles = 6;
  EXPECT_TRUE(names(require(e).errors(), "supply.motor_speed", "supply.poles"));
  EXPECT_TRUE(names(require(e).errors(), "supply.motor_speed", "4 poles at 50 Hz"));
  e.supply->poles.reset();
  EXPECT_TRUE(names(require(e).errors(), "supply.motor_speed", "supply.frequency"));
  e = plates();
  e.incumbent->rated_power = 11e3;
  e.incumbent->rated_torque = 5;
  e.incumbent->output_speed = 20 * kRpm;
  EXPECT_TRUE(names(require(e).errors(), "incumbent.rated_torque", "incumbent.rated_power"));
  e = plates();
  e.incumbent->input_speed = 1460 * kRpm;
  e.incumbent->output_speed = 24 * kRpm;
  EXPECT_TRUE(names(require(e).errors(), "incumbent.ratio", "incumbent.output_speed"));
  e = plates();
  e.incumbent->age = 1e7;
  e.incumbent->running_time = 2e7;
  EXPECT_TRUE(names(require(e).errors(), "incumbent.running_time", "incumbent.age"));
  e = plates();
  e.incumbent->belt_ratio = 3;
  e.incumbent->ratio = 2;
  EXPECT_TRUE(names(require(e).errors(), "incumbent.belt_ratio", "incumbent.ratio"));
}

TEST(Contradictions, OfAMeasuredMotor) {
  const auto refused = [](auto change) {
    Enquiry e;
    demand::MeasuredDrive m;
    m.rated_power = 11e3;
    m.rated_speed = 1460 * kRpm;
    m.rated_current = 21.5;
    m.speed = 48 * kRpm;
    change(e, m);
    e.machine.measured = m;
    const auto r = require(e);
    return r.ok() ? Errors{} : r.errors();
  };
  using demand::MeasuredDrive;
  EXPECT_TRUE(names(refused([](Enquiry&, MeasuredDrive& m) { m.measured_current = 60; }),
                    "machine.measured.measured_current", "machine.measured.rated_current"));
  EXPECT_TRUE(names(refused([](Enquiry&, MeasuredDrive& m) { m.measured_power = 40e3; }),
                    "machine.measured.measured_power", "machine.measured.rated_power"));
  EXPECT_TRUE(names(refused([](Enquiry&, MeasuredDrive& m) { m.measured_torque = 50e3; }),
                    "machine.measured.measured_torque", "machine.measured.rated_power"));
  EXPECT_TRUE(names(refused([](Enquiry&, MeasuredDrive& m) { m.measured_torque = 5; }),
                    "machine.measured.measured_torque", "machine.measured.rated_power"));
  EXPECT_TRUE(names(refused([](Enquiry&, MeasuredDrive& m) { m.rated_current = 2; }), "machine.measured.rated_current",
                    "machine.measured.rated_power"));
  EXPECT_TRUE(names(refused([](Enquiry& e, MeasuredDrive&) {
                      e.supply = Supply{};
                      e.supply->voltage = 1000;
                    }),
                    "machine.measured.rated_current", "supply.voltage"));
  EXPECT_TRUE(refused([](Enquiry&, MeasuredDrive& m) { m.measured_current = 30; }).empty());
}

TEST(Contradictions, DoubtsAreQuestions) {
  Enquiry e = plates();
  e.incumbent->rated_power = 11e3;
  e.incumbent->rated_torque = 4000;  // 1.9 times what the power gives at 50 1/min
  e.incumbent->output_speed = 49.66 * kRpm;
  const auto r = require(e);
  ASSERT_TRUE(r.ok());
  EXPECT_TRUE(std::any_of(r->questions.begin(), r->questions.end(), [](const demand::Question& q) {
    return q.path == "incumbent.rated_torque" && q.text.find("incumbent.rated_power") != std::string::npos;
  }));
}

TEST(Supply, APlateOfSixtyHertzSaysTheMains) {
  Enquiry e = plates();
  e.supply->motor_speed = 1765 * kRpm;
  EXPECT_EQ(require(e)->frequency, 60);
  e.supply->motor_speed = 1460 * kRpm;
  EXPECT_EQ(require(e)->frequency, 50);
}

/// A conveyor whose friction nobody knows.
Enquiry conveyor() {
  Enquiry e;
  demand::BeltConveyor c;
  c.mass_flow = 120 / 3.6;
  c.speed = 1.3;
  c.length = 46;
  c.lift = 14;
  c.drum_diameter = 0.5;
  c.feed = demand::Feed::uneven;
  e.machine.belt_conveyor = c;
  e.incumbent = Incumbent{};
  e.incumbent->ratio = 30;
  return e;
}

TEST(RunsToday, BoundsWhatWasAssumedAndNothingThatWasSaid) {
  const auto free = require(conveyor());
  ASSERT_TRUE(free.ok());
  ASSERT_GT(free->demand.torque.high, free->demand.torque.value);
  const double speed = free->speed;
  Enquiry e = conveyor();
  // The best train gives 0.96: a motor whose relay trips a little above the assumed torque.
  e.incumbent->motor_power = 1.01 * free->torque * speed / (kRelayTrips * 0.96);
  e.incumbent->output_speed = speed;
  e.incumbent->ratio.reset();
  const auto bounded = require(e);
  EXPECT_NEAR(bounded->demand.torque.high, 1.01 * free->torque, 1e-6 * free->torque);
  EXPECT_EQ(bounded->torque, free->torque);
  EXPECT_TRUE(bounded->demand.settled_by.empty());
  // A smaller one lowers the torque itself, which is then a bound.
  e.incumbent->motor_power = 0.9 * free->torque * speed / (kRelayTrips * 0.96);
  const auto lowered = require(e);
  EXPECT_NEAR(lowered->torque, 0.9 * free->torque, 1e-6 * free->torque);
  EXPECT_FALSE(lowered->demand.settled_by.empty());
  const auto step = std::find_if(lowered->demand.working.begin(), lowered->demand.working.end(),
                                 [](const WorkingStep& s) { return s.symbol == "T_now"; });
  ASSERT_NE(step, lowered->demand.working.end());
  EXPECT_NEAR(step->value, lowered->torque, 1e-9);
  // One that could never carry it is asked about, and nothing is lowered.
  e.incumbent->motor_power = 0.5 * free->demand.torque.low * speed / (kRelayTrips * 0.96);
  const auto asked = require(e);
  EXPECT_EQ(asked->torque, free->torque);
  EXPECT_TRUE(std::any_of(asked->questions.begin(), asked->questions.end(), [](const demand::Question& q) {
    return q.path == "incumbent.runs_now" && q.text.find("incumbent.motor_power") != std::string::npos;
  }));
  // It does not run at this load, somebody says.
  e.incumbent->motor_power = 0.9 * free->torque * speed / (kRelayTrips * 0.96);
  e.incumbent->runs_now = false;
  EXPECT_EQ(require(e)->demand.torque.high, free->demand.torque.high);
}

}  // namespace
}  // namespace lobewise::enquiry
