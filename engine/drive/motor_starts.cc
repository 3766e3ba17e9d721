#include "engine/drive/motor_starts.h"

#include <algorithm>

#include "engine/drive/shocks.h"

namespace lobewise::drive {
namespace {

/// Losses of the motor at a share of its rating [W].
double motor_loss(const Motor& motor, double share) {
  const double rated = motor.rated_power * (1 / motor.efficiency - 1);
  return rated * (kFixedLossShare + (1 - kFixedLossShare) * share * share);
}

/// Averaged over the blocks of the duty and over the rests of an intermittent one [W].
double running_heat(const Drive& drive, const RunningLosses& full, const Coefficients& c) {
  double heat = 0;
  for (const enquiry::Block& block : drive.requirement.duty) {
    const Running now = drive.running(block, c);
    const double power = now.torque * now.speed / full.efficiency();
    heat += block.time_share * motor_loss(*drive.motor, power / drive.motor->rated_power);
  }
  const auto& cycle = drive.requirement.intermittent;
  return cycle ? heat * cycle->first / (cycle->first + cycle->second) : heat;
}

}  // namespace

MotorStarts motor_starts(const Drive& drive, const RunningLosses& full, const Coefficients& c) {
  const Motor& motor = *drive.motor;
  const double ratio = drive.build.ratio();
  const Torsion torsion = torsion_of(drive, c);
  MotorStarts out;
  out.motor_inertia = torsion.motor_inertia / (ratio * ratio);
  out.load_inertia = torsion.load_inertia / (ratio * ratio);
  out.load_torque = full.input_torque;
  out.shed = motor_loss(motor, derating(drive.requirement.ambient_high, drive.requirement.altitude));
  out.running = running_heat(drive, full, c);
  if (drive.requirement.starting == enquiry::Starting::inverter) {
    const double time = starting_method(drive.requirement.starting).ramp_time;
    out.motor_torque = out.load_torque + (out.motor_inertia + out.load_inertia) * drive.input_speed / time;
    out.heat = motor_loss(motor, out.motor_torque / motor.rated_torque) * time;
  } else {
    const bool star = drive.requirement.starting == enquiry::Starting::star_delta;
    const double mean = (motor.locked_rotor + motor.pull_up + motor.breakdown) / 3;
    out.motor_torque = (star ? motion::kStarFactor.nominal : 1) * mean * c.motor_torque_factor * c.voltage_factor *
                       c.voltage_factor * motor.rated_torque;
    out.to_spare = std::max(kLeastToSpare, 1 - out.load_torque / out.motor_torque);
    out.heat =
        heat_of_start(kStatorHeat.nominal, out.motor_inertia, out.load_inertia, motor.synchronous_speed, out.to_spare);
    out.bare = 3600 * kCoolingAtStarts.nominal * out.shed /
               heat_of_start(kStatorHeat.nominal, out.motor_inertia, 0.0, motor.synchronous_speed, 1.0);
  }
  const double left = std::max(0.0, out.shed - out.running);
  out.permissible = 3600 * kCoolingAtStarts.nominal * left / out.heat;
  out.load = (out.running + drive.requirement.starts_per_hour / 3600 * out.heat / kCoolingAtStarts.nominal) / out.shed;
  return out;
}

}  // namespace lobewise::drive
