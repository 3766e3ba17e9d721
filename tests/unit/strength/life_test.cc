#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/line_life.h"
#include "engine/strength/system_life.h"

namespace lobewise::strength {
namespace {

mechanism::StageGeometry stage() {
  mechanism::StageGeometry g;
  g.lobes = 17;
  g.pitch_radius = 0.08;
  g.roller_radius = 0.007;
  g.eccentricity = 0.003;
  g.width = 0.014;
  g.pins = 10;
  g.pin_circle_radius = 0.05;
  g.pin_radius = 0.008;
  return g;
}

TEST(BasicLife, NoLoadNoEnd) {
  EXPECT_TRUE(std::isinf(basic_life(1000, 0)));
  EXPECT_TRUE(std::isinf(mixed_load_track_life(std::array{0.0}, std::array{1.0})));
  const BearingLife life = bearing_life({RollingElement::roller, {1000, 1000, 100}, 0.05}, 0, 10, {0.05, 0.5, 0.9});
  EXPECT_TRUE(std::isinf(life.basic_hours));
  EXPECT_TRUE(std::isinf(life.modified_hours));
}

TEST(EquivalentLoad, ConstantForceIsItself) {
  EXPECT_NEAR(equivalent_load(std::array{7.0, 7.0, 7.0}, std::array{1.0, 5.0, 0.5}), 7, 1e-12);
  EXPECT_EQ(equivalent_load(std::array{0.0, 0.0}), 0);
  // Weights as repetitions.
  EXPECT_NEAR(equivalent_load(std::array{1.0, 2.0}, std::array{2.0, 1.0}), equivalent_load(std::array{1.0, 1.0, 2.0}),
              1e-14);
}

TEST(RollerRating, FatigueLimitFallsAbove100mm) {
  RollerBearingGeometry bearing;
  bearing.rollers = 20;
  bearing.roller_diameter = 0.02;
  bearing.roller_length = 0.02;
  bearing.pitch_diameter = 0.2;
  const BearingRating rating = roller_rating(bearing);
  EXPECT_NEAR(rating.C_u, rating.C_0 / 8.2 * std::pow(0.5, 0.3), 1e-6 * rating.C_u);
}

TEST(RollerRating, FullComplementLeavesAGap) {
  const int count = full_complement_count(0.009, 0.05);
  EXPECT_EQ(count, 17);  // pi/asin(0.18) = 17.36
  // Rollers that fill the circle exactly leave no gap: one is taken out.
  EXPECT_EQ(full_complement_count(std::sin(kPi / 20), 1), 19);
}

TEST(LifeFactor, Limits) {
  EXPECT_EQ(*life_factor_roller(4, 2), 50);
  EXPECT_EQ(*life_factor_roller(9, 0.1), *life_factor_roller(4, 0.1));
  EXPECT_FALSE(life_factor_roller(0.05, 0.1).ok());
  EXPECT_EQ(life_factor(RollingElement::ball, 0.05, 0.1).value, kLifeFactorBound);
  EXPECT_NEAR(*life_factor_roller(1, 0), 0.1, 1e-15);
}

TEST(SystemLife, ClosedForms) {
  const std::array<SystemPart, 2> equal{{{1000, 1.5, 1}, {1000, 1.5, 3}}};
  EXPECT_NEAR(system_life(equal), 1000 * std::pow(4, -1 / 1.5), 1e-9);
  const std::array<SystemPart, 3> mixed{{{1000, 1.125, 2}, {3000, 1.5, 1}, {500, 10.0 / 9, 1}}};
  EXPECT_NEAR(system_reliability(system_life(mixed), mixed), 0.9, 1e-14);
  const std::array<SystemPart, 2> one_lasts{{{1000, 1.125, 1}, {std::numeric_limits<double>::infinity(), 1.125, 40}}};
  EXPECT_NEAR(system_life(one_lasts), 1000, 1e-9);
}

TEST(SystemLife, OnePartIsItsOwnReliabilityFactor) {
  // The distribution behind a_1: with one bearing alone the share of units is the share of bearings.
  const std::array<SystemPart, 1> one{{{1000, kWeibullModified, 1, kLeastLifeModified}}};
  for (const double share : {0.6, 0.9, 0.95, 0.99, 0.9995}) {
    EXPECT_NEAR(system_life(one, share), 1000 * reliability_factor(share), 1e-9);
    EXPECT_NEAR(system_reliability(1000 * reliability_factor(share), one), share, 1e-12);
  }
  EXPECT_EQ(system_reliability(50, one), 1);  // every one reaches 0.05 of it
  // ISO 281:2007 table of a_1 (from memory): 0.64, 0.55, 0.47, 0.37, 0.25 at 95 to 99 %.
  EXPECT_NEAR(life_share(0.95, kWeibullModified, kLeastLifeModified), 0.64, 0.005);
  EXPECT_NEAR(life_share(0.99, kWeibullModified, kLeastLifeModified), 0.25, 0.005);
}

TEST(SystemLife, OtherShares) {
  const std::array<SystemPart, 3> parts{
      {{1000, 1.125, 2, 0}, {3000, kWeibullModified, 1, kLeastLifeModified}, {500, 10.0 / 9, 1, 0}}};
  for (const double share : {0.3, 0.9, 0.99})
    EXPECT_NEAR(system_reliability(system_life(parts, share), parts), share, 1e-12);
}

// Flank length by the complete elliptic integral (mechanism) less 2 pi r.
TEST(LobeLife, FlankLength) {
  const contact::CycleForces cycle = contact::equal_stiffness_cycle(stage(), 300);
  const LobeLife life = lobe_life(stage(), cycle.flank);
  EXPECT_NEAR(life.profile_length, mechanism::profile_figures(stage()).trace_length - 2 * kPi * 0.007, 1e-12);
  EXPECT_NEAR(life.profile_length / (17 * 2 * kPi * 0.007), 0.69, 0.005);  // turns of a roller per input turn
}

// The cycle sums are the two track formulas with the weights of the arc length.
TEST(LobeLife, AgreesWithTrackFormulas) {
  const mechanism::StageGeometry g = stage();
  const contact::CycleForces cycle = contact::equal_stiffness_cycle(g, 300, 100);
  const LobeLife life = lobe_life(g, cycle.flank);
  const mechanism::Profile profile(g);
  // The track formulas take a plain mean, so walk the flank in equal arcs and look the force up.
  const std::size_t n = 20000;
  std::vector<double> loads, disc, roller;
  double t = 0;
  const double total = life.profile_length / 17, arc = total / n;
  for (std::size_t i = 0; i < n; ++i) {
    const double half = t + 0.5 * arc / mechanism::norm(profile.point_derivative(t));
    const double speed = mechanism::norm(profile.point_derivative(half));
    const double psi = half * 17;
    const auto j =
        static_cast<std::size_t>(psi / (2 * kPi) * static_cast<double>(cycle.flank.size())) % cycle.flank.size();
    LineTrack track{1 / 0.007 + profile.curvature(half), 0.014, life.profile_length, 18.0 / 17, kLineFactor.nominal};
    loads.push_back(cycle.flank[j]);
    disc.push_back(line_capacity(track));
    track.track_length = 2 * kPi * 0.007;
    track.passes_per_revolution = life.profile_length / (17 * 2 * kPi * 0.007);
    roller.push_back(line_capacity(track));
    t += arc / speed;
  }
  EXPECT_NEAR(life.disc, fixed_load_track_life(loads, disc), 1e-3 * life.disc);
  EXPECT_NEAR(life.roller_free, mixed_load_track_life(loads, roller), 1e-3 * life.roller_free);
}

// A roller held fast is loaded on the arc asin K only; mirrored loads give the same life.
TEST(LobeLife, FixedRollerIsSymmetric) {
  contact::CycleForces cycle = contact::equal_stiffness_cycle(stage(), 300);
  const double life = fixed_roller_life(stage(), cycle.flank);
  std::reverse(cycle.flank.begin(), cycle.flank.end());
  EXPECT_NEAR(fixed_roller_life(stage(), cycle.flank), life, 1e-9 * life);
  EXPECT_GT(life, 0);
  EXPECT_TRUE(std::isinf(fixed_roller_life(stage(), std::vector<double>(180, 0.0))));
}

// The same from the track formula: phases taken from the exact kinematics (angle of the force direction) instead of the
// inverse by arc sines, damage of both visits of a point added at equal places of the arc.
TEST(LobeLife, FixedRollerAgreesWithKinematics) {
  const mechanism::StageGeometry g = stage();
  const contact::CycleForces cycle = contact::equal_stiffness_cycle(g, 300, 200);
  const mechanism::Profile profile(g);
  const int places = 400;
  std::vector<double> loads(places), capacities(places, 1.0), first(places, -1.0), second(places, -1.0);
  const double arc = std::asin(g.shortening());
  // Walk the loaded half turn; note the damage (Q/Q_c)^4 at each place of the arc on the way out and on the way back.
  double last = 0;
  for (int i = 1; i < 400000; ++i) {
    const double psi = 2 * kPi - kPi * i / 400000;
    const mechanism::RollerMesh mesh = mechanism::roller_mesh(g, psi, 0);
    const double angle = std::abs(std::atan2(mesh.force_direction.y, -mesh.force_direction.x));
    const auto place = std::min(static_cast<std::size_t>(angle / arc * places), static_cast<std::size_t>(places - 1));
    const auto j = static_cast<std::size_t>(psi / (2 * kPi) * static_cast<double>(cycle.flank.size()));
    const double Q_c = line_capacity({1 / g.roller_radius + profile.curvature(psi / g.lobes), g.width,
                                      g.roller_radius * arc, 1, kLineFactor.nominal});
    const double damage = std::pow(cycle.flank[j] / Q_c, 4);
    (angle >= last ? first : second)[place] = damage;
    last = angle;
  }
  for (std::size_t i = 0; i < loads.size(); ++i)
    loads[i] = std::pow(std::max(first[i], 0.0) + std::max(second[i], 0.0), 0.25);
  const double expected = fixed_load_track_life(loads, capacities);
  EXPECT_NEAR(fixed_roller_life(g, cycle.flank), expected, 0.01 * expected);
}

// Sampled half sine against the closed form of the means.
TEST(OutputPinLife, SampledEqualsClosedForm) {
  const RigidPinLife exact = rigid_output_pin_life(stage(), 300);
  const PinLife sampled = output_pin_life(stage(), contact::equal_stiffness_cycle(stage(), 300, 100).pins);
  EXPECT_NEAR(sampled.hole, exact.life.hole, 1e-5 * sampled.hole);
  EXPECT_NEAR(sampled.sleeve, exact.life.sleeve, 1e-5 * sampled.sleeve);
}

}  // namespace
}  // namespace lobewise::strength
