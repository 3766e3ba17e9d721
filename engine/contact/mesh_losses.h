#pragma once
// Friction losses of a solved mesh, first order: from the frictionless forces. Source: derived, docs/theory/mesh.md;
// friction inside the equilibrium lowers the efficiency a little more.
#include "engine/contact/mesh_solver.h"

namespace lobewise::contact {

struct MeshFriction {
  double ring = 0.05;               ///< mu_ring: roller on lobe, or a free ring roller on its core
  double pin = 0.05;                ///< mu_pin: sleeve on hole, or a free sleeve on its core
  double bearing = 0.0015;          ///< mu_b: eccentric bearing, at its mean diameter
  double bearing_diameter = 0.05;   ///< d_b: mean diameter of the eccentric bearing [m]
  bool ring_free = false;           ///< ring rollers turn on a core
  double ring_core_radius = 0.004;  ///< rb_ring: of that core [m]
  bool pin_free = true;             ///< output pins carry sleeves that turn on a core
  double pin_core_radius = 0.005;   ///< rb_pin: of that core [m]
  double drag = 0;                  ///< T0: torque at the input that does not depend on load [Nm]
};

/// Loss torques at the input shaft: power per unit input speed [Nm].
struct MeshLosses {
  double ring = 0;        ///< mu_ring kr sum F |v|, kr = 1 or rb_ring / r
  double pin = 0;         ///< mu_pin kp (e Z / N) sum Q, kp = 1 or rb_pin / rw
  double bearing = 0;     ///< mu_b |B| (d_b / 2) Z / N
  double drag = 0;        ///< T0
  double efficiency = 0;  ///< (T/N) / (T/N + all losses), 0 without torque

  [[nodiscard]] double total() const { return ring + pin + bearing + drag; }
};

/// Losses of the solver's present solution under the output torque it was solved for [Nm].
[[nodiscard]] MeshLosses mesh_losses(const MeshSolver& solver, const MeshFriction& friction, double torque);

}  // namespace lobewise::contact
