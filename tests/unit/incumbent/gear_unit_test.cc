// The unit in service: it reaches what it is designed for, and it wins where it should win.
#include "engine/incumbent/gear_unit.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/formula/record.h"
#include "engine/incumbent/compare.h"
#include "engine/incumbent/fit.h"
#include "engine/incumbent/stage_design.h"
#include "engine/incumbent/unit_estimates.h"
#include "engine/incumbent/unit_heat.h"

namespace lobewise::incumbent {
namespace {

UnitDuty duty(double torque, double ratio) {
  UnitDuty d;
  d.output_torque = torque;
  d.input_speed = 152;
  d.output_speed = 152 / ratio;
  return d;
}

GearUnit build(UnitKind kind, double torque, double ratio) {
  UnitInService unit;
  unit.kind = kind;
  Result<GearUnit> result = gear_unit(unit, duty(torque, ratio));
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.errors().front().message);
  return result.value();
}

constexpr UnitKind kAll[] = {UnitKind::helical_in_line, UnitKind::parallel_shaft,
                             UnitKind::bevel_helical,   UnitKind::worm,
                             UnitKind::planetary,       UnitKind::belt_and_gear};

TEST(GearUnit, EveryKindIsDesignedAcrossItsRange) {
  for (const UnitKind kind : kAll) {
    for (const double torque : {50.0, 600.0, 6000.0}) {
      for (const double ratio : {6.0, 25.0, 60.0}) {
        const GearUnit unit = build(kind, torque, ratio);
        EXPECT_NEAR(unit.ratio / ratio, 1, 0.06) << name(kind);
        EXPECT_GT(unit.efficiency.nominal, 0.6) << name(kind);
        EXPECT_LT(unit.efficiency.nominal, 1) << name(kind);
        EXPECT_LE(unit.efficiency.low, unit.efficiency.nominal);
        EXPECT_LE(unit.efficiency.nominal, unit.efficiency.high);
        EXPECT_GT(unit.mass.nominal, 0);
      }
    }
  }
}

TEST(GearUnit, DesignedPairsReachTheirSafetyAtTheDesignTorque) {
  UnitDuty d = duty(1000, 20);
  d.service_factor = 1;  // working torque is the design torque
  UnitInService unit;
  unit.kind = UnitKind::parallel_shaft;
  const GearUnit g = gear_unit(unit, d).value();
  for (const UnitStage& stage : g.stages) {
    EXPECT_GE(stage.rating->contact_safety, kDesignContactSafety * 0.999);
    EXPECT_GE(stage.rating->bending_safety, kDesignBendingSafety * 0.999);
    EXPECT_LT(stage.rating->contact_safety, 1.25);  // and is not far too large
  }
}

TEST(GearUnit, InLineStagesShareTheCentreDistance) {
  const GearUnit g = build(UnitKind::helical_in_line, 1000, 20);
  ASSERT_EQ(g.stages.size(), 2U);
  EXPECT_NEAR(g.stages[0].pair->centre_distance, g.stages[1].pair->centre_distance, 1e-9);
}

TEST(GearUnit, WhatIsStatedWins) {
  UnitInService unit;
  unit.kind = UnitKind::parallel_shaft;
  unit.mass = 123;
  unit.rated_torque = 3000;
  unit.oil_viscosity = 1e-4;
  unit.through_hardened = true;
  const GearUnit g = gear_unit(unit, duty(1000, 20)).value();
  EXPECT_DOUBLE_EQ(g.mass.nominal, 123);
  EXPECT_DOUBLE_EQ(g.design_torque, 3000);
  EXPECT_STREQ(g.material.name, kThroughHardened.name);
  EXPECT_TRUE(g.assumptions.empty());
}

TEST(GearUnit, EfficiencyFallsAtPartLoadAndLossesAddUp) {
  const GearUnit g = build(UnitKind::bevel_helical, 1000, 40);
  EXPECT_NEAR(efficiency_at(g, 1), g.efficiency.nominal, 1e-12);
  EXPECT_LT(efficiency_at(g, 0.25), efficiency_at(g, 1));
  EXPECT_DOUBLE_EQ(efficiency_at(g, 0), 0);
  EXPECT_NEAR(loss_power_at(g, 1), g.loss_power, 1e-9 * g.loss_power);
  EXPECT_GT(loss_power_at(g, 0), 0);
}

TEST(GearUnit, BeltHeatStaysOutOfTheOil) {
  // The same gears behind a belt lose more power but do not run hotter for it.
  UnitInService belt;
  belt.kind = UnitKind::belt_and_gear;
  belt.belt_ratio = 2;
  belt.belt_pulley = 0.2;
  UnitDuty d = duty(1000, 40);
  const GearUnit with = gear_unit(belt, d).value();
  UnitInService gears;
  gears.kind = UnitKind::helical_in_line;
  gears.ratio = 20;
  d.input_speed /= 2;
  const GearUnit without = gear_unit(gears, d).value();
  EXPECT_LT(with.efficiency.nominal, without.efficiency.nominal);
  EXPECT_NEAR(with.oil_temperature.nominal - without.oil_temperature.nominal, 0, 5);
  ASSERT_TRUE(with.belt_pull.has_value());
  EXPECT_NEAR(*with.belt_pull, 1.5 * 2 * with.stages[1].input_torque / 0.2, 1e-9);
}

TEST(GearUnit, ABeltMayStandInFrontOfAnyKind) {
  UnitInService worm;
  worm.kind = UnitKind::worm;
  const GearUnit plain = gear_unit(worm, duty(800, 60)).value();
  worm.belt_ratio = 2;
  worm.belt_pulley = 0.25;
  const GearUnit belted = gear_unit(worm, duty(800, 60)).value();
  EXPECT_TRUE(belted.belt_in_front());
  EXPECT_EQ(belted.stages.size(), plain.stages.size() + 1);
  EXPECT_TRUE(belted.belt_pull.has_value());
}

TEST(GearUnit, TheSameAirAndTheDutyDecideItsTemperature) {
  UnitInService unit;
  unit.kind = UnitKind::parallel_shaft;
  UnitDuty d = duty(1000, 20);
  const double hot = gear_unit(unit, d)->oil_temperature.nominal;
  UnitDuty windy = d;
  windy.around.air_speed = 6;
  EXPECT_LT(gear_unit(unit, windy)->oil_temperature.nominal, hot - 3);
  UnitDuty high = d;
  high.around.altitude = 3000;
  EXPECT_GT(gear_unit(unit, high)->oil_temperature.nominal, hot);
  UnitDuty sunny = d;
  sunny.around.sun = true;
  EXPECT_GT(gear_unit(unit, sunny)->oil_temperature.nominal, hot + 3);
  UnitDuty half = d;
  half.parts = {{0.5, 1000, d.output_speed}, {0.5, 300, d.output_speed}};
  const GearUnit eased = gear_unit(unit, half).value();
  EXPECT_LT(eased.oil_temperature.nominal, hot);
  EXPECT_NEAR(eased.efficiency.nominal, gear_unit(unit, d)->efficiency.nominal, 1e-12);  // that of full load
  UnitDuty rests = d;
  rests.running_share = 0.5;
  EXPECT_LT(gear_unit(unit, rests)->oil_temperature.nominal, hot);
  UnitDuty same = d;
  same.parts = {{0.4, 1000, d.output_speed}, {0.6, 1000, d.output_speed}};
  EXPECT_NEAR(gear_unit(unit, same)->oil_temperature.nominal, hot, 1e-9);
}

TEST(GearUnit, DamageOfTheDutyAddsUp) {
  UnitInService unit;
  unit.kind = UnitKind::parallel_shaft;
  unit.rated_torque = 1000;
  unit.through_hardened = true;
  UnitDuty d = duty(1600, 20);  // overloaded, so that the life ends
  const double always = *gear_unit(unit, d)->life;
  ASSERT_TRUE(std::isfinite(always));
  d.parts = {{0.5, 1600, d.output_speed}, {0.5, 0, d.output_speed}};
  EXPECT_NEAR(*gear_unit(unit, d)->life, 2 * always, 1e-6 * always);
}

TEST(GearUnit, ACycloidalUnitHasLossesHeatAndSizeOnly) {
  const GearUnit unit = build(UnitKind::cycloidal, 1200, 29);
  EXPECT_FALSE(unit.geared());
  EXPECT_DOUBLE_EQ(unit.ratio, 29);
  EXPECT_GT(unit.efficiency.nominal, 0.9);
  EXPECT_LT(unit.efficiency.low, unit.efficiency.nominal);
  EXPECT_GT(unit.oil_temperature.nominal, 293);
  EXPECT_FALSE(unit.life.has_value());
  EXPECT_LT(build(UnitKind::cycloidal, 1200, 900).efficiency.nominal, unit.efficiency.nominal);  // two stages
  for (const Axis& axis : compare(unit, {}, {}))
    if (axis.id.find("contact") != std::string::npos || axis.id == "pairs" || axis.id == "life") {
      EXPECT_FALSE(axis.incumbent.has_value()) << axis.id;
    }
  for (const Trouble trouble : {Trouble::pitting, Trouble::tooth_breakage, Trouble::bearing_failure})
    EXPECT_FALSE(read_trouble(trouble, unit, duty(1200, 29)).explained.has_value());
}

TEST(GearUnit, APlateThatCannotBelongIsNamed) {
  UnitInService unit;
  unit.kind = UnitKind::worm;
  unit.rated_torque = 5;
  const Result<GearUnit> small = gear_unit(unit, duty(2000, 30));
  ASSERT_FALSE(small.ok());
  EXPECT_EQ(small.errors().front().path, "rated_torque");
  EXPECT_NE(small.errors().front().message.find("2000 N·m"), std::string::npos) << small.errors().front().message;
}

// Drag goes with the square of the speed, what follows the load with T w; over a duty both are averaged with its rests,
// and the heat of a belt stays outside.
TEST(GearUnit, LossesFollowTorqueAndSpeed) {
  UnitDuty d = duty(800, 20);
  GearUnit unit = build(UnitKind::parallel_shaft, 800, 20);
  const double full = unit.loss_power, idle = loss_at(unit, 0, d.output_speed, d), load = full - idle;
  EXPECT_GT(idle, 0);
  EXPECT_NEAR(loss_at(unit, 800, d.output_speed, d), full, 1e-9 * full);
  EXPECT_NEAR(loss_at(unit, 0, d.output_speed / 2, d), idle / 4, 1e-9 * full);
  EXPECT_NEAR(loss_at(unit, 400, d.output_speed / 2, d), idle / 4 + load / 4, 1e-9 * full);
  d.parts = {{0.25, 800, d.output_speed}, {0.75, 400, d.output_speed / 2}};
  d.running_share = 0.6;
  EXPECT_NEAR(mean_oil_loss(unit, d), 0.6 * (0.25 * full + 0.75 * (idle / 4 + load / 4)), 1e-9 * full);
  d = duty(800, 20);
  unit = build(UnitKind::belt_and_gear, 800, 20);
  EXPECT_NEAR(mean_oil_loss(unit, d), unit.loss_power - unit.losses.belt * (unit.output_power + unit.loss_power),
              1e-9 * full);
}

// i = 1 + z_ring / z_sun: seen from the carrier the sun rolls with 1 - 1/i of its speed, and so with that share of the
// power.
TEST(GearUnit, OnlyTheRollingPowerOfAPlanetaryStageLoses) {
  for (const double ratio : {4.0, 8.0}) {
    const UnitDuty d = duty(600, ratio);
    const GearUnit unit = build(UnitKind::planetary, 600, ratio);
    const UnitStage& stage = unit.stages.front();
    const PairDuty sun = sun_duty(*stage.planetary, stage.input_torque, stage.input_speed, d.service_time);
    const PairDuty ring = ring_duty(*stage.planetary, stage.input_torque, stage.input_speed, d.service_time);
    const double carrier_held = tooth_loss_share(stage.planetary->sun_planet, stage.rating->forces.tangential,
                                                 sun.pinion_speed, kUsualViscosity.nominal) +
                                tooth_loss_share(stage.planetary->planet_ring, stage.ring_rating->forces.tangential,
                                                 ring.pinion_speed, kUsualViscosity.nominal);
    EXPECT_NEAR(stage.tooth_loss / carrier_held, 1 - 1 / stage.ratio, 1e-9);
  }
}

TEST(GearUnit, ItsWorkingClosesByHand) {
  const UnitDuty d = duty(1000, 20);
  for (const UnitKind kind : {UnitKind::parallel_shaft, UnitKind::worm, UnitKind::cycloidal}) {
    const GearUnit unit = build(kind, 1000, 20);
    double oil = 0, loss = 0;
    for (const WorkingStep& step : unit_working(unit, d)) {
      EXPECT_EQ(formula::fault_of(step), "") << step.symbol;
      if (step.symbol == "T_oil") oil = step.value;
      if (step.symbol == "P_V") loss = step.value;
    }
    EXPECT_NEAR(oil, unit.oil_temperature.nominal, 1e-6) << name(kind);
    EXPECT_NEAR(loss, unit.loss_power, 1e-9 * loss) << name(kind);
  }
}

TEST(GearUnit, ErrorsNameTheFieldAllAtOnce) {
  UnitInService unit;
  unit.stages = 7;
  unit.mass = -1;
  UnitDuty d = duty(1000, 20);
  d.service_factor = 9;
  const Result<GearUnit> result = gear_unit(unit, d);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors().size(), 3U);
  unit = {};
  unit.kind = UnitKind::worm;
  EXPECT_FALSE(gear_unit(unit, duty(1000, 2)).ok());
}

