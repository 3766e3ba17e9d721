#pragma once
// What lobes and output pins lose to sliding friction, for one disc. Theory: docs/theory/losses.md. SI.
#include <span>
#include <vector>

#include "engine/losses/friction.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::losses {

/// Friction torque at the input for one disc and one coefficient, rigid equal-stiffness forces:
/// mean over the ring pitch of sum F_k mu |S_k - r|/N [N m]. Power = torque * input speed.
/// @param stage   lobes, pitch_radius, roller_radius and eccentricity are used
/// @param torque  on the disc [N m] >= 0
/// @param mu      effective coefficient
/// Source: derived, docs/theory/losses.md; first order: forces without friction.
[[nodiscard]] double lobe_friction_torque(const mechanism::StageGeometry& stage, double torque, double mu);

/// The same at the output pins of one disc: mu (4 T/(pi R_w)) e Z/N [N m].
[[nodiscard]] double pin_friction_torque(const mechanism::StageGeometry& stage, double torque, double mu);

/// The sliding of one disc's contacts per unit input speed, so that friction follows for any viscosity, speed and
/// coefficient without the forces. Contact j weighs F_j v_j (averaged over the cycle), and its Hersey number is
/// eta * input speed * hersey_rate_j.
struct SlidingSums {
  std::vector<double> weight;       ///< [N m]; the sum is the friction torque at the input for mu = 1
  std::vector<double> hersey_rate;  ///< (w_rel / (2 pi w_in)) / p_j, p_j = F_j/(2 r_b l) [1/Pa]
  double total = 0;                 ///< sum of weight [N m]
};
/// @param flank       F over the phase, as `contact::CycleForces::flank`
/// @param bore_radius r_b: bore of the ring roller, which turns on its pin with v/r [m]; > 0
[[nodiscard]] SlidingSums lobe_sliding(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                       double bore_radius);
/// @param pins        Q as `contact::CycleForces::pins`
/// @param bore_radius r_b of the output sleeve [m]; > 0
[[nodiscard]] SlidingSums pin_sliding(const mechanism::StageGeometry& stage, std::span<const double> pins,
                                      double bore_radius);

/// Friction torque at the input of one disc's contacts whose roller turns on a plain pin:
/// sum w_j min(mu_outer, mu_sleeve(eta w_in h_j) r_b/r). Loops once over the contacts, allocates nothing.
/// @param viscosity_speed  eta * input speed [Pa] >= 0
[[nodiscard]] double sleeve_friction_torque(const SlidingSums& sums, double viscosity_speed, double mu_outer,
                                            double inner_over_outer, const SleeveCurve& curve = {});

}  // namespace lobewise::losses
