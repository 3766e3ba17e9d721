#pragma once
// Which teeth carry how much, at every angle of the pinion: what a screen draws beside the lobes of the candidate.

#include <vector>

#include "engine/base/working.h"
#include "engine/incumbent/involute.h"

namespace lobewise::incumbent {

/// One tooth pair at one instant.
struct ToothContact {
  int pair =
      0;  ///< index of the pinion tooth, counted counter-clockwise; tooth 0 touches at the pitch point at angle 0
  double g = 0;             ///< distance from the pitch point along the line of action, mid face (m)
  bool in_section = false;  ///< the pair touches in the drawn (mid-face) transverse section
  Point point;              ///< contact point in that section (m), valid when in_section
  double share = 0;         ///< part of the normal force carried by this pair, 0 … 1
  double force = 0;         ///< normal force on this pair, N
  double pressure = 0;      ///< largest Hertz pressure along this pair's contact line, Pa
  double sliding = 0;       ///< sliding speed in the section, m/s
};

struct MeshInstant {
  double pinion_angle = 0;        ///< rad, 0 … any
  double pinion_tooth_angle = 0;  ///< where the centre of pinion tooth 0 stands, rad
  double wheel_tooth_angle =
      0;  ///< where the wheel tooth driven by it stands, rad, about the wheel centre; pair k: -2 pi k/z2 (internal +)
  Point wheel_centre;                  ///< external (a, 0), internal (-a, 0)
  std::vector<ToothContact> contacts;  ///< in contact somewhere along the face, ascending pair index
};

/// What the mesh is loaded with.
struct MeshLoad {
  double torque = 0;            ///< on the pinion, N m, > 0
  double pinion_speed = 0;      ///< rad/s, >= 0
  double contact_modulus = 0;   ///< E* with 1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2, Pa
  double face_load_factor = 1;  ///< multiplies the pressure's line load: uneven load along the face, dynamics (>= 1)
};

/// Teeth in contact and their loads at one angle.
/// Load per length of contact line ~ v = cos(b0 (g - g_mid)/p_bt), b0 = (((1 + eps_alpha/2)^2)/2 - 1)^(-1/2): minimum
/// of the elastic energy of the teeth; ideal teeth, no error, no relief. Source: Pedrero, Pleguezuelos, Artes, Antona,
/// Mechanism and Machine Theory 45 (2010) 780-794, from memory. Face cut into `slices` sections that follow the helix.
/// Pressure: Hertz line contact p = sqrt(q E* / (pi rho)), q line load, rho = rho_t / cos beta_b.
/// Preconditions: geometry from pair_geometry, load.torque > 0, slices >= 1.
[[nodiscard]] MeshInstant mesh_instant(const PairGeometry& geometry, const MeshLoad& load, double pinion_angle,
                                       int slices = 24);

/// One pitch of the mesh in numbers.
struct MeshCycle {
  double mean_pairs = 0;        ///< mean number of pairs in contact somewhere along the face: eps_alpha + eps_beta
  int fewest_pairs = 0;         ///< fewest at any instant
  int most_pairs = 0;           ///< most at any instant
  double largest_share = 0;     ///< of one pair
  double largest_pressure = 0;  ///< Pa
};
/// Walks one pitch in `steps` steps (>= 8).
[[nodiscard]] MeshCycle mesh_cycle(const PairGeometry& geometry, const MeshLoad& load, int steps = 48);

/// E* of two materials: 1 / ((1 - nu1^2)/E1 + (1 - nu2^2)/E2), Pa.
[[nodiscard]] double contact_modulus(double e1, double nu1, double e2, double nu2);

/// Young's modulus of steel 206 GPa, Poisson's ratio 0.3 (ISO 6336-5, from memory).
inline constexpr double kSteelModulus = 206e9;
inline constexpr double kSteelPoisson = 0.3;

}  // namespace lobewise::incumbent
