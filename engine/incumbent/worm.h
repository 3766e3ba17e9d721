#pragma once
// A worm pair: steel worm, bronze wheel, shafts at 90 degrees. SI, angles in rad.

#include "engine/base/result.h"
#include "engine/base/working.h"

namespace lobewise::incumbent {

struct WormPair {
  int starts = 1;                            ///< z1, 1 … 8
  int wheel_teeth = 0;                       ///< z2, >= 20
  double centre_distance = 0;                ///< a, m, 0.02 … 0.6
  double diameter_quotient = 10;             ///< q = d_m1 / m, 6 … 20
  double normal_angle = 0.3490658503988659;  ///< alpha_n, rad
};

struct WormGeometry {
  WormPair pair;
  double ratio = 0;           ///< z2 / z1
  double module = 0;          ///< axial module 2 a / (q + z2), m
  double worm_diameter = 0;   ///< q m, m
  double wheel_diameter = 0;  ///< z2 m, m
  double lead_angle = 0;      ///< tan gamma = z1 / q
  double face_width = 0;      ///< effective, 0.67 of the worm diameter (AGMA 6034 limit, from memory), m
};
/// Errors: fields outside the stated ranges.
[[nodiscard]] Result<WormGeometry> worm_geometry(const WormPair& pair);

/// Lead angle of a worm: atan(z1 pi m / (pi d)) = atan(z1 m / d). Geometry.
[[nodiscard]] double lead_angle(int starts, double axial_module, double worm_diameter);

/// Worm driving: (cos alpha_n - mu tan gamma) / (cos alpha_n + mu / tan gamma). Textbook statics of the wedge.
[[nodiscard]] double worm_efficiency(double lead, double normal_angle, double friction);
/// Wheel driving: (cos alpha_n - mu / tan gamma) / (cos alpha_n + mu tan gamma); <= 0 means the wheel cannot drive at
/// this friction. Vibration lowers friction: never a substitute for a brake.
[[nodiscard]] double worm_reverse_efficiency(double lead, double normal_angle, double friction);

/// Coefficient of friction of hardened steel on bronze over the sliding speed; AGMA 6034, from memory:
/// 0.15 at rest; 0.124 exp(-0.074 V^0.645) to 10 ft/min; 0.103 exp(-0.110 V^0.450) + 0.012 above (V in ft/min).
/// The range (x 0.7 … 1.4) is common practice, no source.
[[nodiscard]] Coefficient worm_friction(double sliding_speed);

/// What a worm pair does at a duty.
struct WormRating {
  double sliding_speed = 0;  ///< pi d_m1 n / cos gamma, m/s
  Coefficient friction;
  double efficiency = 0;  ///< teeth only
  double reverse_efficiency = 0;
  double allowable_torque = 0;  ///< on the wheel, N m; AGMA 6034 for 25 000 h (wear and pitting of the bronze)
  double torque_safety = 0;     ///< allowable / working
  double contact_stress = 0;    ///< sigma_H = Z_E Z_rho sqrt(T2 / a^3), Pa
};
/// @param wheel_torque  N m, > 0;  @param worm_speed  rad/s, > 0
/// Allowable force on the wheel (lbf, inches): C_s D^0.8 F_e C_m C_v; C_s = 720 + 10.37 C^3 for C <= 3 in (720 meets
/// the 1000 beyond), chilled-cast bronze 1411.7 - 456 lg D above (capped by 1000), C_m and C_v of AGMA 6034; all from
/// memory. Contact: Z_E 147 sqrt(MPa) (steel on bronze), Z_rho 2.9 (2.5 … 3.2); Niemann, Maschinenelemente III, from
/// memory.
[[nodiscard]] WormRating rate_worm(const WormGeometry& geometry, double wheel_torque, double worm_speed);
/// The same as steps that a screen can open.
[[nodiscard]] Working worm_working(const WormGeometry& geometry, double wheel_torque, double worm_speed);

}  // namespace lobewise::incumbent
