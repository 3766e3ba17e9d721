#include "engine/demand/measured.h"

#include <cmath>

namespace lobewise::demand {

Coefficient no_load_current_share(double power_factor) {
  const double sine = std::sqrt(1 - power_factor * power_factor);
  return {0.80 * sine, 0.65 * sine, 0.95 * sine,
          "derived from the circle diagram; share of the reactive current common practice, no source"};
}

TorqueFromCurrent::TorqueFromCurrent(const Nameplate& motor, double no_load_share)
    : rated_torque_(motor.torque()), rated_current_(motor.current), no_load_current_(no_load_share * motor.current) {}

double TorqueFromCurrent::operator()(double current) const {
  return torque_from_current(current, rated_torque_, rated_current_, no_load_current_);
}

TorqueFromPower::TorqueFromPower(const Nameplate& motor, double fixed_loss_share)
    : rated_power_(motor.power),
      rated_torque_(motor.torque()),
      losses_(rated_losses(motor.power, motor.efficiency)),
      fixed_share_(fixed_loss_share) {}

double TorqueFromPower::operator()(double power) const {
  return torque_from_power(power, rated_torque_, rated_power_, losses_, fixed_share_);
}

}  // namespace lobewise::demand
