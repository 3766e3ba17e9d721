#include "engine/motion/shock.h"

#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::motion {

double jam_linear(double speed, double stiffness, double inertia, double initial_torque, JamDrive drive) {
  const double swing = speed * std::sqrt(stiffness * inertia);
  switch (drive) {
    case JamDrive::constant:
      return initial_torque + swing;
    case JamDrive::off:
      return std::hypot(initial_torque, swing);
    case JamDrive::unwound:
      break;
  }
  return initial_torque + std::hypot(initial_torque, swing);
}

double damped_jam(double speed, double stiffness, double inertia, double damping) {
  const double root = std::sqrt(stiffness * inertia);
  const double z = damping / (2 * root);
  double exponent = 1;  // limit of z acos(z)/sqrt(1 - z^2) at z = 1
  if (z < 1) {
    exponent = z * std::acos(z) / std::sqrt((1 - z) * (1 + z));
  } else if (z > 1) {
    exponent = z * std::acosh(z) / std::sqrt((z - 1) * (z + 1));
  }
  return speed * root * std::exp(-exponent);
}

Impact jam_after_play(double speed, double stiffness, double inertia, double play, double drive_torque) {
  const double impact = std::sqrt(speed * speed + 2 * drive_torque * play / inertia);
  return {impact, jam_linear(impact, stiffness, inertia, drive_torque, JamDrive::unwound)};
}

double jam_hardening(double speed, double inertia, double linear, double cubic) {
  const double energy = 0.5 * inertia * speed * speed;
  // The root without cancellation, which also holds for k3 = 0.
  const double x2 = 4 * energy / (linear + std::sqrt(linear * linear + 4 * cubic * energy));
  return std::sqrt(x2) * (linear + cubic * x2);
}

double jam_within_angle(double speed, double stiffness, double inertia, double angle, double initial_torque) {
  if (angle == 0 || speed == 0) {
    return jam_linear(speed, stiffness, inertia, initial_torque, JamDrive::constant);
  }
  const double time = 2 * angle / speed;
  const double quake = 2 * inertia * speed / time;
  const double phase = time * std::sqrt(stiffness / inertia);
  return initial_torque + (phase >= kPi ? quake : quake * std::sin(0.5 * phase));
}

double natural_frequency(double stiffness, double inertia_1, double inertia_2) {
  return std::sqrt(stiffness * (1 / inertia_1 + 1 / inertia_2));
}

StepResponse step_torque(double torque, double inertia_1, double inertia_2) {
  const double mean = torque * inertia_2 / (inertia_1 + inertia_2);
  return {mean, 2 * mean};
}

Impact start_through_play(double torque, double inertia_1, double inertia_2, double stiffness, double play) {
  const double impact = std::sqrt(2 * torque * play / inertia_1);
  const double mean = step_torque(torque, inertia_1, inertia_2).mean_torque;
  const double reduced = inertia_1 * inertia_2 / (inertia_1 + inertia_2);
  return {impact, mean + std::hypot(mean, impact * std::sqrt(stiffness * reduced))};
}

LoadDrop load_drop(double torque, double inertia_1, double inertia_2) {
  const double sum = inertia_1 + inertia_2;
  return {torque * inertia_2 / sum, torque * (inertia_2 - inertia_1) / sum};
}

}  // namespace lobewise::motion