// What a screen shows of a worm stage, it can open: the figures of its rating stand in the unit's working.
TEST(GearUnit, AWormsFiguresCanBeOpened) {
  const GearUnit unit = build(UnitKind::worm, 500, 20);
  const auto stage =
      std::find_if(unit.stages.begin(), unit.stages.end(), [](const UnitStage& s) { return s.worm.has_value(); });
  ASSERT_NE(stage, unit.stages.end());
  std::map<std::string, double> steps;
  for (const WorkingStep& step : unit_working(unit, duty(500, 20))) steps[step.symbol] = step.value;
  EXPECT_DOUBLE_EQ(steps.at("sigma_H"), stage->worm_rating->contact_stress);
  EXPECT_DOUBLE_EQ(steps.at("T_2a"), stage->worm_rating->allowable_torque);
}

Axis axis(const std::vector<Axis>& axes, const std::string& id) {
  for (const Axis& a : axes) {
    if (a.id == id) {
      return a;
    }
  }
  ADD_FAILURE() << "no axis " << id;
  return {};
}

// Cases the geared unit wins; the tool must say so.
TEST(Compare, HelicalWinsEfficiencyAtLowRatioAndPrice) {
  const GearUnit unit = build(UnitKind::parallel_shaft, 500, 6);
  CandidateFigures candidate;
  candidate.efficiency = Figure{0.90, 0.85, 0.93};
  candidate.price = exactly(3200);
  candidate.delivery_time = exactly(8 * 7 * 86400.0);
  OfferFigures offer;
  offer.price = exactly(1900);
  offer.delivery_time = exactly(2 * 7 * 86400.0);
  const std::vector<Axis> axes = compare(unit, offer, candidate);
  EXPECT_EQ(axis(axes, "efficiency").better, Better::incumbent);
  EXPECT_EQ(axis(axes, "price").better, Better::incumbent);
  EXPECT_EQ(axis(axes, "delivery").better, Better::incumbent);
  EXPECT_EQ(axis(axes, "mass").better, Better::unknown);
}

