#pragma once
// Rating and life of line contacts that are no catalogue bearing: lobe and ring roller, output sleeve and hole.
// Derivation of the rating from Lundberg and Palmgren and its proof against ISO/TS 16281: docs/theory/life.md.
// SI; life in millions of counted revolutions (one input revolution with the ring held).
#include <span>

#include "engine/mechanism/stage_geometry.h"
#include "engine/strength/coefficients.h"

namespace lobewise::strength {

/// A contact track as the rating sees it.
struct LineTrack {
  double curvature_sum = 0;               ///< sum rho = 1/r + kappa; pin in a hole: 1/r_w - 1/r_h [1/m] > 0
  double length = 0;                      ///< l: contact length [m] > 0
  double track_length = 0;                ///< s: length of the track [m] > 0
  double passes_per_revolution = 0;       ///< u: stress passages of one point per counted revolution > 0
  double material = kLineFactor.nominal;  ///< m
};
/// Q_c: load that a track survives for one million counted revolutions with 90 % [N]; mm, N inside:
/// Q_c = B1 m 2^(35/27-1/4) pi^(2/9) l^(7/9) (sum rho)^(-35/27) s^(-2/9) u^(-1/4).
/// Source: derived, docs/theory/life.md; within 0.3 % of Q_ci, Q_ce of ISO/TS 16281 eq. 47, 48 (read in public code).
[[nodiscard]] double line_capacity(const LineTrack& track);

/// Life when every point of the track always sees its own load: [mean (Q/Q_c)^(9/2)]^(-8/9), mean over the track.
/// Infinite without load. Preconditions: equal sizes, not empty, loads >= 0, capacities > 0. Source: derived.
[[nodiscard]] double fixed_load_track_life(std::span<const double> loads, std::span<const double> capacities);
/// Life when every point sees all loads in turn: 1 / mean (Q/Q_c)^4, mean over the passes. As above.
[[nodiscard]] double mixed_load_track_life(std::span<const double> loads, std::span<const double> capacities);

/// e_C C_u / P of a line contact with pressure `pressure` [Pa]: e_C (4000 MPa/p)^2 / 8.2, so that a contact at its
/// static rating stands where a bearing at its C_0 does. Source: derived.
[[nodiscard]] double contact_limit_ratio(double pressure, double contamination);

/// Static safety of a line contact: (4000 MPa / p)^2. Source: ISO 76 pressure, square law from memory.
[[nodiscard]] double static_safety(double pressure);

/// Lives of one track each, in millions of counted revolutions; `count` equal parts: L count^(-8/9).
struct LobeLife {
  double profile_length = 0;  ///< flank of one disc [m]
  double passes_disc = 0;     ///< u of the flank: Z/N
  double disc = 0;            ///< flank of one disc: every point always sees its own load
  double roller_free = 0;     ///< one ring roller under one disc, free to turn: every point sees all loads
};
/// Life of the lobe contacts under given forces.
/// @param stage     the cut profile's curvature counts; `check_geometry` found nothing
/// @param flank     F over the phase, as `contact::CycleForces::flank`
/// @param material  m of `LineTrack`
/// Source: derived, docs/theory/life.md.
[[nodiscard]] LobeLife lobe_life(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                 double material = kLineFactor.nominal);

/// As `LobeLife::roller_free`, for a roller held fast: the contact swings on an arc r asin K of the loaded side, and
/// each point of it is met at two phases of a turn. Source: derived, docs/theory/life.md.
[[nodiscard]] double fixed_roller_life(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                       double material = kLineFactor.nominal);

/// Life of output sleeve and hole under given forces, millions of counted revolutions, one hole and one sleeve under
/// one disc. Hole: own load, s = 2 pi r_h, u = Z/N. Sleeve: all loads, s = 2 pi r_w, u = (r_h/r_w) Z/N.
struct PinLife {
  double hole = 0;
  double sleeve = 0;
};
/// @param stage  lobes, width, pin and hole radius are used
/// @param pins   Q as `contact::CycleForces::pins`
[[nodiscard]] PinLife output_pin_life(const mechanism::StageGeometry& stage, std::span<const double> pins,
                                      double material = kLineFactor.nominal);

struct RigidPinLife {
  double Q_max = 0;  ///< 4 T/(M R_w) [N]
  PinLife life;
};
/// As above for the rigid law Q = Q_max max(sin psi, 0); the means of sin^4.5 (Gamma function) and sin^4 (3/16) are
/// exact.
/// @param torque  on one disc [N m] > 0
[[nodiscard]] RigidPinLife rigid_output_pin_life(const mechanism::StageGeometry& stage, double torque,
                                                 double material = kLineFactor.nominal);

}  // namespace lobewise::strength
