#include "engine/drive/job_motor.h"

#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/drive.h"

namespace lobewise::drive {
namespace {

/// Full-load speed over synchronous speed, at least: larger slip no motor of the tables has.
constexpr double kLeastOfSynchronous = 0.8;

MotorClass motor_class(enquiry::EfficiencyClass wanted) { return static_cast<MotorClass>(static_cast<int>(wanted)); }

Result<Motor> power_with(const enquiry::Requirement& requirement, const Build& build, int poles,
                         FunctionRef<bool(const Motor&)> starts) {
  if (requirement.motor_power)
    return motor(*requirement.motor_power, requirement.frequency, poles, motor_class(requirement.motor_class),
                 requirement.motor_speed);
  const double shaft_power = requirement.torque * requirement.speed / guessed_efficiency(build);
  return smallest_motor(shaft_power, starts, requirement.frequency, poles, motor_class(requirement.motor_class),
                        requirement.ambient_high, requirement.altitude);
}

JobMotor by_guess(const enquiry::Requirement& requirement, const Build& build, int poles) {
  const double needed =
      kSpareStartTorque * requirement.demand.starting_torque.value / build.ratio() / guessed_efficiency(build);
  return motor_with(requirement, build, poles, [&](const Motor& candidate) {
    return least_start_torque(candidate, requirement.starting, kTypicalStartTorque.nominal, 1) >= needed;
  });
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

JobMotor motor_with(const enquiry::Requirement& requirement, const Build& build, int poles,
                    FunctionRef<bool(const Motor&)> starts) {
  Result<Motor> motor = power_with(requirement, build, poles, starts);
  const std::optional<double> rated = motor ? std::optional(motor->rated_speed) : std::nullopt;
  const Speeds speeds = speeds_with(requirement, build.ratio(), poles, rated);
  return {poles, std::move(motor), speeds.input, speeds.error};
}

JobMotor motor_for(const enquiry::Requirement& requirement, const Build& build) {
  if (requirement.poles) return by_guess(requirement, build, *requirement.poles);
  if (requirement.motor_speed)
    if (const int poles = poles_of(*requirement.motor_speed, requirement.frequency); poles > 0)
      return by_guess(requirement, build, poles);
  // A motor is looked for only where the speed that is typical of its power comes near.
  constexpr double kTypicalSpread = 0.03;
  int nearest = kUsualPoles.front();
  double least = HUGE_VAL;
  for (const int poles : kUsualPoles) {
    const double typical = std::abs(speeds_with(requirement, build.ratio(), poles).error);
    if (typical <= requirement.speed_tolerance + kTypicalSpread) {
      JobMotor found = by_guess(requirement, build, poles);
      if (std::abs(found.error) <= requirement.speed_tolerance) return found;
    }
    if (typical < least) {
      least = typical;
      nearest = poles;
    }
  }
  return by_guess(requirement, build, nearest);
}

}  // namespace lobewise::drive