TEST(Compare, HelicalContactStressAtEqualSizeIsNoHigher) {
  // A cycloidal stage of 160 mm diameter at 600 N m shows about 1070 MPa between lobe and roller (system reference,
  // 5 um clearances). A helical unit scaled to that volume is not stressed higher.
  const GearUnit unit = build(UnitKind::helical_in_line, 600, 17);
  CandidateFigures candidate;
  candidate.contact_stress = exactly(1067e6);
  candidate.volume = exactly(0.23 * 0.23 * 0.22);
  const Axis a = axis(compare(unit, {}, candidate), "contact_at_equal_size");
  EXPECT_NE(a.better, Better::candidate);
}

TEST(Compare, CandidateWinsWhereItShould) {
  const GearUnit worm = build(UnitKind::worm, 500, 60);
  CandidateFigures candidate;
  candidate.efficiency = Figure{0.90, 0.85, 0.93};
  candidate.peak_ratio = exactly(5);
  EXPECT_EQ(axis(compare(worm, {}, candidate), "efficiency").better, Better::candidate);
  EXPECT_EQ(axis(compare(worm, {}, candidate), "peak").better, Better::unknown);
}

TEST(Compare, OverlappingRangesAreEven) {
  const GearUnit unit = build(UnitKind::parallel_shaft, 500, 20);
  CandidateFigures candidate;
  candidate.efficiency = Figure{0.93, 0.88, 0.97};
  EXPECT_EQ(axis(compare(unit, {}, candidate), "efficiency").better, Better::even);
}

