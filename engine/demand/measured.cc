#include "engine/demand/measured.h"

#include <cmath>

namespace lobewise::demand {

Coefficient no_load_current_share(double power_factor) {
  const double sine = std::sqrt(1 - power_factor * power_factor);
  return {0.80 * sine, 0.65 * sine, 0.95 * sine,
          "derived from the circle diagram; share of the reactive current common practice, no source"};
}

TorqueFromCurrent::TorqueFromCurrent(const Nameplate& motor, double no_load_share)
    : no_load_squared_(motor.current * motor.current * no_load_share * no_load_share),
      scale_(motor.torque() / std::sqrt(motor.current * motor.current - no_load_squared_)) {}

double TorqueFromCurrent::operator()(double current) const {
  const double active = current * current - no_load_squared_;
  return active > 0 ? scale_ * std::sqrt(active) : 0;
}

TorqueFromPower::TorqueFromPower(const Nameplate& motor, double fixed_loss_share)
    : rated_power_(motor.power), rated_torque_(motor.torque()) {
  const double losses = motor.power * (1 / motor.efficiency - 1);
  fixed_ = fixed_loss_share * losses;
  variable_ = (1 - fixed_loss_share) * losses;
}

double TorqueFromPower::operator()(double power) const {
  // variable t^2 + rated t + (fixed - power) = 0, the root that goes to (power - fixed) / rated when variable goes to
  // 0.
  const double c = fixed_ - power;
  const double discriminant =
      std::fmax(0.0, rated_power_ * rated_power_ - 4 * variable_ * c);  // below: no torque gives so much back
  return rated_torque_ * (-2 * c) / (rated_power_ + std::sqrt(discriminant));
}

}  // namespace lobewise::demand
