#pragma once
// Exact geometry of an involute gear pair: the teeth a geared unit drives with. SI units, angles in rad.
// Frame of a pair: pinion centre at the origin, pitch point on +x, the pinion drives counter-clockwise.

#include <vector>

#include "engine/base/result.h"

namespace lobewise::incumbent {

/// Basic rack that generates both gears, as multiples of the normal module.
/// Defaults: ISO 53 profile A, from memory (alpha 20 deg, addendum 1, dedendum 1.25, tip radius 0.38).
struct Rack {
  double pressure_angle = 0.3490658503988659;  ///< alpha_n, 0.2 … 0.5 rad
  double dedendum = 1.25;                      ///< h_fP / m_n
  double tip_radius = 0.38;                    ///< rho_fP / m_n
};

struct Gear {
  int teeth = 0;          ///< z >= 6; always positive, also for a ring with internal teeth
  double shift = 0;       ///< profile shift coefficient x
  double addendum = 1.0;  ///< h_aP / m_n; for a ring measured inwards
};

/// Two gears in mesh; the pinion drives.
struct GearPair {
  Gear pinion;
  Gear wheel;
  bool internal = false;  ///< the wheel is a ring with internal teeth (shifts must then be zero)
  double module = 0;      ///< normal module m_n, m
  double helix = 0;       ///< helix angle beta at the reference cylinder, rad, 0 … 0.8
  double face_width = 0;  ///< common face width b, m
  Rack rack = {};
};

/// What follows from a GearPair. Lengths in m, angles in rad.
struct PairGeometry {
  GearPair pair;
  double ratio = 0;              ///< u = z2 / z1
  double transverse_module = 0;  ///< m_t = m_n / cos beta
  double pressure_angle = 0;     ///< alpha_t: tan alpha_t = tan alpha_n / cos beta
  double working_angle = 0;      ///< alpha_wt: inv alpha_wt = inv alpha_t + 2 tan alpha_n (x1 + x2) / (z1 + z2)
  double base_helix = 0;         ///< beta_b: sin beta_b = sin beta cos alpha_n
  double centre_distance = 0;    ///< a
  double r1 = 0, r2 = 0;         ///< reference radii
  double rb1 = 0, rb2 = 0;       ///< base radii
  double rw1 = 0, rw2 = 0;       ///< working pitch radii
  double ra1 = 0, ra2 = 0;       ///< tip radii (no tip shortening)
  double base_pitch = 0;         ///< p_bt = pi m_t cos alpha_t
  double approach = 0;           ///< path of contact before the pitch point
  double recess = 0;             ///< path of contact behind the pitch point
  double contact_ratio = 0;      ///< eps_alpha = (approach + recess) / p_bt
  double overlap_ratio = 0;      ///< eps_beta = b sin beta / (pi m_n)

  [[nodiscard]] double path() const { return approach + recess; }
  [[nodiscard]] double total_contact_ratio() const { return contact_ratio + overlap_ratio; }
};

/// Geometry of a pair. Formulas as beside the fields of PairGeometry (ISO 21771, from memory; path of contact
/// sqrt(ra^2 - rb^2) - rw sin alpha_wt on either side of the pitch point).
/// Errors: teeth, module, face width or angles outside the stated ranges; contact beyond a base circle (interference);
/// undercut; contact ratio below 1; a shifted internal pair.
[[nodiscard]] Result<PairGeometry> pair_geometry(const GearPair& pair);

/// Involute function tan alpha - alpha.
[[nodiscard]] double involute(double alpha);
/// Angle with involute(angle) = value; value >= 0. Newton, accurate to 1e-14.
[[nodiscard]] double inverse_involute(double value);

/// Radii of curvature of both flanks in the transverse plane at a point of the path of contact.
struct Curvature {
  double pinion = 0;    ///< rho_1 = rw1 sin alpha_wt + g
  double wheel = 0;     ///< rho_2 = rw2 sin alpha_wt - g (external), + g (internal)
  double relative = 0;  ///< rho_1 rho_2 / (rho_2 ± rho_1)
};
/// @param g  signed distance from the pitch point along the line of action, -approach … recess (m)
[[nodiscard]] Curvature curvature_at(const PairGeometry& geometry, double g);

/// Sliding speed of the flanks, |g| (w1 + w2), internal |g| (w1 - w2).
/// @param g  as above;  @param pinion_speed  w1, rad/s  @returns m/s, >= 0
[[nodiscard]] double sliding_speed(const PairGeometry& geometry, double g, double pinion_speed);

/// Angle the pinion turns while one tooth pair is in contact in one transverse plane: path / rb1.
[[nodiscard]] double contact_angle(const PairGeometry& geometry);

struct Point {
  double x = 0, y = 0;
};

/// Outline of one tooth in the transverse plane, gear centre at the origin, tooth centre on +x, from one space centre
/// to the next, counter-clockwise: root arc, fillet (trochoid of the rounded rack tip), involute, tip arc and back.
/// A ring gets its involute flanks, with straight ends to the root circle.
/// Approximation: the rack tip is a circle in the transverse plane too (exact for spur teeth).
/// @param wheel   false: pinion, true: wheel
/// @param points  points on each flank, >= 4
[[nodiscard]] std::vector<Point> tooth_outline(const PairGeometry& geometry, bool wheel, int points);

/// Half the angle a tooth covers at a radius (rad); between base and tip circle.
[[nodiscard]] double half_tooth_angle(const PairGeometry& geometry, bool wheel, double radius);

}  // namespace lobewise::incumbent
