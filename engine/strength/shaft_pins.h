#pragma once
// Bending of the output pins.
#include "engine/strength/shaft.h"

namespace lobewise::strength {

/// Largest force on an output pin, all pins and holes exact and rigid: Q_m = 4 T/(M R_w) (sine of the pin's angle).
/// The real share comes from the mesh solution. @param torque T on the disc or discs [N m] @param pins M >= 3
/// @param pin_circle_radius R_w > 0 [m]  Source: derived, docs/theory/shaft.md.
[[nodiscard]] double pin_load(double torque, int pins, double pin_circle_radius);

/// Bending stress that a hardened output pin stands, pulsating between nothing and the largest [Pa].
inline constexpr Coefficient kPinBendingLimit{300e6, 200e6, 400e6, "common practice, no source"};

/// Bending stress at which a hardened output pin begins to bend for good [Pa].
inline constexpr double kPinYield = 1500e6;  // common practice, no source

enum class PinSupport {
  cantilever,  ///< fixed in the flange, free end: M = Q a, w = Q a^3/(3 E I)
  guided,      ///< fixed in the flange, end held parallel by a ring: M = Q L/2, w = Q L^3/(12 E I)
};
struct PinBending {
  double moment = 0;      ///< [N m]
  double stress = 0;      ///< 32 M/(pi d^3) [Pa]; pulsates 0..max once per relative turn (stress ratio 0)
  double deflection = 0;  ///< at the force [m]
};
/// Real flange and ring lie between the two supports: show both.
/// @param force Q >= 0 [N]  @param diameter d > 0 [m]  @param lever a or L > 0 [m]
/// Source: beam tables.
[[nodiscard]] PinBending pin_bending(double force, double diameter, double lever, PinSupport support,
                                     double modulus = kShaftModulus);

/// Two discs half a turn apart: each pin is pushed by one disc at a time, so that the farther lever decides.
/// @param torque_per_disc [N m]  @param lever_near, lever_far from the flange to the middle of each disc [m]
[[nodiscard]] PinBending pin_two_discs(double torque_per_disc, int pins, double pin_circle_radius, double diameter,
                                       double lever_near, double lever_far);

}  // namespace lobewise::strength
