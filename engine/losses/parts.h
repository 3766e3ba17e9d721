#pragma once
// Losses of single machine parts: bearings, seals, oil drag, and the efficiency they add up to.
// Theory, validity and sources: docs/theory/losses.md. SI.
#include <span>

#include "engine/losses/coefficients.h"

namespace lobewise::losses {

/// What a bearing is to the friction model.
struct BearingDrag {
  double mean_diameter = 0;  ///< d_m [m]
  double f0 = 0;
  double f1 = 0;
};
struct BearingLoss {
  double M_0 = 0;    ///< moment of the lubricant, without load [N m]
  double M_1 = 0;    ///< moment of the load [N m]
  double power = 0;  ///< (M_0 + M_1) w [W]
};
/// Palmgren's friction; mm, N mm, mm2/s, 1/min inside: M_0 = 1e-7 f0 (nu n)^(2/3) d_m^3 for nu n >= 2000,
/// 160e-7 f0 d_m^3 below (none at rest); M_1 = f1 P_1 d_m. Overstates above nu n = 3e6 (cold oil): upper bound there.
/// @param speed  relative speed of the rings [rad/s] >= 0
/// @param nu     kinematic viscosity, of the base oil for grease [m2/s] > 0
/// @param load   P_1 [N] >= 0
/// Source: Palmgren form in public source code; M = M_0 + M_1 also in a public article
/// (doi 10.1007/s10010-023-00715-1).
[[nodiscard]] BearingLoss bearing_friction(const BearingDrag& bearing, double speed, double nu, double load);

/// Radial shaft seal, one lip; mm, 1/min, mm2/s, t in C inside:
/// P = [145 - 1.6 t + 350 lg lg(nu_40 + 0.8)] d^2 n 1e-7 [W]. The bracket falls with temperature; where it would turn
/// negative (beyond the formula's validity) the loss is 0.
/// @param speed [rad/s] >= 0, @param nu_40 > 10 mm2/s, @param temperature of the oil [K]
/// Source: form read in public source code, power of ten from memory; range kSealFactor.
[[nodiscard]] double seal_loss(double shaft_diameter, double speed, double nu_40, double temperature);

/// Torque of a seal lip from its line force: mu q pi d d/2 [N m]. Source: definition.
[[nodiscard]] double seal_torque(double shaft_diameter, double line_force, double mu);

/// Oil sheared in a gap: P = eta v^2 A phi/s [W]. Source: derived (Couette flow).
/// @param relative_speed  v of the walls [m/s], @param area A of the gap [m2], @param gap s [m], @param wetted_share
/// phi
[[nodiscard]] double gap_shear_loss(double dynamic_viscosity, double relative_speed, double area, double gap,
                                    double wetted_share);

struct ChurningLoss {
  double reynolds = 0;  ///< w r c / nu
  double torque = 0;    ///< 0.5 C_m rho w^2 S r^3 [N m]
};
/// Part turning in oil, Boness form: C_m = 20/Re below 2000, 8.6e-4 Re^(1/3) below 1e5, 5e8/Re^2 from there on.
/// @param speed [rad/s] > 0, @param radius r [m], @param chord c: immersed chord [m], @param wetted_area S [m2]
/// Source: from memory.
[[nodiscard]] ChurningLoss churning_loss(double density, double nu, double speed, double radius, double chord,
                                         double wetted_area);

struct Efficiency {
  double loss = 0;        ///< sum [W]
  double efficiency = 0;  ///< P_out / (P_out + sum)
};
/// Preconditions: output_power >= 0, losses >= 0, not both zero.
[[nodiscard]] Efficiency efficiency(double output_power, std::span<const double> losses);

}  // namespace lobewise::losses
