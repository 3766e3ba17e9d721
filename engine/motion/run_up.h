#pragma once
// How long a start or a stop takes when everything turns as one body.
#include "engine/base/result.h"
#include "engine/motion/motor_curve.h"

namespace lobewise::motion {

/// Run-up from rest of a pure Kloss motor without load, to slip s2:
///   t = J w_s / (2 T_b) [ (1 - s2^2)/(2 s_b) + s_b ln(1/s2) ]
/// @param inertia            J, all at the motor shaft [kg m2]
/// @param synchronous_speed  w_s [rad/s]
/// @param breakdown_torque, breakdown_slip  T_b [N m], s_b > 0
/// @param slip_end           s2, 0 < s2 <= 1
/// Source: derived (integral of J w_s ds / T). Checked by: tests/reference/motion/motor_test.cc.
[[nodiscard]] double kloss_run_up_time(double inertia, double synchronous_speed, double breakdown_torque,
                                       double breakdown_slip, double slip_end);

/// Load torque at the motor shaft that follows the speed: torque (w / reference_speed)^exponent.
struct SpeedLoad {
  double torque = 0;           ///< at the reference speed [N m]
  double reference_speed = 0;  ///< > 0 [rad/s]
  double exponent = 0;         ///< >= 0: 0 lifting or friction, 2 fan or centrifugal pump
};

struct RunUp {
  double time = 0;        ///< [s]
  double rotor_heat = 0;  ///< slip energy, integral of T_m (w_s - w) dt, left in the rotor [J]
};
/// Run-up from rest as one rigid body on the full curve: t = integral of J dw / (T_m - T_L); heat alike.
/// Adaptive Gauss-Kronrod, relative error about 1e-10.
/// @param inertia        J, all at the motor shaft > 0 [kg m2]
/// @param final_speed    > 0, below the speed at which motor and load balance [rad/s]
/// @param torque_factor  on the motor torque: U^2 at reduced voltage, 1/3 in star
/// Errors: model error `motor` when the torque does not exceed the load somewhere on the way (it sticks there).
/// Checked by: tests/unit/motion/run_up_test.cc (closed form of Kloss, and the simulator).
[[nodiscard]] Result<RunUp> run_up(double inertia, const MotorCurve& motor, const SpeedLoad& load, double final_speed,
                                   double torque_factor = 1);

struct BrakeStop {
  double time = 0;   ///< J w / (T_B + T_L) [s]
  double angle = 0;  ///< w t / 2 [rad]
  double heat = 0;   ///< in the brake, T_B w t / 2 [J]
};
/// Stop under constant braking. Not a statement that a brake holds: hoisting codes decide on brakes.
/// @param inertia, speed  J [kg m2], w >= 0 [rad/s], at the shaft of the brake
/// @param brake_torque    T_B [N m]
/// @param load_torque     T_L, positive when it helps to stop; T_B + T_L > 0 [N m]
[[nodiscard]] BrakeStop brake_stop(double inertia, double speed, double brake_torque, double load_torque);

}  // namespace lobewise::motion