// Better is who stays below the other's likely figure with the whole of its own range, below the whole of the other's
// range with its likely one, and by more than 3 %. Either side, and the same turned round where more is better.
TEST(Compare, EveryEndOfBothRangesCounts) {
  const GearUnit unit = build(UnitKind::parallel_shaft, 500, 20);
  const auto price = [&](const Figure& candidate, const Figure& quoted) {
    CandidateFigures c;
    c.price = candidate;
    OfferFigures offer;
    offer.price = quoted;
    return axis(compare(unit, offer, c), "price").better;
  };
  const struct {
    Figure less, more;
    bool clear;
  } kPairs[] = {
      {{100, 90, 110}, {120, 115, 130}, true},   // clear of each other
      {{100, 90, 125}, {120, 115, 130}, false},  // its dear end beyond what the other is likely to cost
      {{100, 90, 110}, {120, 95, 130}, false},   // the other's cheap end below what it is likely to cost
      {{100, 90, 118}, {120, 101, 130}, true},   // the ranges overlap, neither reaches the other's likely figure
      {exactly(100), exactly(102), false},      {exactly(100), exactly(104), true}};
  for (const auto& pair : kPairs) {
    EXPECT_EQ(price(pair.less, pair.more), pair.clear ? Better::candidate : Better::even) << pair.less.high;
    EXPECT_EQ(price(pair.more, pair.less), pair.clear ? Better::incumbent : Better::even) << pair.less.high;
    GearUnit rated = unit;
    CandidateFigures c;
    c.efficiency = Figure{pair.more.nominal / 200, pair.more.low / 200, pair.more.high / 200};
    rated.efficiency = {pair.less.nominal / 200, pair.less.low / 200, pair.less.high / 200, ""};
    EXPECT_EQ(axis(compare(rated, {}, c), "efficiency").better, pair.clear ? Better::candidate : Better::even);
  }
}

