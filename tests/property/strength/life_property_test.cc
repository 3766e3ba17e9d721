#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>
#include <cmath>
#include <vector>

#include "engine/contact/cycle_forces.h"
#include "engine/contact/lubricant.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/line_life.h"
#include "engine/strength/system_life.h"

namespace lobewise::strength {
namespace {

double between(double a, double b) {
  const int share = *rc::gen::inRange(0, 1000001);
  return a * std::pow(b / a, share / 1e6);
}

TEST(LifeProperties, MoreLoadNeverLengthensLife) {
  EXPECT_TRUE(rc::check([] {
    const double C = between(1e3, 1e6);
    const RollingBearing bearing{*rc::gen::element(RollingElement::roller, RollingElement::ball),
                                 {C, between(0.5, 2) * C, between(0.02, 0.2) * C},
                                 between(0.02, 0.5)};
    const LifeConditions conditions{between(0.02, 10), between(0.05, 1), 0.9};
    const double P = between(1, 1e6), speed = between(0.1, 500), more = between(1, 10);
    const BearingLife a = bearing_life(bearing, P, speed, conditions);
    const BearingLife b = bearing_life(bearing, P * more, speed, conditions);
    RC_ASSERT(b.basic_hours <= a.basic_hours);
    RC_ASSERT(b.modified_hours <= a.modified_hours * (1 + 1e-12));
  }));
}

TEST(LifeProperties, BetterOilAndCleanerNeverShorten) {
  EXPECT_TRUE(rc::check([] {
    const double kappa = between(0.1, 10), ratio = between(1e-3, 5), more = between(1, 10);
    RC_ASSERT(*life_factor_roller(kappa * more, ratio) >= *life_factor_roller(kappa, ratio) * (1 - 1e-4));
    const auto ball = [&](double k) { return life_factor(RollingElement::ball, k, ratio).value; };
    RC_ASSERT(ball(kappa * more) >= ball(kappa) * (1 - 2e-2));
    // The brackets' branches meet only within their printed digits.
    if (kappa > 0.11) RC_ASSERT(*life_factor_roller(kappa, ratio * more) >= *life_factor_roller(kappa, ratio));
  }));
}

TEST(LifeProperties, ReliabilityCostsLife) {
  EXPECT_TRUE(rc::check([] {
    const double miss = between(1e-4, 0.5), smaller = miss * between(0.01, 1);
    RC_ASSERT(reliability_factor(1 - smaller) <= reliability_factor(1 - miss));
  }));
}

TEST(LifeProperties, HotterOilIsThinner) {
  EXPECT_TRUE(rc::check([] {
    const double nu_40 = between(5e-6, 3e-3), nu_100 = 2e-6 * std::pow(nu_40 / 2e-6, between(0.2, 0.8));
    const double cold = between(250, 440), hot = cold + between(0.1, 30);
    const contact::ViscosityCurve curve = contact::viscosity_curve(nu_40, nu_100);
    RC_ASSERT(contact::kinematic_viscosity(curve, hot) < contact::kinematic_viscosity(curve, cold));
  }));
}

TEST(LifeProperties, IndexAndViscosityInvertEachOther) {
  EXPECT_TRUE(rc::check([] {
    const double nu_40 = between(10e-6, 2e-3), index = between(60, 250);
    const Result<double> nu_100 = contact::nu_100_from_index(nu_40, index);
    if (!nu_100) return;  // thin oil of a low index lies below 2 mm2/s
    // The quadratics of neighbouring ranges meet within 0.2 %, which is up to two units of index.
    RC_ASSERT(std::abs(contact::viscosity_index(nu_40, *nu_100) - index) < 2);
  }));
}

TEST(LifeProperties, ASystemIsNeverBetterThanItsParts) {
  EXPECT_TRUE(rc::check([] {
    const std::array<SystemPart, 3> parts{{{between(10, 1e6), between(0.8, 3), between(1, 20)},
                                           {between(10, 1e6), between(0.8, 3), between(1, 20)},
                                           {between(10, 1e6), between(0.8, 3), between(1, 20)}}};
    const double life = system_life(parts);
    for (const SystemPart& part : parts) RC_ASSERT(life <= part.L10);
    RC_ASSERT(std::abs(system_reliability(life, parts) - 0.9) < 1e-12);
  }));
}

// Twice the torque shortens by 2^4 whatever the kind of track.
TEST(LifeProperties, LobeLifeFallsWithTheFourthPowerOfTorque) {
  EXPECT_TRUE(rc::check([] {
    mechanism::StageGeometry stage;
    stage.lobes = *rc::gen::inRange(6, 80);
    stage.pitch_radius = between(0.03, 0.3);
    stage.eccentricity = stage.pitch_radius / (stage.lobes + 1) * between(0.4, 0.8);
    stage.roller_radius = 0.6 * mechanism::roller_radius_limit(stage);
    stage.width = 0.02;
    const double torque = between(1, 1e5);
    const std::vector<double> flank = contact::equal_stiffness_cycle(stage, torque, 4).flank;
    const std::vector<double> twice = contact::equal_stiffness_cycle(stage, 2 * torque, 4).flank;
    const LobeLife one = lobe_life(stage, flank), two = lobe_life(stage, twice);
    for (const double ratio : {one.disc / two.disc, one.roller_free / two.roller_free,
                               fixed_roller_life(stage, flank) / fixed_roller_life(stage, twice)})
      RC_ASSERT(std::abs(ratio - 16) < 1e-9);
  }));
}

}  // namespace
}  // namespace lobewise::strength
