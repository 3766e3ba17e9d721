#include "engine/drive/job_motor.h"

#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/drive.h"

namespace lobewise::drive {
namespace {

/// Full-load speed over synchronous speed, at least: larger slip no motor of the tables has.
constexpr double kLeastOfSynchronous = 0.8;

MotorClass motor_class(enquiry::EfficiencyClass wanted) { return static_cast<MotorClass>(static_cast<int>(wanted)); }

Result<Motor> motor_with(const enquiry::Requirement& requirement, const Build& build, int poles) {
  if (requirement.motor_power)
    return motor(*requirement.motor_power, requirement.frequency, poles, motor_class(requirement.motor_class),
                 requirement.motor_speed);
  const double efficiency = guessed_efficiency(build);
  const double shaft_power = requirement.torque * requirement.speed / efficiency;
  const double start_torque = kSpareStartTorque * requirement.demand.starting_torque.value / build.ratio() / efficiency;
  return smallest_motor(shaft_power, start_torque, start_share(requirement.starting), requirement.frequency, poles,
                        motor_class(requirement.motor_class), requirement.ambient_high, requirement.altitude);
}

JobMotor with_poles(const enquiry::Requirement& requirement, const Build& build, int poles) {
  Result<Motor> motor = motor_with(requirement, build, poles);
  const std::optional<double> rated = motor ? std::optional(motor->rated_speed) : std::nullopt;
  const Speeds speeds = speeds_with(requirement, build.ratio(), poles, rated);
  return {poles, std::move(motor), speeds.input, speeds.error};
}

/// Poles of a motor that stands, by its nameplate speed; 0 when none turns a little faster without slip.
int poles_of(double rated_speed, double frequency) {
  for (const int poles : kUsualPoles) {
    const double synchronous = 2 * kPi * frequency / (poles / 2.0);
    if (rated_speed < synchronous && rated_speed > kLeastOfSynchronous * synchronous) return poles;
  }
  return 0;
}

}  // namespace

double guessed_efficiency(const Build& build) { return build.stages.size() == 1 ? 0.88 : 0.80; }

JobMotor motor_for(const enquiry::Requirement& requirement, const Build& build) {
  if (requirement.poles) return with_poles(requirement, build, *requirement.poles);
  if (requirement.motor_speed)
    if (const int poles = poles_of(*requirement.motor_speed, requirement.frequency); poles > 0)
      return with_poles(requirement, build, poles);
  // A motor is looked for only where the speed that is typical of its power comes near.
  constexpr double kTypicalSpread = 0.03;
  int nearest = kUsualPoles.front();
  double least = HUGE_VAL;
  for (const int poles : kUsualPoles) {
    const double typical = std::abs(speeds_with(requirement, build.ratio(), poles).error);
    if (typical <= requirement.speed_tolerance + kTypicalSpread) {
      JobMotor found = with_poles(requirement, build, poles);
      if (std::abs(found.error) <= requirement.speed_tolerance) return found;
    }
    if (typical < least) {
      least = typical;
      nearest = poles;
    }
  }
  return with_poles(requirement, build, nearest);
}

}  // namespace lobewise::drive
