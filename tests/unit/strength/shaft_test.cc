#include "engine/strength/shaft.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/strength/shaft_key.h"
#include "engine/strength/shaft_overhung.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::strength {
namespace {

TEST(Reactions, BalanceForceAndMoment) {
  const ShaftLoad load{0.09, 0.15, 6000, 1500, 0.04};
  const Reactions r = reactions(load);
  EXPECT_NEAR(r.at_A + r.at_B, 6000, 1e-9);
  EXPECT_NEAR(r.at_B * 0.09, 6000 * 0.15 + 1500 * 0.04, 1e-9);
  EXPECT_NEAR(r.moment_B, -r.at_A * 0.09, 1e-9) << "bending at B seen from A";
}

TEST(Reactions, ForceBetweenTheBearings) {
  const Reactions r = reactions({0.1, 0.05, 1000, 0, 0});
  EXPECT_NEAR(r.at_A, 500, 1e-12);
  EXPECT_EQ(r.moment_B, 0);
  EXPECT_NEAR(r.moment_max, 25, 1e-12);
}

TEST(Stress, HollowShaftsAreWeakerByTheFourthPower) {
  const NominalStress solid = nominal_stress(360, 600, 1000, 0.06, 0);
  const NominalStress hollow = nominal_stress(360, 600, 1000, 0.06, 0.03);
  EXPECT_NEAR(hollow.bending, solid.bending / (1 - 1.0 / 16), 1e-3);
  EXPECT_NEAR(hollow.shear, solid.shear / (1 - 1.0 / 16), 1e-3);
  EXPECT_NEAR(hollow.axial, solid.axial / (1 - 1.0 / 4), 1e-3);
  EXPECT_NEAR(von_mises({100, 0, 0}), 100, 1e-12);
  EXPECT_NEAR(von_mises({0, 100, 0}), 100 * std::sqrt(3.0), 1e-12);
}

TEST(Endurance, KnowsItsRange) {
  EXPECT_TRUE(endurance_limit(700e6, 0.06).ok());
  EXPECT_FALSE(endurance_limit(700e6, 0.3).ok());
  EXPECT_FALSE(endurance_limit(100e6, 0.03).ok());
  EXPECT_EQ(endurance_limit(700e6, 0.03, 0.93).errors()[0].path, "reliability");
  EXPECT_NEAR(*endurance_limit(700e6, 0.03, 0.99) / *endurance_limit(700e6, 0.03, 0.5), 0.814, 1e-12);
  // Above 1400 MPa the unnotched limit stays at 700 MPa.
  EXPECT_NEAR(*endurance_limit(1600e6, 0.03) / *endurance_limit(1800e6, 0.03), std::pow(1600.0 / 1800, -0.265), 1e-12);
}

TEST(Goodman, DiameterAndSafetyAreInverse) {
  const FatigueLoad load{400, 20, 60, 500};
  const double d = goodman_diameter(load, 1.7, 200e6, 700e6);
  EXPECT_NEAR(goodman_safety(load, d, 200e6, 700e6), 1.7, 1e-12);
}

/// Slopes and deflection by integrating the curvature M/(E I) along the shaft.
Bending integrated(const ShaftLoad& load, double stiffness) {
  constexpr int kParts = 100000;
  const Reactions r = reactions(load);
  const double end = std::max(load.position, load.span);
  const double h = end / kParts;
  const auto moment = [&](double x) {
    double m = r.at_A * x;
    if (x > load.span) m += r.at_B * (x - load.span);
    if (x > load.position) m -= load.radial_force * (x - load.position);
    return m;
  };
  double slope = 0, y = 0, y_B = 0, slope_B = 0, y_F = 0;
  for (int i = 0; i < kParts; ++i) {
    const double x = (i + 0.5) * h;
    const double before = slope;
    slope += moment(x) / stiffness * h;
    y += 0.5 * (before + slope) * h;
    if (std::abs((i + 1) * h - load.span) <= 0.5 * h) y_B = y, slope_B = slope;
    if (std::abs((i + 1) * h - load.position) <= 0.5 * h) y_F = y;
  }
  const double tilt = -y_B / load.span;  // turn so that both bearings stay put
  return {std::abs(tilt), std::abs(slope_B + tilt), std::abs(y_F + tilt * load.position)};
}

TEST(Slope, MeetsTheIntegratedBendingLine) {
  const double stiffness = kShaftModulus * kPi / 64 * std::pow(0.06, 4);
  for (const double position : {0.03, 0.06, 0.15, 0.24}) {
    const ShaftLoad load{0.09, position, 6000, 0, 0};
    const Bending closed = shaft_bending(load, 0.06, 0);
    const Bending sum = integrated(load, stiffness);
    EXPECT_NEAR(closed.slope_A, sum.slope_A, 1e-3 * closed.slope_A) << position;
    EXPECT_NEAR(closed.slope_B, sum.slope_B, 1e-3 * closed.slope_B) << position;
    EXPECT_NEAR(closed.deflection, sum.deflection, 1e-3 * closed.deflection) << position;
  }
}

TEST(Slope, ACoupleAtTheEndIsAForceFarOut) {
  // F -> 0 at a -> infinity with F a = M.
  const Bending far = shaft_bending({0.09, 0.09 + 1e4, 60 / 1e4, 0, 0}, 0.06, 0);
  const Bending couple = shaft_bending({0.09, 0.10, 0, 1500, 0.04}, 0.06, 0);
  EXPECT_NEAR(couple.slope_B, far.slope_B, 1e-9);
  EXPECT_NEAR(couple.slope_A, far.slope_A, 1e-9);
}

TEST(Bearing, EquivalentLoadSwitchesAtE) {
  EXPECT_EQ(bearing_equivalent(4000, 1480, 0.4, 1.6, 0.37), 4000);
  EXPECT_NEAR(bearing_equivalent(4000, 3000, 0.4, 1.6, 0.37), 6400, 1e-9);
}

TEST(Key, SquareEndsAndTwoKeys) {
  ParallelKey key{0.018, 0.011, 0.007, 0.09, true};
  const KeyStress one = parallel_key(key, 600, 0.06);
  EXPECT_NEAR(one.hub_pressure, 69444444.4, 1);
  EXPECT_NEAR(one.shaft_pressure, 39682539.7, 1);
  EXPECT_NEAR(parallel_key(key, 600, 0.06, 2).shear, one.shear / 1.5, 1e-6);
  key.round_ends = false;
  EXPECT_NEAR(parallel_key(key, 600, 0.06).shear, one.shear * 72 / 90, 1e-6);
}

TEST(Pins, GuidingHalvesTheMomentAndQuartersTheDeflection) {
  const PinBending free_end = pin_bending(2400, 0.01, 0.022, PinSupport::cantilever);
  const PinBending guided = pin_bending(2400, 0.01, 0.022, PinSupport::guided);
  EXPECT_NEAR(guided.moment, 26.4, 1e-12);
  EXPECT_NEAR(free_end.stress, 2 * guided.stress, 1e-3);
  EXPECT_NEAR(free_end.deflection, 4 * guided.deflection, 1e-15);
  EXPECT_NEAR(pin_two_discs(300, 10, 0.05, 0.012, 0.026, 0.010).moment, 62.4, 1e-12) << "the farther lever, whichever";
}

OverhungShaft shaft() {
  OverhungShaft s;
  s.span = 0.09;
  s.C_A = 60e3;
  s.C_B = 90e3;
  s.C0_A = 50e3;
  s.C0_B = 100e3;
  s.hours = 20000;
  s.speed = 9;
  s.diameter_B = 0.06;
  s.S_ut = 700e6;
  s.S_e = 198e6;
  s.torque_mean = 600;
  s.axial_force = 1000;
  s.axial_radius = 0.05;
  return s;
}

TEST(Overhung, TheRulingLimitIsMetExactly) {
  const OverhungShaft s = shaft();
  const double share = std::pow(s.speed / (2 * kPi) * 3600 * s.hours / 1e6, -0.3);
  for (const double x : {0.005, 0.03, 0.045, 0.08, 0.09, 0.1, 0.12, 0.15, 0.24, 0.5}) {
    const AllowableForce allowed = allowable_overhung(s, x);
    const Reactions r = reactions({s.span, x, allowed.force, s.axial_force, s.axial_radius});
    const double use_B = std::max(r.at_B / (s.C_B * share), r.at_B * s.static_safety / s.C0_B);
    const double use_A = std::max(std::abs(r.at_A) / (s.C_A * share), std::abs(r.at_A) * s.static_safety / s.C0_A);
    const double safety = goodman_safety({r.moment_B, 0, 0, s.torque_mean}, s.diameter_B, s.S_e, s.S_ut);
    const double use_shaft = x >= s.span ? s.safety / safety : 0;
    EXPECT_LE(std::max({use_A, use_B, use_shaft}), 1 + 1e-9) << x;
    const bool at_A = allowed.limit == OverhungLimit::life_A || allowed.limit == OverhungLimit::static_A;
    const bool at_shaft = allowed.limit == OverhungLimit::shaft_B;
    const double ruling = at_shaft ? use_shaft : at_A ? use_A : use_B;
    EXPECT_NEAR(ruling, 1, 1e-9) << x;
  }
}

TEST(Overhung, StaticRatingRulesSlowShaftsAndTorqueCanUseTheShaftUp) {
  OverhungShaft s = shaft();
  s.speed = 0.01;
  EXPECT_EQ(allowable_overhung(s, 0.1).limit, OverhungLimit::static_B);
  s = shaft();
  s.torque_mean = 20000;
  EXPECT_EQ(allowable_overhung(s, 0.15).force, 0);
  EXPECT_EQ(allowable_overhung(s, 0.15).limit, OverhungLimit::shaft_B);
  s = shaft();
  EXPECT_EQ(allowable_overhung(s, 0.01).limit, OverhungLimit::life_A);
  EXPECT_GT(allowable_overhung(s, 0.1).force, allowable_overhung(s, 0.15).force);
  EXPECT_GT(allowable_overhung(s, 0.15).force, allowable_overhung(s, 0.2).force);
}

}  // namespace
}  // namespace lobewise::strength
