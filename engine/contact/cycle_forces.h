#pragma once
// Contact forces over one mesh cycle in the one shape that life and losses read, whatever model they come from.
#include <span>
#include <vector>

#include "engine/contact/hertz.h"
#include "engine/mechanism/stage_geometry.h"
#include "engine/mechanism/vec2.h"

namespace lobewise::contact {

/// Forces on ONE disc. A flank point meets the rollers always at the same phase psi = crank angle - roller angle = N t,
/// so the lobe forces of all rollers and crank angles of one ring pitch are samples of one function F(psi).
struct CycleForces {
  std::vector<double> flank;    ///< F at psi_j = 2 pi (j + 1/2)/size [N]; size a multiple of the number of rollers
  std::vector<double> pins;     ///< Q of all output pins at crank angles spread evenly over a turn, in any order [N]
  std::vector<double> bearing;  ///< |B| of the eccentric bearing at evenly spread crank angles [N]
};

/// Cycle of the rigid, clearance-free stage whose contacts are all equally stiff: F = T l / sum l^2 with the lever arms
/// l of the loaded side at each crank angle, Q = 4 T/(M R_w) max(sin psi, 0), B = -(sum F n + sum Q v). Quick, and a
/// closed form to test against; a real disc bends (docs/theory/life.md). A stage without output pins gets no `pins` and
/// their share is left out of `bearing`.
/// @param torque  on one disc [N m] >= 0
/// @param phases  crank angles per ring pitch >= 1
/// Source: derived, docs/theory/mesh.md.
[[nodiscard]] CycleForces equal_stiffness_cycle(const mechanism::StageGeometry& stage, double torque, int phases = 24);

/// Crank angles spread over a whole turn so that output pins are met at all phases; their number is the smallest one >=
/// `fewest` that has no divisor in common with Z, so that the lobes, too, are met at that many places of the ring
/// pitch.
class CrankTurn {
 public:
  CrankTurn(const mechanism::StageGeometry& stage, int fewest);
  [[nodiscard]] int phases() const { return phases_; }
  [[nodiscard]] double crank(int phase) const;  ///< crank angle [rad]
  [[nodiscard]] CycleForces empty_forces() const;
  /// Puts the forces of one disc at crank angle `phase` into their places.
  void record(int phase, std::span<const double> rings, std::span<const double> pins, mechanism::Vec2 bearing,
              CycleForces& forces) const;

 private:
  int rollers_, pins_, phases_;
};

/// One contact of a cycle, for film and pressure.
struct HardContact {
  double force = 0;            ///< [N]
  double pressure = 0;         ///< largest Hertz pressure [Pa]
  double radius = 0;           ///< 1 / sum of curvatures [m]
  double entrainment = 0;      ///< mean surface speed relative to the contact, per unit input speed (ring held) [m/rad]
  double load_per_length = 0;  ///< [N/m]
};
/// The most heavily pressed lobe contact; force 0 when none is loaded.
/// @param rollers_turn  ring rollers turn on their pins (u1 = u2) or stand fast (u1 = -r al)
[[nodiscard]] HardContact hardest_lobe_contact(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                               const Elastic& material, bool rollers_turn);

}  // namespace lobewise::contact
