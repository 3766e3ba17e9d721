#include "engine/drive/drive.h"

#include <cmath>

#include "engine/base/constants.h"
#include "engine/motion/simulate.h"
#include "engine/range/bearing.h"

namespace lobewise::drive {
namespace {

MotorClass motor_class(enquiry::EfficiencyClass wanted) { return static_cast<MotorClass>(static_cast<int>(wanted)); }

/// A cautious guess of the efficiency, only to choose the motor; the losses decide afterwards whether it suffices.
double guessed_efficiency(const Build& build) { return build.stages.size() == 1 ? 0.88 : 0.80; }

}  // namespace

double start_share(enquiry::Starting starting) {
  switch (starting) {
    case enquiry::Starting::star_delta:
      return motion::kStarFactor.nominal;
    case enquiry::Starting::soft_starter:  // its ramp ends at full voltage
    case enquiry::Starting::direct:
    case enquiry::Starting::inverter:
      break;
  }
  return 1;
}

double motor_speed_for(const enquiry::Requirement& requirement, double shaft_power) {
  if (requirement.motor_speed) return *requirement.motor_speed;
  return typical_speed(requirement.motor_power.value_or(shaft_power), requirement.frequency, requirement.poles)
      .value_or(2 * kPi * requirement.frequency / (requirement.poles / 2.0));
}

Running Drive::running(const enquiry::Block& block, const Coefficients& c) const {
  const range::OutputShaft& shaft = build.frame().output;
  Running now;
  now.torque = block.torque * c.torque_factor;
  now.speed = block.speed * (1 + speed_error);
  // The radial load of a chain, belt or pinion grows with the torque it passes on.
  const double radial = radial_force * (requirement.torque > 0 ? now.torque / requirement.torque : 1);
  now.radial_inside = std::abs(radial * radial_position / shaft.span);
  now.radial_outside = std::abs(radial * (shaft.span + radial_position) / shaft.span);
  now.axial = requirement.axial_force;
  return now;
}

Result<Drive> assemble(const enquiry::Requirement& requirement, const Build& build, const TableSource& tables) {
  Drive drive;
  drive.requirement = requirement;
  drive.build = build;
  Errors errors;
  const auto take = [&](const range::Bearing& bearing, const char* path, strength::RollingBearing& into) {
    const Result<strength::RollingBearing> rated = range::rolling_bearing(bearing, path);
    if (rated)
      into = *rated;
    else
      errors.insert(errors.end(), rated.errors().begin(), rated.errors().end());
  };
  const range::OutputShaft& shaft = build.frame().output;
  take(shaft.bearing_inside, "output.bearing_inside", drive.output_inside);
  take(shaft.bearing_outside, "output.bearing_outside", drive.output_outside);
  double torque = requirement.torque;
  drive.tables.resize(build.stages.size());
  for (std::size_t i = build.stages.size(); i-- > 0;) {
    const range::Stage& stage = *build.stages[i].stage;
    StageBearings bearings;
    take(stage.eccentric_bearing, "stage.eccentric_bearing", bearings.eccentric);
    take(stage.input_bearing, "stage.input_bearing", bearings.input);
    drive.bearings.insert(drive.bearings.begin(), bearings);
    Result<std::shared_ptr<const StageTable>> table = tables(stage, table_torque(torque));
    if (table)
      drive.tables[i] = std::move(*table);
    else
      errors.insert(errors.end(), table.errors().begin(), table.errors().end());
    torque /= stage.geometry.lobes * guessed_efficiency(build);
  }
  const Result<Oil> oil =
      oil_of(build.frame().lubricants.empty() ? range::Lubricant{} : build.frame().lubricants.front());
  if (!oil) errors.insert(errors.end(), oil.errors().begin(), oil.errors().end());
  if (!errors.empty()) return errors;
  drive.oil = *oil;

  const double shaft_power = requirement.torque * requirement.speed / guessed_efficiency(build);
  const double start_torque =
      kSpareStartTorque * requirement.demand.starting_torque.value / build.ratio() / guessed_efficiency(build);
  const Result<Motor> motor =
      requirement.motor_power
          ? drive::motor(*requirement.motor_power, requirement.frequency, requirement.poles,
                         motor_class(requirement.motor_class), requirement.motor_speed)
          : smallest_motor(shaft_power, start_torque, start_share(requirement.starting), requirement.frequency,
                           requirement.poles, motor_class(requirement.motor_class), requirement.ambient_high,
                           requirement.altitude);
  if (motor)
    drive.motor = *motor;
  else
    drive.motor_errors = motor.errors();
  const double at_mains = motor ? motor->rated_speed : motor_speed_for(requirement, shaft_power);
  // An inverter turns the motor to the speed asked for, within its range.
  const double wanted = requirement.speed * build.ratio();
  const double low = at_mains * requirement.inverter_low / requirement.frequency;
  const double high = at_mains * requirement.inverter_high / requirement.frequency;
  drive.input_speed =
      requirement.inverter_low < requirement.inverter_high ? std::min(std::max(wanted, low), high) : at_mains;
  drive.output_speed = drive.input_speed / build.ratio();
  drive.speed_error = drive.output_speed / requirement.speed - 1;

  drive.radial_force = requirement.radial_force;
  const double position = requirement.position >= 0 ? requirement.position : shaft.length / 2;
  drive.radial_position = shaft.overhang + position;
  return drive;
}

}  // namespace lobewise::drive
