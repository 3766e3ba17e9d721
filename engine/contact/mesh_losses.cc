#include "engine/contact/mesh_losses.h"

#include <cmath>

#include "engine/mechanism/kinematics.h"

namespace lobewise::contact {

MeshLosses mesh_losses(const MeshSolver& solver, const MeshFriction& friction, double torque) {
  const auto& stage = solver.model().stage;
  double ring = 0;     // sum F |v|
  double pin = 0;      // sum Q
  double bearing = 0;  // sum |B|
  for (const DiscLoads& disc : solver.discs()) {
    for (int k = 0; k < stage.rollers(); ++k) {
      const double force = disc.ring_force[static_cast<std::size_t>(k)];
      if (force > 0) ring += force * std::abs(solver.instant_distance(disc, k) - stage.roller_radius) / stage.lobes;
    }
    for (const double force : disc.pin_force) pin += force;
    bearing += mechanism::norm(disc.bearing_force());
  }
  MeshLosses losses;
  losses.ring = friction.ring * (friction.ring_free ? friction.ring_core_radius / stage.roller_radius : 1) * ring;
  losses.pin = friction.pin * (friction.pin_free ? friction.pin_core_radius / stage.pin_radius : 1) *
               mechanism::pin_sliding_speed(stage) * pin;
  losses.bearing =
      friction.bearing * bearing * friction.bearing_diameter / 2 * mechanism::eccentric_bearing_speed(stage);
  losses.drag = friction.drag;
  const double input = std::abs(torque) / stage.lobes;
  if (input > 0) losses.efficiency = input / (input + losses.total());
  return losses;
}

}  // namespace lobewise::contact
