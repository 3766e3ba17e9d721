#include "engine/motion/motor_curve.h"

#include <algorithm>
#include <cmath>

#include "engine/base/quantity.h"

namespace lobewise::motion {

double breakdown_slip(double rated_slip, double breakdown_ratio) {
  return rated_slip * (breakdown_ratio + std::sqrt(breakdown_ratio * breakdown_ratio - 1));
}

MotorCurve::MotorCurve(const MotorCatalogue& catalogue)
    : catalogue_(catalogue),
      breakdown_slip_(motion::breakdown_slip(1 - catalogue.rated_speed / catalogue.synchronous_speed,
                                             catalogue.breakdown_torque / catalogue.rated_torque)),
      breakdown_at_(1 - breakdown_slip_),
      pull_up_at_(catalogue.pull_up_share * breakdown_at_) {}

Result<MotorCurve> MotorCurve::from_catalogue(const MotorCatalogue& c) {
  Errors errors;
  const auto require = [&](bool holds, const char* path, double value, const char* message) {
    if (!holds) {
      errors.push_back(input_error(path, format_number(value, 6), message));
    }
  };
  const auto positive = [&](double value, const char* path) {
    require(value > 0 && std::isfinite(value), path, value, "must be greater than zero");
  };
  positive(c.synchronous_speed, "motor.synchronous_speed");
  positive(c.rated_torque, "motor.rated_torque");
  positive(c.rated_speed, "motor.rated_speed");
  positive(c.locked_rotor_torque, "motor.locked_rotor_torque");
  positive(c.pull_up_torque, "motor.pull_up_torque");
  positive(c.breakdown_torque, "motor.breakdown_torque");
  require(c.pull_up_share > 0 && c.pull_up_share < 1, "motor.pull_up_share", c.pull_up_share,
          "must lie between 0 and 1: the pull-up torque stands between rest and the breakdown speed");
  if (!errors.empty()) {
    return errors;
  }
  require(c.rated_speed < c.synchronous_speed, "motor.rated_speed", c.rated_speed,
          "must be below the synchronous speed: an induction motor pulls only with slip");
  require(c.breakdown_torque >= c.rated_torque, "motor.breakdown_torque", c.breakdown_torque,
          "must be at least the rated torque");
  require(c.breakdown_torque >= c.pull_up_torque, "motor.pull_up_torque", c.pull_up_torque,
          "must not exceed the breakdown torque");
  if (!errors.empty()) {
    return errors;
  }
  const MotorCurve curve(c);
  if (!(curve.breakdown_slip_ < 1)) {
    return input_error(
        "motor.rated_speed", format_number(c.rated_speed, 6),
        "puts the breakdown torque below zero speed: rated slip times about twice the breakdown ratio must "
        "stay below 1");
  }
  return curve;
}

double MotorCurve::torque(double speed) const {
  const double x = speed / catalogue_.synchronous_speed;
  const MotorCatalogue& c = catalogue_;
  if (x >= breakdown_at_) {
    return kloss_torque(1 - x, c.breakdown_torque, breakdown_slip_);
  }
  if (x >= pull_up_at_) {
    const double u = (x - pull_up_at_) / (breakdown_at_ - pull_up_at_);
    return c.pull_up_torque + (c.breakdown_torque - c.pull_up_torque) * u * u * (3 - 2 * u);
  }
  if (x >= 0) {
    const double u = 1 - x / pull_up_at_;
    return c.pull_up_torque + (c.locked_rotor_torque - c.pull_up_torque) * u * u;
  }
  return c.locked_rotor_torque;
}

double MotorCurve::speed_at(double torque) const {
  const double most = catalogue_.breakdown_torque;
  const double slip = breakdown_slip_ * torque / (most + std::sqrt(most * most - torque * torque));
  return (1 - slip) * catalogue_.synchronous_speed;
}

double inverter_torque(const MotorCurve& motor, double field_speed, double speed, double limit) {
  const MotorCatalogue& c = motor.catalogue();
  const double torque =
      kloss_torque((field_speed - speed) / c.synchronous_speed, c.breakdown_torque, motor.breakdown_slip());
  return std::clamp(torque, -limit, limit);
}

}  // namespace lobewise::motion
