#pragma once
// Which motor a build gets on a job: its poles, its power, and the speeds that follow.

#include <optional>

#include "engine/base/function_ref.h"
#include "engine/drive/build.h"
#include "engine/drive/motor_choice.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::drive {

/// A cautious guess of a build's efficiency, only to choose the motor; the losses decide afterwards whether it
/// suffices. 0.88 for one stage, 0.80 for two; common practice, no source.
[[nodiscard]] double guessed_efficiency(const Build& build);

struct JobMotor {
  int poles = 4;
  Result<Motor> motor;     ///< errors: why there is none
  double input_speed = 0;  ///< motor at full load, or where the inverter sets it [rad/s]
  double error = 0;        ///< of the output speed, share of the speed asked for
};

/// With poles that are settled. The power as given, else the smallest that carries the job and starts it.
/// @param starts  whether a motor does
[[nodiscard]] JobMotor motor_with(const enquiry::Requirement& requirement, const Build& build, int poles,
                                  FunctionRef<bool(const Motor&)> starts);

/// Poles as given or as a nameplate speed tells, else the first of 4, 6, 2, 8 whose motor gives the speed within its
/// tolerance, else the one that comes nearest to it. Starts are judged by the guessed efficiency, for a look at many
/// builds.
[[nodiscard]] JobMotor motor_for(const enquiry::Requirement& requirement, const Build& build);

}  // namespace lobewise::drive
