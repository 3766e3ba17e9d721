#include "engine/drive/runs_today.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/motor_choice.h"

namespace lobewise::drive {
namespace {

/// Poles of a motor that turns about so fast.
int poles_at(double speed, double frequency) {
  constexpr int kPoles[] = {2, 4, 6, 8};
  const auto slip = [&](int poles) { return 1 - speed / (2 * kPi * frequency / (poles / 2.0)); };
  for (int poles : {8, 6, 4, 2})
    if (slip(poles) > 0 && slip(poles) < 0.2) return poles;
  return kPoles[1];
}

}  // namespace

std::optional<RunsToday> runs_today(const enquiry::Requirement& requirement) {
  if (!requirement.incumbent) return std::nullopt;
  const enquiry::Incumbent& unit = *requirement.incumbent;
  if (!unit.runs_now.value_or(true)) return std::nullopt;
  const std::optional<double> power = unit.motor_power   ? unit.motor_power
                                      : unit.rated_power ? unit.rated_power
                                                         : requirement.motor_power;
  if (!power) return std::nullopt;
  // Behind a belt the unit's input turns more slowly than the motor.
  const std::optional<double> speed = requirement.motor_speed ? requirement.motor_speed
                                      : unit.belt_ratio       ? std::nullopt
                                                              : unit.input_speed;
  const int poles = speed ? poles_at(*speed, requirement.frequency) : requirement.poles.value_or(4);
  const Result<Motor> motor = drive::motor(*power, requirement.frequency, poles, MotorClass::ie3, std::nullopt);
  if (!motor) return std::nullopt;
  const bool worm = unit.kind == incumbent::UnitKind::worm;
  RunsToday today;
  today.motor_power = *power;
  today.motor_speed = motor->rated_speed;
  today.motor_torque = least_start_torque(*motor, requirement.starting, kTypicalStartTorque.nominal, 1);
  today.passes = unit.efficiency.value_or(worm ? kWormPassesAtRest : kGearsPass);
  today.torque = kRelayTrips * *power * unit.efficiency.value_or(worm ? kWormPasses : kGearsPass) / requirement.speed;
  return today;
}

void bound(enquiry::Requirement& requirement, const RunsToday& today, double start) {
  demand::Figure& torque = requirement.demand.torque;
  torque.high = std::max(torque.value, std::min(torque.high, today.torque));
  demand::Figure& starting = requirement.demand.starting_torque;
  if (!(starting.low < starting.value || starting.high > starting.value)) return;
  const double most = std::max(start, torque.value);
  starting.value = std::min(starting.value, most);
  starting.high = std::min(starting.high, most);
  starting.low = std::min(starting.low, starting.value);
}

}  // namespace lobewise::drive
