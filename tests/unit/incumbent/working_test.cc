// The derivations of a geared unit give the figures that it is judged by, and every step can be read.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/formula/record.h"
#include "engine/incumbent/gear_unit.h"

namespace lobewise::incumbent {
namespace {

double at(const Working& working, const char* symbol) {
  const auto step = std::find_if(working.begin(), working.end(), [&](const auto& s) { return s.symbol == symbol; });
  if (step != working.end()) return step->value;
  ADD_FAILURE() << "no step " << symbol;
  return 0;
}

PairGeometry pair(bool internal, double helix) {
  GearPair p;
  p.pinion.teeth = 21;
  p.wheel.teeth = internal ? 84 : 53;
  p.internal = internal;
  p.module = 0.003;
  p.helix = helix;
  p.face_width = 0.04;
  return pair_geometry(p).value();
}

void expect_rated(const PairGeometry& g, const PairDuty& duty) {
  const Working w = rating_working(g, kCaseCarburised, duty);
  for (const WorkingStep& step : w) EXPECT_EQ(formula::fault_of(step), "") << step.symbol;
  const PairRating r = rate_pair(g, kCaseCarburised, duty);
  EXPECT_DOUBLE_EQ(at(w, "sigma_H"), r.contact_stress);
  EXPECT_DOUBLE_EQ(at(w, "S_H"), r.contact_safety);
  EXPECT_DOUBLE_EQ(at(w, "sigma_F"), r.bending_stress_pinion);
  EXPECT_DOUBLE_EQ(at(w, "sigma_F2"), r.bending_stress_wheel);
  EXPECT_DOUBLE_EQ(at(w, "S_F"), r.bending_safety);
  EXPECT_DOUBLE_EQ(at(w, "sigma_Lewis"), lewis_stress(at(w, "F_t"), at(w, "K_v"), g.pair.face_width, g.pair.module,
                                                      lewis_form_factor(at(w, "z_v"))));
}

TEST(RatingWorking, GivesTheFiguresOfTheRating) {
  const PairDuty duty = {300, 150, 20000 * 3600.0};
  expect_rated(pair(false, 0.26), duty);
  expect_rated(pair(false, 0), duty);
  PairDuty both_ways = duty;
  both_ways.pinion_reversed = both_ways.wheel_reversed = true;
  both_ways.load_factor = 1.3;
  both_ways.service_time = 60;  // few loads: the life factors stand above one
  expect_rated(pair(true, 0), both_ways);
}

TEST(UnitWorking, TorqueItWasMadeForAndRatioCountUp) {
  UnitDuty duty;
  duty.output_torque = 900;
  duty.output_speed = 4;
  duty.input_speed = 150;
  for (const UnitKind kind : {UnitKind::helical_in_line, UnitKind::bevel_helical, UnitKind::worm, UnitKind::planetary,
                              UnitKind::belt_and_gear}) {
    for (const int plate : {0, 1, 2}) {
      UnitInService stated;
      stated.kind = kind;
      if (plate == 1) stated.rated_torque = 1500;
      if (plate == 2) stated.rated_power = 6000;
      const Result<GearUnit> unit = gear_unit(stated, duty);
      ASSERT_TRUE(unit.ok()) << name(kind);
      const Working w = unit_working(*unit, duty);
      for (const WorkingStep& step : w) EXPECT_EQ(formula::fault_of(step), "") << name(kind) << ' ' << step.symbol;
      EXPECT_DOUBLE_EQ(at(w, "T_D"), unit->design_torque) << name(kind);
      EXPECT_NEAR(at(w, "i"), unit->ratio, 1e-12 * unit->ratio) << name(kind);
      EXPECT_NEAR(at(w, "P_V"), unit->loss_power, 1e-9 * unit->loss_power) << name(kind);
      EXPECT_NEAR(at(w, "eta"), unit->efficiency.nominal, 1e-12) << name(kind);
    }
  }
}

}  // namespace
}  // namespace lobewise::incumbent
