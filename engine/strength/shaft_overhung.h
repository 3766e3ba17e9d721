#pragma once
// The radial force a chain, belt or pinion may put on the shaft end, and what limits it.
#include "engine/strength/coefficients.h"
#include "engine/strength/shaft.h"

namespace lobewise::strength {

/// Radial force of an element: F = factor 2 T/d [N].
/// @param torque    T >= 0 [N m]  @param diameter d > 0, pitch diameter [m]  @param factor >= 1
[[nodiscard]] double overhung_force(double torque, double diameter, double factor);

/// Shaft, bearings and duty the allowable force follows from. Bearing A at 0, B at `span`, beside the load.
struct OverhungShaft {
  double span = 0;  ///< > 0 [m]
  double C_A = 0;   ///< dynamic ratings > 0 [N]
  double C_B = 0;
  double C0_A = 0;  ///< static ratings > 0 [N]
  double C0_B = 0;
  double life_exponent = kRollerExponent;  ///< 10/3 rollers, 3 balls
  double speed = 0;                        ///< of the shaft > 0 [rad/s]
  double hours = 0;                        ///< life asked for > 0 [h]
  double static_safety = kStaticSafetyNormal;
  double diameter_B = 0;   ///< of the shaft at B > 0 [m]
  double S_e = 0;          ///< endurance limit there [Pa]
  double S_ut = 0;         ///< tensile strength [Pa]
  double torque_mean = 0;  ///< T, steady [N m]
  double K_f = kKeywayBending.nominal;
  double K_fs = kKeywayTorsion.nominal;
  double safety = kShaftSafety.nominal;  ///< against fatigue
  double axial_force = 0;                ///< F_a >= 0, in its worst direction [N]
  double axial_radius = 0;               ///< r_a >= 0 [m]
};

enum class OverhungLimit { life_A, life_B, static_A, static_B, shaft_B };
[[nodiscard]] const char* name(OverhungLimit limit);

struct AllowableForce {
  double position = 0;  ///< x from A [m]
  double force = 0;     ///< [N]; 0 when torque or axial force alone use the limit up
  OverhungLimit limit = OverhungLimit::life_B;
};
/// Largest radial force at `position` (from A, > 0), the least of
///   life: |R| <= C/(60 n h/1e6)^(1/p) at A and B;  static: |R| <= C_0/s_0 at A and B;
///   shaft at B: 1/n = 32 K_f M_B/(pi d^3 S_e) + sqrt(3) 16 K_fs T/(pi d^3 S_ut), M_B = F (x - span) + F_a r_a
/// with R_B = (F x + F_a r_a)/span, R_A = F - R_B. A limit that no force reaches (R_A for a force at B) does not rule.
/// Source: derived. Checked by: tests/unit/strength/shaft_overhung_test.cc (every limit met exactly by its force).
[[nodiscard]] AllowableForce allowable_overhung(const OverhungShaft& shaft, double position);

}  // namespace lobewise::strength
