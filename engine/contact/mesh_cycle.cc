#include "engine/contact/mesh_cycle.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::contact {
namespace {

void shape(MeshCycle& cycle, const mechanism::StageGeometry& stage, int angles) {
  cycle.angles = angles;
  cycle.discs = stage.discs;
  cycle.rollers = stage.rollers();
  cycle.pins = stage.pins;
  for (auto* by_angle : {&cycle.crank_angle, &cycle.output_rotation, &cycle.input_loss})
    by_angle->resize(static_cast<std::size_t>(angles));
  const std::size_t by_disc = cycle.disc_at(angles, 0);
  cycle.shift.resize(by_disc);
  cycle.bearing.resize(by_disc);
  cycle.loaded_rollers.resize(by_disc);
  cycle.loaded_pins.resize(by_disc);
  for (auto* by_roller :
       {&cycle.ring_force, &cycle.ring_radius, &cycle.ring_pressure, &cycle.sliding_speed, &cycle.rolling_speed})
    by_roller->resize(cycle.roller_at(angles, 0, 0));
  cycle.pin_force.resize(cycle.pin_at(angles, 0, 0));
}

/// Figures of one disc at one crank angle.
void record(const MeshSolver& solver, const DiscLoads& disc, int angle, int index, MeshCycle& cycle) {
  const auto& stage = solver.model().stage;
  const double eZ = stage.eccentricity * stage.rollers();
  int loaded = 0;
  for (int k = 0; k < cycle.rollers; ++k) {
    const auto from = static_cast<std::size_t>(k);
    const std::size_t to = cycle.roller_at(angle, index, k);
    const double force = disc.ring_force[from];
    cycle.ring_force[to] = force;
    cycle.ring_radius[to] = disc.ring.radius[from];
    cycle.ring_pressure[to] = force > 0 ? solver.ring_pressure(disc, k) : 0;
    const double distance = solver.instant_distance(disc, k);
    // al = e Z (e Z - R cos(f - th)) / S^2 of mechanism::roller_mesh, with the cosine from S.
    const double squared = distance * distance;
    const double direction_rate = (squared + eZ * eZ - stage.pitch_radius * stage.pitch_radius) / (2 * squared);
    cycle.sliding_speed[to] = (distance - stage.roller_radius) / stage.lobes;
    cycle.rolling_speed[to] = cycle.sliding_speed[to] - stage.roller_radius * direction_rate;
    loaded += force > 0 ? 1 : 0;
    cycle.peak_ring_force = std::max(cycle.peak_ring_force, force);
    cycle.peak_ring_pressure = std::max(cycle.peak_ring_pressure, cycle.ring_pressure[to]);
  }
  int loaded_pins = 0;
  for (int j = 0; j < cycle.pins; ++j) {
    const double force = disc.pin_force[static_cast<std::size_t>(j)];
    cycle.pin_force[cycle.pin_at(angle, index, j)] = force;
    loaded_pins += force > 0 ? 1 : 0;
    cycle.peak_pin_force = std::max(cycle.peak_pin_force, force);
  }
  const std::size_t to = cycle.disc_at(angle, index);
  cycle.shift[to] = disc.shift;
  cycle.bearing[to] = disc.bearing_force();
  cycle.loaded_rollers[to] = loaded;
  cycle.loaded_pins[to] = loaded_pins;
}

}  // namespace

CrankRange ring_pitch(const mechanism::StageGeometry& stage) { return {0, 2 * kPi / stage.rollers()}; }
CrankRange revolution() { return {0, 2 * kPi}; }

Outcome solve_cycle(MeshSolver& solver, Level level, double torque, const CrankRange& range, int angles,
                    const MeshFriction& friction, MeshCycle& cycle) {
  const auto& stage = solver.model().stage;
  shape(cycle, stage, angles);
  cycle.level = level;
  cycle.torque = torque;
  cycle.range = range;
  cycle.peak_ring_force = cycle.peak_pin_force = cycle.peak_ring_pressure = 0;
  cycle.losses = {};
  for (int i = 0; i < angles; ++i) {
    const double phi = range.start + range.span * i / angles;
    const Outcome outcome = solver.solve(level, phi, torque);
    if (outcome != Outcome::converged) return outcome;
    double rotation = 0;
    for (int d = 0; d < stage.discs; ++d) {
      const DiscLoads& disc = solver.discs()[static_cast<std::size_t>(d)];
      record(solver, disc, i, d, cycle);
      rotation += disc.shift.rotation / stage.discs;
    }
    const bool pins = level == Level::l2 || level == Level::l3;
    const MeshLosses losses = mesh_losses(solver, friction, torque);
    const auto at = static_cast<std::size_t>(i);
    cycle.crank_angle[at] = phi;
    cycle.output_rotation[at] = pins ? solver.output_rotation() : rotation;
    cycle.input_loss[at] = losses.ring + losses.pin + losses.bearing;
    cycle.losses.ring += losses.ring / angles;
    cycle.losses.pin += losses.pin / angles;
    cycle.losses.bearing += losses.bearing / angles;
  }
  cycle.losses.drag = friction.drag;
  const double input = std::abs(torque) / stage.lobes;
  if (input > 0) cycle.losses.efficiency = input / (input + cycle.losses.total());
  cycle.peak_pin_pressure = solver.pin_pressure(cycle.peak_pin_force);
  return Outcome::converged;
}

Result<MeshCycle> solve_cycle(const MeshModel& model, Level level, double torque, int angles,
                              const MeshFriction& friction) {
  Errors errors = check_model(model);
  if (angles < 1) errors.push_back(input_error("angles", std::to_string(angles), "must be at least 1."));
  if (!std::isfinite(torque))
    errors.push_back(input_error("torque", std::to_string(torque), "must be a finite torque."));
  if (!errors.empty()) return errors;
  MeshSolver solver(model);
  MeshCycle cycle;
  const Outcome outcome = solve_cycle(solver, level, torque, ring_pitch(model.stage), angles, friction, cycle);
  if (outcome != Outcome::converged) return outcome_error(outcome, torque);
  return cycle;
}

}  // namespace lobewise::contact
