#include "engine/losses/stage_losses.h"

#include <numeric>

#include "engine/mechanism/kinematics.h"

namespace lobewise::losses {
namespace {

SlidingPair sliding_pair(Mount mount, double bore_radius, double outer_radius, SlidingSums sums,
                         const contact::HardContact& hardest) {
  return {mount, mount == Mount::fixed ? 0 : bore_radius / outer_radius, std::move(sums), hardest};
}

// Friction torque of one disc's rollers or sleeves, referred to the speed with the ring held.
double friction_torque(const SlidingPair& pair, double modulus_pair, double speed, const OperatingPoint& point,
                       const LossCoefficients& c) {
  if (pair.sums.total <= 0) return 0;
  const double eta = point.nu * point.density;
  const contact::HardContact& h = pair.hardest;
  const double film = contact::line_film(
      {h.entrainment * speed, h.radius, modulus_pair, point.pressure_viscosity, eta, h.load_per_length});
  const double outer = mixed_friction(film / point.roughness, c.mixed);
  switch (pair.mount) {
    case Mount::plain:
      return sleeve_friction_torque(pair.sums, eta * speed, outer, pair.inner_over_outer, c.sleeve);
    case Mount::needle:
      return pair.sums.total * roller_side_factor(outer, c.needle, pair.inner_over_outer);
    case Mount::fixed:
      return pair.sums.total * outer;
  }
  return 0;
}

struct BearingPower {
  double total = 0, no_load = 0;
};
BearingPower bearing_power(const BearingDrag& drag, double load, double speed, double nu, const LossCoefficients& c) {
  const BearingLoss loss =
      bearing_friction({drag.mean_diameter, drag.f0 * c.f0_factor, drag.f1 * c.f1_factor}, speed, nu, load);
  return {loss.power, loss.M_0 * speed};
}

BearingPower bearing_power(const std::vector<LoadedBearing>& bearings, const OperatingPoint& point,
                           const LossCoefficients& c) {
  BearingPower sum;
  for (const LoadedBearing& bearing : bearings) {
    const BearingPower one =
        bearing_power(bearing.drag, bearing.load, point.input_speed * bearing.speed_share, point.nu, c);
    sum.total += one.total;
    sum.no_load += one.no_load;
  }
  return sum;
}

}  // namespace

StageLossModel prepare(const mechanism::StageGeometry& stage, const contact::CycleForces& forces,
                       const StageDesign& design) {
  const bool rollers_turn = design.ring_mount != Mount::fixed, sleeves_turn = design.pin_mount != Mount::fixed;
  StageLossModel model;
  model.discs = stage.discs;
  model.mesh_share = design.held == Held::carrier ? static_cast<double>(stage.lobes) / stage.rollers() : 1;
  model.modulus_pair = 2 * contact::contact_modulus(design.material, design.material);
  model.eccentricity = stage.eccentricity;
  model.eccentric_speed_share = mechanism::eccentric_bearing_speed(stage);
  // A roller that does not turn has no sleeve; its sums only count F v.
  model.lobes =
      sliding_pair(design.ring_mount, design.ring_bore_radius, stage.roller_radius,
                   lobe_sliding(stage, forces.flank, rollers_turn ? design.ring_bore_radius : stage.roller_radius),
                   contact::hardest_lobe_contact(stage, forces.flank, design.material, rollers_turn));
  if (!forces.pins.empty()) {
    model.pins = sliding_pair(design.pin_mount, design.pin_bore_radius, stage.pin_radius,
                              pin_sliding(stage, forces.pins, sleeves_turn ? design.pin_bore_radius : stage.pin_radius),
                              contact::hardest_pin_contact(stage, forces.pins, design.material, sleeves_turn));
  }
  model.eccentric = design.eccentric;
  model.eccentric_load =
      std::accumulate(forces.bearing.begin(), forces.bearing.end(), 0.0) / static_cast<double>(forces.bearing.size());
  return model;
}

StageLosses stage_losses(const StageLossModel& model, const OperatingPoint& point, const LossCoefficients& c) {
  const double speed = point.input_speed * model.mesh_share;  // crank against the ring
  const double eta = point.nu * point.density;
  StageLosses losses;
  losses.ring_rollers = model.discs * speed * friction_torque(model.lobes, model.modulus_pair, speed, point, c);
  losses.output_pins = model.discs * speed * friction_torque(model.pins, model.modulus_pair, speed, point, c);
  const BearingPower eccentric =
      bearing_power(model.eccentric, model.eccentric_load, speed * model.eccentric_speed_share, point.nu, c);
  losses.eccentric_bearings = model.discs * eccentric.total;
  const BearingPower input = bearing_power(model.input_bearings, point, c);
  const BearingPower output = bearing_power(model.output_bearings, point, c);
  losses.input_bearings = input.total;
  losses.output_bearings = output.total;
  for (const ShaftSeal& seal : model.seals)
    losses.seals += c.seal_factor *
                    seal_loss(seal.diameter, point.input_speed * seal.speed_share, point.nu_40, point.oil_temperature);
  losses.oil_drag = c.drag_factor * gap_shear_loss(eta, model.eccentricity * point.input_speed, model.gap_area,
                                                   model.gap, c.wetted_share);
  for (const DippingPart& part : model.dipping) {
    const double part_speed = point.input_speed * part.speed_share;
    losses.churning +=
        part_speed *
        churning_loss(point.density, point.nu, part_speed, part.radius, part.chord, part.wetted_area).torque;
  }
  losses.no_load = model.discs * eccentric.no_load + input.no_load + output.no_load + losses.seals + losses.oil_drag +
                   losses.churning;
  return losses;
}

}  // namespace lobewise::losses
