#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "engine/losses/friction.h"
#include "engine/losses/parts.h"
#include "tests/support/one_stage_unit.h"

namespace lobewise::losses {
namespace {

// A number between a and b, evenly spread in its logarithm.
double between(double a, double b) {
  const int share = *rc::gen::inRange(0, 1000001);
  return a * std::pow(b / a, share / 1e6);
}

TEST(LossProperties, MoreLoadOrSpeedNeverLosesLessInABearing) {
  EXPECT_TRUE(rc::check([] {
    const BearingDrag bearing{between(0.01, 1), between(0.5, 20), between(1e-4, 3e-3)};
    const double speed = between(1e-2, 1e3), nu = between(1e-6, 1e-2), load = between(1, 1e6), more = between(1, 10);
    const BearingLoss base = bearing_friction(bearing, speed, nu, load);
    RC_ASSERT(bearing_friction(bearing, speed, nu, load * more).power >= base.power);
    // The form steps down by 0.8 % where its branches meet.
    RC_ASSERT(bearing_friction(bearing, speed * more, nu, load).power >= 0.992 * base.power);
  }));
}

TEST(LossProperties, SleeveFrictionStaysBetweenItsEndsAndFallsWithSpeed) {
  EXPECT_TRUE(rc::check([] {
    const double eta = between(1e-3, 10), w = between(1e-2, 1e3), p = between(1e4, 1e9), more = between(1, 100);
    const double mu = sleeve_friction(hersey_number(eta, w, p)),
                 faster = sleeve_friction(hersey_number(eta, w * more, p));
    RC_ASSERT(mu <= kSleeveFriction.boundary.nominal);
    RC_ASSERT(faster <= mu);
    RC_ASSERT(faster >= kSleeveFriction.film.nominal);
  }));
}

TEST(LossProperties, EfficiencyIsAShareAndPlacesAddUp) {
  EXPECT_TRUE(rc::check([] {
    mechanism::StageGeometry stage;
    stage.lobes = *rc::gen::inRange(6, 60);
    stage.pitch_radius = between(0.03, 0.3);
    stage.eccentricity = stage.pitch_radius / (stage.lobes + 1) * between(0.4, 0.8);
    stage.roller_radius = 0.6 * mechanism::roller_radius_limit(stage);
    stage.width = 0.2 * stage.pitch_radius;
    stage.pins = 8;
    stage.pin_circle_radius = 0.6 * stage.pitch_radius;
    stage.pin_radius = 0.08 * stage.pitch_radius;
    const double torque = between(1, 1e4);
    range::Stage of;
    of.geometry = stage;
    of.ring_rollers = of.output_rollers = range::Carried::sleeve;
    of.ring_pin_radius = 0.6 * stage.roller_radius;
    of.output_pin_radius = 0.6 * stage.pin_radius;
    of.eccentric_bearing.kind = range::BearingKind::full_complement;
    of.eccentric_bearing.pitch_diameter = 0.5 * stage.pitch_radius;
    drive::OneStageUnit unit(of);
    unit.frame.lubricants.front().viscosity_40 = between(20e-6, 1000e-6);
    unit.table = std::make_shared<const drive::StageTable>(
        drive::table_of(of, {{2 * torque, contact::equal_stiffness_cycle(stage, torque, 6)},
                             {4 * torque, contact::equal_stiffness_cycle(stage, 2 * torque, 6)}}));
    const double speed = between(1, 400), temperature = between(280, 380);
    const drive::LossPlaces losses = unit.losses(2 * torque, speed, temperature);
    const double output = 2 * torque * speed / stage.lobes, share = output / (output + losses.total());
    RC_ASSERT(share > 0 && share < 1);
    RC_ASSERT(unit.losses(0, speed, temperature).total() < losses.total());
    // Twice the friction coefficients never lose less.
    drive::Coefficients rough;
    rough.sleeve.boundary *= 2;
    rough.sleeve.film *= 2;
    RC_ASSERT(unit.losses(2 * torque, speed, temperature, rough).total() >= losses.total());
  }));
}

}  // namespace
}  // namespace lobewise::losses
