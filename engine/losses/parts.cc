#include "engine/losses/parts.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::losses {
namespace {

constexpr double kMm = 1e3;   // mm in a metre
constexpr double kMm2 = 1e6;  // mm2/s in a m2/s
double per_minute(double speed) { return speed * 30 / kPi; }

}  // namespace

BearingLoss bearing_friction(const BearingDrag& bearing, double speed, double nu, double load) {
  const double d = bearing.mean_diameter * kMm;
  const double flow = nu * kMm2 * per_minute(speed);
  BearingLoss loss;
  if (speed > 0) loss.M_0 = (flow < 2000 ? 160.0 : std::cbrt(flow * flow)) * 1e-7 * bearing.f0 * d * d * d * 1e-3;
  loss.M_1 = bearing.f1 * load * bearing.mean_diameter;
  loss.power = (loss.M_0 + loss.M_1) * speed;
  return loss;
}

double seal_loss(double shaft_diameter, double speed, double nu_40, double temperature) {
  const double d = shaft_diameter * kMm;
  const double bracket = 145 - 1.6 * (temperature - kZeroCelsius) + 350 * std::log10(std::log10(nu_40 * kMm2 + 0.8));
  return std::max(bracket, 0.0) * d * d * per_minute(speed) * 1e-7;
}

double seal_torque(double shaft_diameter, double line_force, double mu) {
  return mu * line_force * kPi * shaft_diameter * shaft_diameter / 2;
}

double gap_shear_loss(double dynamic_viscosity, double relative_speed, double area, double gap, double wetted_share) {
  return dynamic_viscosity * relative_speed * relative_speed * area * wetted_share / gap;
}

ChurningLoss churning_loss(double density, double nu, double speed, double radius, double chord, double wetted_area) {
  const double re = speed * radius * chord / nu;
  const double c = re < 2000 ? 20 / re : (re < 1e5 ? 8.6e-4 * std::cbrt(re) : 5e8 / (re * re));
  return {re, 0.5 * c * density * speed * speed * wetted_area * radius * radius * radius};
}

Efficiency efficiency(double output_power, std::span<const double> losses) {
  double sum = 0;
  for (const double loss : losses) sum += loss;
  return {sum, output_power / (output_power + sum)};
}

}  // namespace lobewise::losses