TEST(Compare, AWormThatHeldTheLoadIsSaidAloud) {
  const GearUnit holding = build(UnitKind::worm, 300, 60);
  EXPECT_LE(*holding.reverse_efficiency_at_rest, 0);
  EXPECT_NE(replacement_cautions(holding).front().find("runs back"), std::string::npos);
  const GearUnit steep = build(UnitKind::worm, 300, 5);
  EXPECT_GT(*steep.reverse_efficiency_at_rest, 0);
  EXPECT_TRUE(replacement_cautions(steep).empty());
}

TEST(Trouble, OnlyWhatTheFiguresSay) {
  UnitDuty d = duty(1000, 20);
  d.peak_ratio = 6;
  UnitInService service;
  service.kind = UnitKind::parallel_shaft;
  const GearUnit unit = gear_unit(service, d).value();
  EXPECT_EQ(read_trouble(Trouble::tooth_breakage, unit, d).explained, true);
  d.peak_ratio = 2;
  EXPECT_EQ(read_trouble(Trouble::tooth_breakage, unit, d).explained, false);
  EXPECT_FALSE(read_trouble(Trouble::noise, unit, d).explained.has_value());
  EXPECT_EQ(read_trouble(Trouble::pitting, unit, d).explained, false);
}

TEST(Fit, LowerShaftAsksForAPlateAndHigherOneDoesNotFit) {
  Dimensions before;
  before.shaft_height = 0.180;
  before.shaft_diameter = 0.060;
  Dimensions after = before;
  EXPECT_EQ(fit(before, after, {}).verdict, FitVerdict::fits);
  after.shaft_height = 0.160;
  const Fit lower = fit(before, after, {});
  EXPECT_EQ(lower.verdict, FitVerdict::adapter);
  EXPECT_NE(lower.lines[0].work.find("Raise"), std::string::npos);
  after.shaft_height = 0.200;
  EXPECT_EQ(fit(before, after, {}).verdict, FitVerdict::does_not_fit);
}

TEST(Fit, BoltsOfTheFeetFollowTheirHoles) {
  Dimensions before;
  before.shaft_height = 0.180;
  before.foot_hole = 0.018;
  Dimensions after = before;
  EXPECT_EQ(fit(before, after, {}).verdict, FitVerdict::fits);
  const auto work = [&] {
    const Fit found = fit(before, after, {});
    EXPECT_EQ(found.verdict, FitVerdict::adapter);
    for (const FitLine& line : found.lines)
      if (line.field == "foot_hole") return line.work;
    return std::string();
  };
  after.foot_hole = 0.022;
  EXPECT_NE(work().find("thinner"), std::string::npos);
  after.foot_hole = 0.014;
  EXPECT_NE(work().find("do not pass"), std::string::npos);
  before.foot_hole.reset();
  EXPECT_EQ(fit(before, after, {}).verdict, FitVerdict::fits) << "nobody is asked for the holes alone";
}

TEST(Fit, MissingDimensionsAreNotCalledFitting) {
  Dimensions before;
  before.shaft_height = 0.180;
  Dimensions after = before;
  after.shaft_diameter = 0.060;  // nobody measured the old one
  EXPECT_EQ(fit(before, after, {}).verdict, FitVerdict::unknown);
}

TEST(Fit, RoomDecidesOverTheOldEnvelope) {
  Dimensions before;
  before.length = 0.5;
  Dimensions after;
  after.length = 0.6;
  Room room;
  EXPECT_EQ(fit(before, after, room).verdict, FitVerdict::unknown);  // longer than before, room unknown
  room.length = 0.65;
  EXPECT_EQ(fit(before, after, room).verdict, FitVerdict::fits);
  room.length = 0.55;
  EXPECT_EQ(fit(before, after, room).verdict, FitVerdict::does_not_fit);
}

}  // namespace
}  // namespace lobewise::incumbent
