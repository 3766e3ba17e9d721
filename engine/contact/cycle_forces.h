#pragma once
// Contact forces over one mesh cycle in the one shape that life and losses read, whatever model they come from.
#include <span>
#include <vector>

#include "engine/mechanism/stage_geometry.h"

namespace lobewise::contact {

/// Forces on ONE disc. A flank point meets the rollers always at the same phase psi = crank angle - roller angle = N t,
/// so the lobe forces of all rollers and crank angles of one ring pitch are samples of one function F(psi).
struct CycleForces {
  std::vector<double> flank;    ///< F at psi_j = 2 pi (j + 1/2)/size [N]; size a multiple of the number of rollers
  std::vector<double> pins;     ///< Q of all output pins at crank angles spread evenly over a turn, in any order [N]
  std::vector<double> bearing;  ///< |B| of the eccentric bearing at evenly spread crank angles [N]
};

/// Puts lobe forces into the order of `CycleForces::flank`.
/// @param forces   F of roller k at phase i in place i * rollers + k; disc crank angles f_i = (2 pi/Z)(i + 1/2)/phases
/// @param rollers  Z
[[nodiscard]] std::vector<double> flank_order(std::span<const double> forces, int rollers);

/// Cycle of the rigid, clearance-free stage whose contacts are all equally stiff: F = T l / sum l^2 with the lever arms
/// l of the loaded side at each crank angle, Q = 4 T/(M R_w) max(sin psi, 0), B = -(sum F n + sum Q v). Quick, and a
/// closed form to test against; a real disc bends (docs/theory/life.md). A stage without output pins gets no `pins` and
/// their share is left out of `bearing`.
/// @param torque  on one disc [N m] >= 0
/// @param phases  crank angles per ring pitch >= 1
/// Source: derived, docs/theory/mesh.md.
[[nodiscard]] CycleForces equal_stiffness_cycle(const mechanism::StageGeometry& stage, double torque, int phases = 24);

}  // namespace lobewise::contact
