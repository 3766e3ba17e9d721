#pragma once
// The discs of a stage do not carry the same torque: the pins reach farther to one than to the other, and what is
// softer carries less. Theory: docs/theory/shaft.md.

#include <vector>

#include "engine/strength/shaft_pins.h"

namespace lobewise::strength {

/// Deflection under its own unit force of a pin held in the flange, at the lever of a disc [m/N].
/// Its far end held parallel by a ring at length l that gives way across the pin: a^3 (4 l - 3 a)/(12 l E I), which is
/// a^3/(12 E I) with the ring at the disc; its far end free: a^3/(3 E I).
/// @param diameter d > 0 [m]  @param lever a > 0 [m]  @param length l >= a [m], of use only with a ring
/// Source: beam tables, derived again in docs/theory/shaft.md.
[[nodiscard]] double pin_compliance_at(double diameter, double lever, double length, PinSupport support,
                                       double modulus = kShaftModulus);

/// Turn of a disc against the pins by a unit torque on it when each pin gives way by w a unit of force and the pins
/// share it as the sine of their angle: 4 w/(M R_w^2) [rad/(N m)]. Source: derived, docs/theory/shaft.md.
[[nodiscard]] double pin_turn(double compliance, int pins, double pin_circle_radius);

/// Torque of each disc over the mean of all, the discs side by side, each a row of its mesh and its pins:
/// t_d = n K_d/sum K, K_d = 1/(c_mesh + c_d).
/// @param mesh_compliance  c_mesh of one disc with its lobes [rad/(N m)] > 0
/// @param pin_compliance   c_d of each disc [rad/(N m)] >= 0
/// Source: derived.
[[nodiscard]] std::vector<double> disc_shares(double mesh_compliance, const std::vector<double>& pin_compliance);

}  // namespace lobewise::strength
