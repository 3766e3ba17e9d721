#pragma once
// The output shaft on its two bearings: reactions, stress, fatigue, slope. Theory: docs/theory/shaft.md.
#include "engine/base/result.h"
#include "engine/base/working.h"

namespace lobewise::strength {

/// Stress concentration of a keyway (sled runner or end mill, r/d about 0.02) in bending and torsion.
inline constexpr Coefficient kKeywayBending{2.14, 1.7, 2.2, "textbook keyway factor (from memory)"};
inline constexpr Coefficient kKeywayTorsion{3.0, 2.0, 3.0, "textbook keyway factor (from memory)"};
/// Sharp shoulder, fillet r/d = 0.02.
inline constexpr Coefficient kShoulderBending{2.7, 2.0, 2.7, "textbook shoulder factor (from memory)"};
inline constexpr Coefficient kShoulderTorsion{2.2, 1.6, 2.2, "textbook shoulder factor (from memory)"};
/// Safety against fatigue of a shaft.
inline constexpr Coefficient kShaftSafety{1.5, 1.3, 2.0, "common practice, no source"};
/// Young's modulus of steel [Pa].
inline constexpr double kShaftModulus = 206e9;  // from memory
/// Shear modulus of steel, E/(2 (1 + 0.3)) [Pa].
inline constexpr double kShearModulus = kShaftModulus / 2.6;

/// Torsional stiffness of a round solid shaft, G pi d^4/(32 l) [N m/rad]. Source: torsion of a round bar.
/// @param diameter, length  > 0 [m]
[[nodiscard]] double torsional_stiffness(double diameter, double length);

/// Bearing A at 0, bearing B at `span`, radial force at `position`; axial force at a radius turns the shaft as well.
struct ShaftLoad {
  double span = 0;          ///< > 0 [m]
  double position = 0;      ///< x of the radial force, from A, may lie beyond B [m]
  double radial_force = 0;  ///< F [N]
  double axial_force = 0;   ///< F_a [N]; its worst sign is the one of F x
  double axial_radius = 0;  ///< r_a [m]
};
struct Reactions {
  double at_A = 0;  ///< R_A = F - R_B, negative when it pulls the other way [N]
  double at_B = 0;  ///< R_B = (F x + F_a r_a) / span [N]
  double moment_B =
      0;  ///< bending at B, F (x - span) + F_a r_a for a force beyond B; 0 for one between the bearings [N m]
  double moment_max = 0;  ///< largest bending anywhere on the shaft [N m]
};
/// Lever law. Source: statics. Checked by: tests/unit/strength/shaft_test.cc, tests/reference/strength/shaft_test.cc.
[[nodiscard]] Reactions reactions(const ShaftLoad& load);

struct NominalStress {
  double bending = 0;  ///< 32 M / (pi d^3 (1 - (d_i/d)^4)) [Pa]
  double shear = 0;    ///< 16 T / (pi d^3 (1 - (d_i/d)^4)) [Pa]
  double axial = 0;    ///< 4 F_a / (pi (d^2 - d_i^2)) [Pa]
};
/// @param diameter d > bore d_i >= 0 [m]. Source: section moduli of round shafts.
[[nodiscard]] NominalStress nominal_stress(double bending_moment, double torque, double axial_force, double diameter,
                                           double bore);

/// sqrt(sigma^2 + 3 tau^2) of the largest values, for yielding (distortion energy) [Pa].
[[nodiscard]] double von_mises(const NominalStress& stress);

/// Endurance limit of a machined round steel shaft in rotating bending:
///   S_e = min(0.5 S_ut, 700 MPa) k_a k_b k_e,  k_a = 4.51 (S_ut/MPa)^-0.265,
///   k_b = 1.24 (d/mm)^-0.107 up to 51 mm, 1.51 (d/mm)^-0.157 above;  k_e 0.897 (90 %), 0.868 (95 %), 0.814 (99 %)
/// @param tensile_strength  S_ut 200e6..2000e6 [Pa]
/// @param diameter          2.79e-3..0.254 [m], the range of k_b
/// @param reliability       0.5, 0.9, 0.95 or 0.99: k_e is tabulated, not interpolated; 0.5 gives 1
/// Errors: outside the ranges (paths `tensile_strength`, `diameter`, `reliability`).
/// Source: Marin factors as in Shigley (surface factor read in public course material, the rest from memory).
[[nodiscard]] Result<double> endurance_limit(double tensile_strength, double diameter, double reliability = 0.9);

/// What a section carries. Rotating shaft under a standing force: M alternates, T is the mean; a reversing drive makes
/// T alternate.
struct FatigueLoad {
  double moment_amplitude = 0, moment_mean = 0;  ///< M_a, M_m [N m]
  double torque_amplitude = 0, torque_mean = 0;  ///< T_a, T_m [N m]
  double K_f = kKeywayBending.nominal;           ///< notch factor of bending
  double K_fs = kKeywayTorsion.nominal;          ///< notch factor of torsion
};
/// Distortion energy with Goodman's line: 1/n = sigma_a/S_e + sigma_m/S_ut,
///   sigma = sqrt((32 K_f M/(pi d^3))^2 + 3 (16 K_fs T/(pi d^3))^2) for amplitude and mean alike.
/// @param S_e, S_ut  [Pa] > 0; some load not zero
/// Source: Budynas/Nisbett, Shigley's Mechanical Engineering Design, shaft chapter, DE-Goodman.
/// Checked by: tests/reference/strength/shaft_test.cc.
[[nodiscard]] double goodman_safety(const FatigueLoad& load, double diameter, double S_e, double S_ut);
/// Endurance limit with which the same load would just last, n = 1: sigma_a/(1 - sigma_m/S_ut) [Pa]; infinite where the
/// mean alone reaches S_ut.
[[nodiscard]] double endurance_needed(const FatigueLoad& load, double diameter, double S_ut);
/// Bending moment amplitude that may come to the torques of `load` at a safety n > 0 [N m]; 0 when they use it up.
[[nodiscard]] double moment_for_safety(const FatigueLoad& load, double diameter, double S_e, double S_ut,
                                       double safety);
/// The same solved for the diameter at a safety n > 0 [m].
[[nodiscard]] double goodman_diameter(const FatigueLoad& load, double safety, double S_e, double S_ut);

/// Slopes of the shaft in its bearings and deflection under the force; uniform round shaft, rigid bearings.
struct Bending {
  double slope_A = 0, slope_B = 0;  ///< absolute [rad]
  double deflection = 0;            ///< under the force [m]
};
/// Force at a beyond B:        slope B = F a L/(3 E I), slope A half of it, deflection F a^2 (L + a)/(3 E I)
/// Force between, b = L - x:   slope A = F x b (L + b)/(6 E I L), slope B = F x b (L + x)/(6 E I L), F x^2 b^2/(3 E I
/// L) A moment F_a r_a at the force's place acts as well where the force lies beyond B (slopes M L/(3 E I), M L/(6 E
/// I)). Source: beam tables (derived again by the unit test's numerical integration).
[[nodiscard]] Bending shaft_bending(const ShaftLoad& load, double diameter, double bore,
                                    double modulus = kShaftModulus);

/// Slopes that bearings bear, lowest to highest of the range [rad]; Shigley, table of typical maximum ranges (from
/// memory).
inline constexpr Coefficient kSlopeCylindrical{0.0010, 0.0008, 0.0012, "Shigley, typical maximum slopes (from memory)"};

/// Equivalent dynamic load of a bearing: X F_r + Y F_a where F_a/F_r > e, else F_r [N].
/// @param radial, axial  F_r, F_a >= 0 [N]  @param X, Y, e  of the bearing
/// Source: ISO 281 (from memory).
[[nodiscard]] double bearing_equivalent(double radial, double axial, double X, double Y, double e);

}  // namespace lobewise::strength
