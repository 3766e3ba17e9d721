#pragma once
// Strength of one involute pair: bending of the tooth root and pitting of the flank, ISO 6336-type formulas with two
// load factors of AGMA 2001. What is simplified is said beside each function; docs/theory/incumbent.md has the whole.

#include "engine/base/working.h"
#include "engine/incumbent/involute.h"

namespace lobewise::incumbent {

/// What the gears are made of.
struct GearMaterial {
  const char* name = "";
  Coefficient contact_limit;  ///< sigma_H lim, Pa, 1 % failures at the knee of the curve
  Coefficient bending_limit;  ///< sigma_FE = 2 sigma_F lim, Pa, unnotched root under pulsating load
  double modulus = 0;         ///< E, Pa
  double poisson = 0;         ///< nu
};
/// Case-carburised and ground steel, the rule in industrial units for some decades.
/// ISO 6336-5, grade MQ (low ML, high ME), from memory.
inline constexpr GearMaterial kCaseCarburised = {
    "case-carburised steel",
    {1500e6, 1300e6, 1650e6, "ISO 6336-5 grades MQ (ML, ME), from memory"},
    {922e6, 624e6, 1050e6, "ISO 6336-5 grades MQ (ML, ME), sigma_F lim 461 (312, 525) MPa, from memory"},
    206e9,
    0.3};
/// Quenched and tempered alloy steel of about 300 HV, older and larger units.
inline constexpr GearMaterial kThroughHardened = {
    "through-hardened alloy steel",
    {767e6, 650e6, 860e6, "ISO 6336-5 MQ, 1.313 HV + 373 MPa at 300 HV, from memory"},
    {628e6, 520e6, 720e6, "ISO 6336-5 MQ, sigma_F lim = 0.425 HV + 187 MPa at 300 HV, from memory"},
    206e9,
    0.3};

/// Forces on a tooth at the reference cylinder.
struct ToothForces {
  double tangential = 0;  ///< F_t = T / r, N
  double radial = 0;      ///< F_r = F_t tan alpha_n / cos beta, N
  double axial = 0;       ///< F_a = F_t tan beta, N
};
/// @param torque  N m;  @param reference_radius  m, > 0;  @param normal_angle, helix  rad. Textbook statics.
[[nodiscard]] ToothForces tooth_forces(double torque, double reference_radius, double normal_angle, double helix);

/// AGMA 2001 dynamic factor K_v = ((A + sqrt V) / A)^B, V in ft/min, B = 0.25 (12 - Q)^(2/3), A = 50 + 56 (1 - B); from
/// memory.
/// @param pitch_line_speed  v, m/s, >= 0;  @param quality  Q_v, 5 … 11 (higher is finer).  @returns >= 1
[[nodiscard]] double dynamic_factor(double pitch_line_speed, double quality);

/// AGMA 2001 load distribution factor for commercial enclosed units, pinion between bearings close by, no crowning:
/// K_m = 1 + C_pf + C_ma, C_pf = b/(10 d) - 0.0375 + 0.0125 b[in] (b > 1 in) with b/(10 d) >= 0.05,
/// b up to 0.43 m; C_ma = 0.127 + 0.0158 b - 0.93e-4 b^2 (b in inches); from memory.
/// @param face_width  b, m;  @param pinion_diameter  d, m.  @returns >= 1
[[nodiscard]] double load_distribution_factor(double face_width, double pinion_diameter);

/// Lewis bending stress K_v F_t / (b m Y); handbook formula, load at the tooth tip, no stress concentration. Shown
/// beside the root stress as the check anyone can do by hand.
[[nodiscard]] double lewis_stress(double tangential_force, double dynamic, double face_width, double module, double y);
/// Lewis form factor Y of a 20 degree full-depth tooth, load at the tip; the usual handbook table, interpolated in 1/z.
/// @param teeth  virtual teeth z / cos^3 beta, >= 12 (fewer: the value of 12).  Source: Shigley, table 14-2, from
/// memory.
[[nodiscard]] double lewis_form_factor(double teeth);

/// What one pair has to carry.
struct PairDuty {
  double pinion_torque = 0;  ///< N m, > 0
  double pinion_speed = 0;   ///< rad/s, > 0
  double service_time = 0;   ///< life asked for, s, > 0
  double quality = 8;        ///< Q_v
  double pinion_meshes = 1;  ///< load cycles of a pinion tooth per revolution (planets: several)
  double wheel_meshes = 1;
  bool pinion_reversed = false;  ///< the tooth bends both ways (planet, idler)
  bool wheel_reversed = false;
  double load_factor = 1;  ///< further factor on the load, e.g. uneven sharing between planets, >= 1
};

struct PairRating {
  ToothForces forces;
  double pitch_line_speed = 0;       ///< m/s
  double dynamic = 1;                ///< K_v
  double distribution = 1;           ///< K_m, used as K_Hbeta and K_Fbeta
  double contact_stress = 0;         ///< sigma_H, Pa
  double contact_allowable = 0;      ///< sigma_H lim Z_N, Pa
  double contact_safety = 0;         ///< S_H
  double bending_stress_pinion = 0;  ///< sigma_F, Pa
  double bending_stress_wheel = 0;
  double bending_allowable_pinion = 0;  ///< sigma_FE Y_N (x 0.7 when it bends both ways), Pa
  double bending_allowable_wheel = 0;
  double bending_safety = 0;        ///< the smaller S_F of the two
  double contact_life = 0;          ///< running time until 1 % of flanks pit, s; infinity beyond the end of the curve
  double bending_life = 0;          ///< running time until 1 % of teeth break, s; infinity beyond the end of the curve
  double static_contact_ratio = 0;  ///< the torque may rise by this factor, once, before the flank's static limit
  double static_bending_ratio = 0;  ///< … before the root's static limit
};

/// Bending and pitting of a pair.
/// sigma_H = Z_B Z_H Z_E Z_eps Z_beta sqrt(F_t/(d1 b) (u ± 1)/u K) (ISO 6336-2), sigma_F = F_t/(b m_n) Y_F Y_S Y_beta K
/// (ISO 6336-3 method B), K = K_v K_m load_factor; Z_N and Y_N for case-hardened steel (1.6 at 1e5, 1 at 5e7, 0.85 at
/// 1e10; 2.5 at 1e3, 1 at 3e6, 0.85 at 1e10). All from memory. Simplified: K_alpha, Z_L Z_V Z_R Z_W Z_X, Y_delta Y_R
/// Y_X = 1; an internal ring's root is taken as that of a gear with very many teeth. Precondition: geometry from
/// pair_geometry, duty fields inside the stated ranges.
[[nodiscard]] PairRating rate_pair(const PairGeometry& geometry, const GearMaterial& material, const PairDuty& duty);

/// The same as steps that a screen can open.
[[nodiscard]] Working rating_working(const PairGeometry& geometry, const GearMaterial& material, const PairDuty& duty);

/// Y_F and Y_S of ISO 6336-3 method B for load at the outer point of single contact; the product is the root's share.
struct RootFactors {
  double form = 0;    ///< Y_F
  double stress = 0;  ///< Y_S
};
[[nodiscard]] RootFactors root_factors(const PairGeometry& geometry, bool wheel);

}  // namespace lobewise::incumbent
