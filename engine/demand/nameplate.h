#pragma once
// What a machine that nobody described can ask at most: its present drive carries it, and says on its plates what that
// is.

#include <optional>

#include "engine/demand/demand.h"

namespace lobewise::demand {

/// Plates of the drive that runs the machine today.
struct Plates {
  double power = 0;         ///< of the motor, else of the unit [W] > 0
  double input_speed = 0;   ///< of the motor [rad/s] > 0
  double output_speed = 0;  ///< of the unit's output shaft [rad/s] > 0
  bool ratio_said = false;  ///< the output speed follows from speed and ratio
  Coefficient efficiency;   ///< of the present train, motor shaft to driven shaft 0.2 … 1
};

/// Rated torque of the present drive at its output shaft, T_r = P_n eta / w_2 [N m]. Derived, statics.
template <class X>
X rated_output_torque(const X& power, const X& efficiency, const X& output_speed) {
  return power * efficiency / output_speed;
}

/// The rated torque is taken as the load, the most it can carry for hours; half of it is as usual (kLoadOfRating).
/// Start, inertia, run-back and jam as those of a measured drive of which nothing else is known. `settled_by` names the
/// measurement that makes a load of the bound. Errors: those of the measured drive.
[[nodiscard]] Result<Demand> compute(const Plates& plates);

}  // namespace lobewise::demand
