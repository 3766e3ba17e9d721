#include "engine/drive/thermal.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace lobewise::drive {
namespace {

/// Loss over the oil temperature, straight between whole kelvins and computed where it is asked for: a transient asks
/// thousands of times. Straight pieces miss a loss by about P''/8, a ten-thousandth of it.
class LossByKelvin {
 public:
  LossByKelvin(const Drive& drive, const Coefficients& c) : drive_(drive), c_(c) {}
  double operator()(double temperature) {
    const double at = std::clamp(temperature, 1.0, heat::kHottestSearched);
    const double below = std::floor(at);
    return node(below) + (at - below) * (node(below + 1) - node(below));
  }

 private:
  double node(double kelvin) {
    std::optional<double>& known = known_[static_cast<std::size_t>(kelvin)];
    if (!known) known = running_loss(drive_, kelvin, c_);
    return *known;
  }
  const Drive& drive_;
  const Coefficients& c_;
  std::array<std::optional<double>, static_cast<std::size_t>(heat::kHottestSearched) + 2> known_{};
};

/// Heat capacities: the oil with the internals it washes (a quarter of the mass), the rest is housing. Common practice,
/// no source.
constexpr double kInnerMassShare = 0.25;

/// Load of the motor over its rating; 0 without a motor.
double motor_load(const Drive& drive, double torque, double speed, const Coefficients& c) {
  constexpr double kTrain = 0.9;  // efficiency taken: the ratio is a small correction of a rise
  return drive.motor ? torque * c.torque_factor * speed / (kTrain * drive.motor->rated_power) : 0;
}

/// @param square  mean of the square of the load
/// @param share   of the time in which it runs
double loss_ratio(const Drive& drive, double square, double share) {
  return drive.motor ? share * (kFixedLossShare + (1 - kFixedLossShare) * square) : 1;
}

/// @param motor_loss  of the motor over that at its rating
heat::Housing housing_beside(const Drive& drive, double ambient, double motor_loss, const Coefficients& c) {
  const range::Housing& body = drive.build.frame().housing;
  heat::Housing housing;
  housing.diameter = body.diameter;
  housing.area = body.area * c.air_form;  // convection and radiation alike
  housing.emissivity = body.emissivity;
  housing.ambient_temperature = ambient;
  housing.air_speed = drive.requirement.air_speed * c.air_factor;
  housing.altitude = drive.requirement.altitude;
  housing.oil_conductance = body.oil_conductance * c.oil_factor;
  housing.flange_conductance = body.flange_conductance * c.flange_factor;
  housing.flange_temperature = heat::counterpart_temperature(
      ambient, heat::kMotorShare.nominal, heat::kMotorFlangeRise.nominal * c.motor_rise_factor, motor_loss);
  housing.fin_factor = std::max(1.0, body.fin_factor * c.fin_factor);
  if (drive.requirement.dusty) {
    housing.fin_factor = 1 + heat::kDustyFins * (housing.fin_factor - 1);
    housing.dust_resistance = heat::kDustLayer.nominal * c.dust_factor;
  }
  if (drive.requirement.sun)
    housing.sun_power = heat::kSunAbsorptivity.nominal * heat::kSunIrradiance.nominal * body.diameter * body.length;
  housing.oil_capacity = body.oil_volume * drive.oil.density_15 * heat::kHeatOfOil.nominal +
                         kInnerMassShare * body.mass * heat::kHeatOfSteel.nominal;
  housing.housing_capacity = (1 - kInnerMassShare) * body.mass * heat::kHeatOfSteel.nominal;
  return housing;
}

}  // namespace

heat::Housing housing_of(const Drive& drive, double ambient, const Coefficients& c) {
  return housing_beside(drive, ambient, motor_loss_ratio(drive, c), c);
}

double motor_loss_ratio(const Drive& drive, const Coefficients& c) {
  double square = 0;
  for (const enquiry::Block& block : drive.requirement.duty) {
    const double load = motor_load(drive, block.torque, block.speed, c);
    square += block.time_share * load * load;
  }
  const auto& cycle = drive.requirement.intermittent;
  const double share = cycle ? cycle->first / (cycle->first + cycle->second) : 1;
  return loss_ratio(drive, square, share);
}

double running_loss(const Drive& drive, double oil_temperature, const Coefficients& c) {
  double loss = 0;
  for (const enquiry::Block& block : drive.requirement.duty)
    loss += block.time_share *
            running_losses(drive.build, drive.tables, drive.oil, drive.running(block, c), oil_temperature, c)
                .places.total();
  return loss;
}

double mean_loss(const Drive& drive, double oil_temperature, const Coefficients& c) {
  const auto& cycle = drive.requirement.intermittent;
  const double share = cycle ? cycle->first / (cycle->first + cycle->second) : 1;
  return share * running_loss(drive, oil_temperature, c);
}

double air_at_rest(const Drive& drive) {
  return std::min(drive.requirement.air_speed, heat::kAirSpeedEnclosed.nominal);
}

std::optional<heat::PeriodicDuty> periodic(const Drive& drive, double ambient, const RunAndRest& cycle,
                                           const Coefficients& c) {
  const heat::DutyPhase phases[] = {{cycle.run, drive.requirement.air_speed * c.air_factor},
                                    {cycle.rest, air_at_rest(drive) * c.air_factor}};
  LossByKelvin running(drive, c);
  const auto loss = [&](std::size_t phase, double oil_temperature) {
    return phase == 0 ? running(oil_temperature) : 0.0;
  };
  return heat::periodic_duty(housing_of(drive, ambient, c), phases, loss);
}

double lubricant_limit(const Oil& oil) {
  if (oil.grease()) return heat::kLimitGrease;
  return oil.fill.base == range::BaseOil::mineral ? heat::kLimitOil : heat::kLimitNitrileSeal;
}

std::optional<double> hottest_surface(const Drive& drive) {
  if (!drive.requirement.explosive || !drive.requirement.site.explosive) return std::nullopt;
  return enquiry::hottest_surface(*drive.requirement.site.explosive);
}

double oil_limit(const Drive& drive) {
  const double own = lubricant_limit(drive.oil);
  const std::optional<double> hottest = hottest_surface(drive);
  return hottest ? std::min(own, *hottest - heat::kSealLip.nominal) : own;
}

std::optional<heat::SteadyState> steady(const Drive& drive, double ambient, const Coefficients& c) {
  const auto loss = [&](double oil_temperature) { return mean_loss(drive, oil_temperature, c); };
  return heat::steady_state(housing_of(drive, ambient, c), loss);
}

std::optional<heat::ThermalTorque> thermal_torque(const Drive& drive, double ambient, double torque_max,
                                                  const Coefficients& c) {
  const auto loss = [&](double torque, double oil_temperature) {
    const Running now = drive.running({1, torque, drive.requirement.speed}, c);
    return running_losses(drive.build, drive.tables, drive.oil, now, oil_temperature, c).places.total();
  };
  // Its motor runs for ever at that torque as well, and is as warm as that makes it.
  const auto housing = [&](double torque) {
    const double load = motor_load(drive, torque, drive.requirement.speed, c);
    return housing_beside(drive, ambient, loss_ratio(drive, load * load, 1), c);
  };
  return heat::thermal_torque(heat::HousingOfTorque(housing), loss, oil_limit(drive), torque_max);
}

}  // namespace lobewise::drive
