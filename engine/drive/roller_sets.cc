#include "engine/drive/roller_sets.h"

#include <cmath>

#include "engine/base/constants.h"
#include "engine/losses/cold.h"
#include "engine/losses/low_speed.h"

namespace lobewise::drive {
namespace {

RollerSet set_of(const range::Stage& stage, range::Carried carried, int count, double radius, double pin,
                 double surface_speed) {
  if (!(pin > 0)) carried = range::Carried::fixed;
  return {carried, static_cast<double>(count), radius, pin, stage.geometry.width, surface_speed / radius, pin + radius};
}

}  // namespace

RollerSet ring_rollers(const range::Stage& stage) {
  const mechanism::StageGeometry& g = stage.geometry;
  const double square = g.shortening() * g.shortening();
  const double S = g.pitch_radius * (1 + square / 4 + square * square / 64);
  return set_of(stage, stage.ring_rollers, g.rollers(), g.roller_radius, stage.ring_pin_radius,
                (S - g.roller_radius) / g.lobes);
}

RollerSet output_rollers(const range::Stage& stage) {
  const mechanism::StageGeometry& g = stage.geometry;
  return set_of(stage, stage.output_rollers, g.pins, g.pin_radius, stage.output_pin_radius,
                g.eccentricity * g.rollers() / g.lobes);
}

double roller_drag(const RollerSet& set, const Oil& oil, double input_speed, double nu, double eta,
                   const Coefficients& c) {
  const double speed = set.spin * input_speed;
  switch (set.carried) {
    case range::Carried::fixed:
      return 0;
    case range::Carried::needle: {
      const double f_0 =
          oil.grease() ? losses::kNeedle.f0_grease.nominal : losses::kNeedle.f0_oil.nominal * oil.f0_factor;
      return c.roller_drag * set.count *
             losses::bearing_friction({set.mean_diameter, f_0 * c.f0_factor, 0}, speed, nu, 0).power;
    }
    case range::Carried::sleeve:
      break;
  }
  // Half of them carry nothing; what the others lose is in the friction of their sleeves.
  return c.roller_drag * 0.5 * set.count * speed *
         losses::sleeve_drag<double>(eta, speed, set.inner, set.width, losses::kSleeveClearance * set.inner);
}

double bearing_rise(double pitch_diameter, double speed, double nu, const Coefficients& c) {
  const double rise = c.low_speed_rise * (losses::kBearingAtRest.nominal * c.rest_factor - 1);
  return losses::low_speed_factor<double>(rise, contact::viscosity_ratio(nu, speed, pitch_diameter), c.low_speed_half);
}

double needle_rise(const RollerSet& set, double input_speed, double nu, const Coefficients& c) {
  return bearing_rise(set.mean_diameter, set.spin * input_speed, nu, c);
}

}  // namespace lobewise::drive
