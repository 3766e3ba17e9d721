#include "engine/drive/losses_model.h"

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/drive/roller_sets.h"
#include "engine/losses/low_speed.h"

namespace lobewise::drive {
namespace {

const contact::BaseOil& base_oil(range::BaseOil base) {
  switch (base) {
    case range::BaseOil::pao:
      return contact::kPolyalphaolefin;
    case range::BaseOil::pag:
      return contact::kPolyglycol;
    case range::BaseOil::mineral:
      break;
  }
  return contact::kMineralOil;
}

/// Friction torque at the stage's input of one disc's rollers (or sleeves) under one level's forces [N m].
/// @param rise  of the friction of needles at this speed
double roller_friction(const losses::SlidingSums& sums, const RollerSet& set, double eta_speed, double rise,
                       const Coefficients& c) {
  const double mu_outer =
      c.mixed.boundary * c.sliding_factor;  // the film at the lobes is thin: docs/theory/lubricant.md
  const double inner_over_outer = set.inner / set.radius;
  const double rolling = losses::rolling_coefficient<double>(c.rolling_arm, set.radius) * sums.total;
  switch (set.carried) {
    case range::Carried::fixed:
      return mu_outer * sums.total;
    case range::Carried::needle:
      return losses::roller_side_factor(mu_outer, rise * c.needle_friction, inner_over_outer) * sums.total + rolling;
    case range::Carried::sleeve:
      break;
  }
  losses::SleeveCurve sleeve = c.sleeve;
  sleeve.boundary *= c.sliding_factor;
  sleeve.film *= c.sliding_factor;
  return losses::sleeve_friction_torque(sums, eta_speed, mu_outer, inner_over_outer, sleeve) + rolling;
}

/// As above at any torque: between the two levels around it; below the lowest level in proportion.
double roller_friction_at(const StageTable& table, double torque, losses::SlidingSums MeshLevel::*sums,
                          const RollerSet& set, double input_speed, double nu, double eta, const Coefficients& c) {
  const double rise = set.carried == range::Carried::needle ? needle_rise(set, input_speed, nu, c) : 1;
  const auto friction = [&](const MeshLevel& level) {
    return c.load_loss_form * roller_friction(level.*sums, set, eta * input_speed, rise, c);
  };
  if (torque <= table.levels.front().torque)
    return friction(table.levels.front()) * torque / table.levels.front().torque;
  const StageTable::Between b = table.between(torque);
  return (1 - b.share) * friction(*b.below) + b.share * friction(*b.above);
}

double bearing_loss(const range::Bearing& bearing, const Oil& oil, double speed, double nu, double load,
                    const Coefficients& c) {
  const losses::BearingDrag drag{bearing.pitch_diameter, no_load_factor(bearing, oil) * c.f0_factor,
                                 friction_of(bearing.kind).f1.nominal * c.f1_factor};
  const losses::BearingLoss loss = losses::bearing_friction(drag, speed, nu, load);
  return (c.no_load_loss_form * loss.M_0 +
          c.load_loss_form * bearing_rise(bearing.pitch_diameter, speed, nu, c) * loss.M_1) *
         speed;
}

}  // namespace

LossPlaces& LossPlaces::operator+=(const LossPlaces& other) {
  lobes += other.lobes;
  output_pins += other.output_pins;
  eccentric_bearings += other.eccentric_bearings;
  input_bearings += other.input_bearings;
  output_bearings += other.output_bearings;
  seals += other.seals;
  oil_drag += other.oil_drag;
  roller_drag += other.roller_drag;
  return *this;
}

double Oil::nu(double temperature, double factor) const {
  return factor * contact::kinematic_viscosity(curve, temperature);
}
double Oil::eta(double temperature, double factor) const {
  return nu(temperature, factor) * contact::oil_density(density_15, temperature);
}

Result<Oil> oil_of(const range::Lubricant& fill) {
  const contact::BaseOil& base = base_oil(fill.base);
  const double index = fill.viscosity_index.value_or(base.viscosity_index.nominal);
  const Result<double> nu_100 = contact::nu_100_from_index(fill.viscosity_40, index);
  if (!nu_100) return nu_100.errors();
  Oil oil{fill, contact::viscosity_curve(fill.viscosity_40, *nu_100), base.density_15.nominal,
          base.pressure_viscosity.nominal};
  oil.viscosity_index = index;
  oil.nu_100 = *nu_100;
  return oil;
}

const losses::BearingFriction& friction_of(range::BearingKind kind) {
  switch (kind) {
    case range::BearingKind::cylindrical:
      return losses::kCylindricalCaged;
    case range::BearingKind::full_complement:
      return losses::kFullComplement;
    case range::BearingKind::needle:
      return losses::kNeedle;
    case range::BearingKind::deep_groove:
      return losses::kDeepGroove;
    case range::BearingKind::tapered:
      return losses::kTapered;
    case range::BearingKind::angular_ball:
      break;
  }
  return losses::kAngularBall;
}

double no_load_factor(const range::Bearing& bearing, const Oil& oil) {
  const losses::BearingFriction& friction = friction_of(bearing.kind);
  return oil.grease() ? friction.f0_grease.nominal : friction.f0_oil.nominal * oil.f0_factor;
}

double input_bearing_share(const range::Stage& stage) {
  if (stage.geometry.discs == 1) return 0.5;
  const double couple = (stage.pin_lever_far - stage.pin_lever_near) / stage.input_span;
  return stage.geometry.discs == 2 ? couple : 0.866 * couple;
}

RunningLosses running_losses(const Build& build, const std::vector<std::shared_ptr<const StageTable>>& tables,
                             const Oil& oil, const Running& running, double oil_temperature, const Coefficients& c) {
  const double nu = oil.nu(oil_temperature, c.viscosity_factor);
  const double eta = oil.eta(oil_temperature, c.viscosity_factor);
  const std::size_t count = build.stages.size();
  RunningLosses out;
  out.stages.resize(count);
  out.output_power = running.torque * running.speed;

  double torque = running.torque;
  double speed = running.speed;
  for (std::size_t i = count; i-- > 0;) {
    const range::Stage& stage = *build.stages[i].stage;
    const range::Frame& frame = *build.stages[i].frame;
    const mechanism::StageGeometry& g = stage.geometry;
    const StageTable& table = *tables[i];
    StageRunning& at = out.stages[i];
    at.torque = torque;
    at.input_speed = speed * g.lobes;
    const double discs = g.discs;
    const RollerSet ring = ring_rollers(stage), output = output_rollers(stage);
    at.losses.lobes = discs * at.input_speed *
                      roller_friction_at(table, torque, &MeshLevel::lobe_sliding, ring, at.input_speed, nu, eta, c);
    at.losses.output_pins =
        discs * at.input_speed *
        roller_friction_at(table, torque, &MeshLevel::pin_sliding, output, at.input_speed, nu, eta, c);
    const double no_load = c.no_load_loss_form;
    at.losses.roller_drag =
        no_load * discs *
        (roller_drag(ring, oil, at.input_speed, nu, eta, c) + roller_drag(output, oil, at.input_speed, nu, eta, c));
    const double bearing_force = table.at(torque, &MeshLevel::bearing_equivalent);
    at.losses.eccentric_bearings = discs * bearing_loss(stage.eccentric_bearing, oil,
                                                        at.input_speed * g.rollers() / g.lobes, nu, bearing_force, c);
    at.losses.input_bearings =
        2 * bearing_loss(stage.input_bearing, oil, at.input_speed, nu, bearing_force * input_bearing_share(stage), c);
    if (i + 1 == count) {
      at.losses.output_bearings = bearing_loss(frame.output.bearing_inside, oil, speed, nu, running.radial_inside, c) +
                                  bearing_loss(frame.output.bearing_outside, oil, speed, nu, running.radial_outside, c);
      at.losses.seals += no_load * c.seal_factor *
                         losses::seal_loss(frame.output.seal_diameter, speed, oil.fill.viscosity_40, oil_temperature);
    }
    if (i == 0)
      at.losses.seals +=
          no_load * c.seal_factor *
          losses::seal_loss(frame.input_seal_diameter, at.input_speed, oil.fill.viscosity_40, oil_temperature);
    if (!oil.grease()) {
      const double face = kPi * g.pitch_radius * g.pitch_radius;
      at.losses.oil_drag = no_load * c.drag_factor *
                           losses::gap_shear_loss(eta, g.eccentricity * at.input_speed, 2 * discs * face,
                                                  losses::kDiscGap, oil.wetted_share);
    }
    out.places += at.losses;
    torque = torque / g.lobes + at.losses.total() / at.input_speed;
    speed = at.input_speed;
  }
  out.input_torque = torque;
  return out;
}

}  // namespace lobewise::drive
