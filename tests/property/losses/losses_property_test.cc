#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <cmath>

#include "engine/losses/parts.h"
#include "engine/losses/stage_losses.h"

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
    StageDesign design;
    design.ring_bore_radius = 0.6 * stage.roller_radius;
    design.pin_bore_radius = 0.6 * stage.pin_radius;
    design.eccentric = {0.5 * stage.pitch_radius, 5, 5.5e-4};
    const StageLossModel model = prepare(stage, contact::equal_stiffness_cycle(stage, torque, 6), design);
    OperatingPoint point;
    point.input_speed = between(1, 400);
    point.oil_temperature = between(280, 380);
    point.nu_40 = 220e-6;
    point.nu = between(5e-6, 2e-3);
    point.density = 880;
    point.pressure_viscosity = 2e-8;
    const StageLosses losses = stage_losses(model, point);
    const double power = 2 * torque * point.input_speed / stage.lobes;
    const double share = losses.efficiency(power);
    RC_ASSERT(share > 0 && share < 1);
    RC_ASSERT(losses.no_load < losses.total());
    // Twice the friction coefficients never lose less.
    LossCoefficients rough;
    rough.sleeve.boundary *= 2;
    rough.sleeve.film *= 2;
    RC_ASSERT(stage_losses(model, point, rough).total() >= losses.total());
  }));
}

}  // namespace
}  // namespace lobewise::losses
