#pragma once
// How often a cage motor may be started: what starts leave in it as heat, beside what running leaves. Theory:
// docs/theory/cold.md, "Starts an hour".

#include "engine/base/formula/term.h"
#include "engine/drive/drive.h"
#include "engine/drive/losses_model.h"

namespace lobewise::drive {

/// Heat of stator windings over that of the cage in a start: R_s/R_r. Common practice, no source; as in
/// docs/theory/motion.md.
inline constexpr Coefficient kStatorHeat{1.0, 0.6, 1.5, "common practice, no source"};
/// What a motor with its own fan sheds while it starts and stops over what it sheds running.
inline constexpr Coefficient kCoolingAtStarts{0.5, 0.3, 0.8, "common practice, no source"};

/// Heat of one start [J]: W = (1 + R_s/R_r) (1/2) (J_M + J_X) w_s^2 / (1 - T_L/T_M). Source: slip energy of a run-up at
/// constant torques (derived, docs/theory/motion.md).
template <class X>
[[nodiscard]] X heat_of_start(const X& stator_heat, const X& motor_inertia, const X& load_inertia, const X& synchronous,
                              const X& to_spare) {
  return (X(1) + stator_heat) * (motor_inertia + load_inertia) * synchronous * synchronous / (X(2) * to_spare);
}
/// Starts an hour: Z = Z_0 K_J K_M K_P, the way the trade writes the same balance of heat:
///   Z_0 = 3600 q P_V / ((1 + R_s/R_r) J_M w_s^2 / 2)   starts of the bare motor
///   K_J = J_M / (J_M + J_X),  K_M = 1 - T_L/T_M,  K_P = 1 - P_run/P_V
template <class X>
[[nodiscard]] X permissible_starts(const X& bare, const X& inertia, const X& torque, const X& running) {
  return bare * inertia * torque * running;
}

struct MotorStarts {
  double motor_inertia = 0;  ///< J_M, own and of what turns with it, at the motor shaft [kg m2]
  double load_inertia = 0;   ///< J_X, at the motor shaft [kg m2]
  double load_torque = 0;    ///< T_L while it speeds up [N m]
  double motor_torque =
      0;                ///< T_M, mean of locked rotor, pull-up and breakdown; on an inverter what its ramp takes [N m]
  double to_spare = 1;  ///< 1 - T_L/T_M, at least kLeastToSpare
  double heat = 0;      ///< of one start [J]
  double shed = 0;      ///< P_V: losses at what is left of the rating, shed for ever [W]
  double running = 0;   ///< P_run: losses of running, averaged over the duty and its rests [W]
  double bare = 0;      ///< Z_0 [1/h]; 0 on an inverter
  double permissible = 0;  ///< Z [1/h]; 0 when running alone is too much
  /// Heat of running and of the starts asked for, over what is shed [share].
  double load = 0;
};
/// Least share of the motor's torque that is taken as left to speed up: one that has less does not start at all.
inline constexpr double kLeastToSpare = 0.02;

/// @param full  losses of the reducer at full load, for the torque while it speeds up
/// Precondition: there is a motor. On an inverter a start is its ramp with the current of that torque, W =
/// P_V,N (f + (1 - f) (T/T_N)^2) t.
[[nodiscard]] MotorStarts motor_starts(const Drive& drive, const RunningLosses& full, const Coefficients& c);

}  // namespace lobewise::drive
