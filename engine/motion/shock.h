#pragma once
// Closed forms of shock in a driven chain: jam, start through play, load drop. All at the OUTPUT shaft: inertia of the
// fast side J = J_motor i^2, stiffness and play at the output. Source of all: derived, docs/theory/motion.md.
// Checked by: tests/unit/motion/shock_test.cc and, against the simulator, tests/unit/motion/simulate_test.cc.

namespace lobewise::motion {

/// What the motor does while the output is jammed.
enum class JamDrive {
  constant,  ///< chain wound by T0, motor keeps pulling T0: T0 + w sqrt(k J)
  off,       ///< chain wound by T0, motor off at the jam: sqrt(T0^2 + k J w^2)
  unwound,   ///< chain slack at the jam, motor pulls T0: T0 + sqrt(T0^2 + k J w^2)
};
/// Peak torque of a jam that stops the output at once; nothing slips, nothing yields.
/// @param speed           w of the output >= 0 [rad/s]
/// @param stiffness       k > 0 [N m/rad]
/// @param inertia         J of the near (motor) side > 0 [kg m2]
/// @param initial_torque  T0 >= 0 [N m]
[[nodiscard]] double jam_linear(double speed, double stiffness, double inertia, double initial_torque, JamDrive drive);

/// Peak torque of a jam of a damped chain without drive: k w/w_n exp(-z acos(z)/sqrt(1 - z^2)), w_n = sqrt(k/J),
/// z = c/(2 sqrt(k J)); z >= 1 by continuation. The torque of the spring, without that of the damper.
/// @param damping  c >= 0 [N m s/rad]
[[nodiscard]] double damped_jam(double speed, double stiffness, double inertia, double damping);

struct Impact {
  double impact_speed = 0;  ///< relative speed at which the flanks meet [rad/s]
  double peak_torque = 0;   ///< [N m]
};
/// Jam with open flanks: the drive closes the play g first, w'^2 = w^2 + 2 T0 g/J, then T0 + sqrt(T0^2 + k J w'^2).
/// @param play          g, free angle to the driving flank >= 0 [rad]
/// @param drive_torque  T0 >= 0 [N m]
[[nodiscard]] Impact jam_after_play(double speed, double stiffness, double inertia, double play, double drive_torque);

/// Jam against a hardening chain T = k x + k3 x^3 without drive: x^2 = (-k + sqrt(k^2 + 4 k3 E))/k3, E = J w^2/2.
/// @param linear  k > 0 [N m/rad]  @param cubic  k3 >= 0 [N m/rad3]
[[nodiscard]] double jam_hardening(double speed, double inertia, double linear, double cubic);

/// Jam that brings the output to rest with constant deceleration within the angle a, chain wound by T0, motor keeps T0,
/// t_j = 2 a/w: peak T0 + 2 J w/t_j for w_n t_j >= pi, else T0 + 2 J w/t_j sin(w_n t_j/2); a = 0: jam_linear.
/// For long stops T0 + J w^2/a, whatever the stiffness.
/// @param angle  a >= 0 [rad]
[[nodiscard]] double jam_within_angle(double speed, double stiffness, double inertia, double angle,
                                      double initial_torque);

/// Natural frequency of two inertias on one spring, sqrt(k (1/J1 + 1/J2)) [rad/s].
[[nodiscard]] double natural_frequency(double stiffness, double inertia_1, double inertia_2);

struct StepResponse {
  double mean_torque = 0;  ///< T J2/(J1 + J2) [N m]
  double peak_torque = 0;  ///< twice that, undamped [N m]
};
/// Torque T suddenly on inertia 1 of two free inertias, chain without play.
[[nodiscard]] StepResponse step_torque(double torque, double inertia_1, double inertia_2);

/// The same through a free angle g: w1^2 = 2 T g/J1, peak m + sqrt(m^2 + k J_r w1^2), m the mean torque,
/// J_r = J1 J2/(J1 + J2).
[[nodiscard]] Impact start_through_play(double torque, double inertia_1, double inertia_2, double stiffness,
                                        double play);

struct LoadDrop {
  double mean_torque = 0;     ///< T J2/(J1 + J2) [N m]
  double minimum_torque = 0;  ///< T (J2 - J1)/(J1 + J2); below zero the flanks change [N m]
};
/// Load torque T on inertia 2 vanishes while the drive keeps T on inertia 1: the chain swings between T and the
/// minimum.
[[nodiscard]] LoadDrop load_drop(double torque, double inertia_1, double inertia_2);

}  // namespace lobewise::motion
