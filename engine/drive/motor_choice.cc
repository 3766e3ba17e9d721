#include "engine/drive/motor_choice.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "data/motor_efficiency.h"
#include "data/motor_ratings.h"
#include "data/motor_torque_minima.h"
#include "engine/base/constants.h"
#include "engine/motion/simulate.h"

namespace lobewise::drive {
namespace {

constexpr double kPullUpShare = 0.7;  // of locked rotor, where the table holds none

double synchronous_speed(double frequency, int poles) { return 2 * kPi * frequency / (poles / 2.0); }

const data::MotorRatingsRow* rating_row(double rated_power, double frequency) {
  const data::MotorRatingsRow* best = nullptr;
  for (const data::MotorRatingsRow& row : data::kMotorRatings) {
    if (row.freq_hz != frequency) continue;
    const auto distance = [&](const data::MotorRatingsRow& r) {
      return std::abs(std::log(r.rated_kw * 1e3 / rated_power));
    };
    if (best == nullptr || distance(row) < distance(*best)) best = &row;
  }
  return best;
}

/// Per-unit torque as the table writes it: a number, or a range `2.4-2.6` of which the low end counts.
double first_number(std::string_view text) { return std::strtod(std::string(text).c_str(), nullptr); }

struct TorqueMinima {
  double locked_rotor, pull_up, breakdown;
  std::string source;
};

std::optional<TorqueMinima> torque_minima(double rated_power, double frequency, int poles) {
  const std::string_view design = frequency == 50 ? "IEC design N" : "NEMA design A/B";
  const data::MotorTorqueMinimaRow* best = nullptr;
  double best_distance = 0;
  for (const data::MotorTorqueMinimaRow& row : data::kMotorTorqueMinima) {
    if (row.design != design || row.poles != poles || !(row.power_to || row.power_from)) continue;
    const double unit = row.power_unit == "hp" ? 745.69987158 : 1e3;
    const double from = row.power_from.value_or(row.power_to.value_or(0)) * unit,
                 to = row.power_to.value_or(row.power_from.value_or(0)) * unit;
    const double distance = rated_power > to     ? std::log(rated_power / to)
                            : rated_power < from ? std::log(from / rated_power)
                                                 : 0.0;
    if (best == nullptr || distance < best_distance) {
      best = &row;
      best_distance = distance;
    }
  }
  if (best == nullptr) return std::nullopt;
  const double locked_rotor = first_number(best->locked_rotor_pu);
  return TorqueMinima{locked_rotor, best->pull_up_pu.value_or(kPullUpShare * locked_rotor),
                      first_number(best->breakdown_pu),
                      fmt::format("[motor_tables] {}; {}{}", best->source, best->status,
                                  best->pull_up_pu ? "" : "; pull-up 0.7 of locked rotor, common practice, no source")};
}

std::optional<std::pair<double, std::string>> rated_efficiency(double rated_power, double frequency, int poles,
                                                               MotorClass wanted) {
  std::string_view name;
  if (frequency == 50) {
    constexpr std::string_view kNames[] = {"IE1", "IE2", "IE3", "IE4"};
    name = kNames[static_cast<int>(wanted)];
  } else {
    name = wanted >= MotorClass::ie3 ? "NEMA Premium" : "US energy-efficient (EPAct)";
  }
  const data::MotorEfficiencyRow* best = nullptr;
  const auto distance = [&](const data::MotorEfficiencyRow& row) {
    return std::abs(std::log(row.rated_kw * 1e3 / rated_power));
  };
  for (const data::MotorEfficiencyRow& row : data::kMotorEfficiency) {
    if (row.class_ != name || row.freq_hz != frequency || row.poles != poles || row.enclosure == "open") continue;
    if (best == nullptr || distance(row) < distance(*best)) best = &row;
  }
  if (best == nullptr) return std::nullopt;
  return std::pair{best->eff_nominal_pct / 100,
                   fmt::format("[motor_tables] {} ({}); {}", best->legal_table, best->class_, best->status)};
}

std::string frame_of(const data::MotorRatingsRow& row, int poles) {
  const std::string_view frame = poles == 2   ? row.frame_2p
                                 : poles == 4 ? row.frame_4p
                                 : poles == 6 ? row.frame_6p
                                              : row.frame_8p;
  return std::string(frame);
}

}  // namespace

double typical_inertia(double rated_power, int poles) {
  const double by_poles = poles == 2 ? 0.5 : poles == 4 ? 1.0 : poles == 6 ? 1.6 : 2.2;
  return 0.0022 * std::pow(rated_power / 1e3, 1.35) * by_poles;
}

Coefficient typical_length(const Motor& motor) {
  int millimetres = 0;
  const std::from_chars_result read =
      std::from_chars(motor.frame.data(), motor.frame.data() + motor.frame.size(), millimetres);
  if (read.ec == std::errc() && motor.frequency == 50) {
    const double height = millimetres * 1e-3;
    return {kMotorLengthOverHeight.nominal * height, kMotorLengthOverHeight.low * height,
            kMotorLengthOverHeight.high * height, kMotorLengthOverHeight.source};
  }
  const double length = 0.24 * std::pow(motor.rated_power / 1000, 0.33);
  return {length, 0.85 * length, 1.2 * length, "common practice, no source: motor length by its power"};
}

Coefficient typical_mass(double rated_power) {
  const double mass = 14 * std::pow(rated_power / 1000, 0.85);
  return {mass, 0.75 * mass, 1.3 * mass, "common practice, no source: motor mass by its power"};
}

std::optional<double> typical_speed(double rated_power, double frequency, int poles) {
  const data::MotorRatingsRow* row = rating_row(rated_power, frequency);
  if (row == nullptr || !row->typical_full_load_rpm_4pole) return std::nullopt;
  const double four_pole = synchronous_speed(frequency, 4);
  const double slip = 1 - *row->typical_full_load_rpm_4pole * 2 * kPi / 60 / four_pole;
  return synchronous_speed(frequency, poles) * (1 - slip);
}

double derating(double ambient_temperature, double altitude) {
  return derating_of<double>(ambient_temperature, altitude);
}

std::vector<double> ratings(double frequency) {
  std::vector<double> list;
  for (const data::MotorRatingsRow& row : data::kMotorRatings)
    if (row.freq_hz == frequency && row.typical_full_load_rpm_4pole) list.push_back(row.rated_kw * 1e3);
  std::sort(list.begin(), list.end());
  return list;
}

Result<Motor> motor(double rated_power, double frequency, int poles, MotorClass efficiency_class,
                    std::optional<double> rated_speed) {
  if (frequency != 50 && frequency != 60)
    return input_error("supply.frequency", format_quantity(frequency, Quantity::frequency, UnitSystem::si),
                       "50 Hz or 60 Hz");
  if (poles != 2 && poles != 4 && poles != 6 && poles != 8)
    return input_error("supply.poles", fmt::format("{}", poles), "2, 4, 6 or 8 poles");
  const std::vector<double> known = ratings(frequency);
  if (rated_power < 0.9 * known.front() || rated_power > 1.1 * known.back())
    return input_error("supply.motor_power", format_quantity(rated_power, Quantity::power, UnitSystem::si),
                       fmt::format("the motor tables reach from {} to {}",
                                   format_quantity(known.front(), Quantity::power, UnitSystem::si),
                                   format_quantity(known.back(), Quantity::power, UnitSystem::si)));
  Motor m;
  m.rated_power = rated_power;
  m.frequency = frequency;
  m.poles = poles;
  m.synchronous_speed = synchronous_speed(frequency, poles);
  m.rated_speed = rated_speed ? *rated_speed : *typical_speed(rated_power, frequency, poles);
  if (m.rated_speed >= m.synchronous_speed || m.rated_speed < 0.8 * m.synchronous_speed)
    return input_error("supply.motor_speed", format_quantity(m.rated_speed, Quantity::angular_speed, UnitSystem::si),
                       fmt::format("a {}-pole motor at {} Hz runs a little below {}", poles, frequency,
                                   format_quantity(m.synchronous_speed, Quantity::angular_speed, UnitSystem::si)));
  m.rated_torque = rated_power / m.rated_speed;
  const auto torques = torque_minima(rated_power, frequency, poles);
  const auto efficiency = rated_efficiency(rated_power, frequency, poles, efficiency_class);
  if (!torques || !efficiency)
    return input_error("supply", fmt::format("{} poles at {} Hz", poles, frequency),
                       "the motor tables hold no such motor");
  m.locked_rotor = torques->locked_rotor;
  m.pull_up = torques->pull_up;
  m.breakdown = torques->breakdown;
  m.torque_source = torques->source;
  m.efficiency = efficiency->first;
  m.efficiency_source = efficiency->second;
  m.inertia = typical_inertia(rated_power, poles);
  m.frame = frame_of(*rating_row(rated_power, frequency), poles);
  return m;
}

double least_start_torque(const Motor& motor, enquiry::Starting starting, double torque_factor, double voltage_factor) {
  const double rated = torque_factor * motor.rated_torque;
  const double at_mains = rated * std::min(motor.locked_rotor, motor.pull_up) * voltage_factor * voltage_factor;
  switch (starting) {
    case enquiry::Starting::star_delta:
      return motion::kStarFactor.nominal * at_mains;
    case enquiry::Starting::inverter:
      return std::min(motion::kInverterTorqueLimit.nominal * motor.rated_torque, rated * motor.breakdown);
    case enquiry::Starting::direct:
    case enquiry::Starting::soft_starter:
      break;
  }
  return at_mains;
}

double typical_power_factor(int poles) { return poles == 2 ? 0.88 : poles == 4 ? 0.83 : poles == 6 ? 0.78 : 0.74; }

double rated_current(const Motor& motor, double voltage) {
  return motor.rated_power / (std::sqrt(3.0) * voltage * motor.efficiency * typical_power_factor(motor.poles));
}

double usual_voltage(double frequency) { return frequency == 60 ? 460 : 400; }

Result<Motor> smallest_motor(double shaft_power, FunctionRef<bool(const Motor&)> starts, double frequency, int poles,
                             MotorClass efficiency_class, double ambient_temperature, double altitude) {
  const double left = derating(ambient_temperature, altitude);
  const std::vector<double> known = ratings(frequency);
  if (known.empty())
    return input_error("supply.frequency", format_quantity(frequency, Quantity::frequency, UnitSystem::si),
                       "50 Hz or 60 Hz");
  for (double rating : known) {
    if (rating * left < shaft_power) continue;
    Result<Motor> found = motor(rating, frequency, poles, efficiency_class, std::nullopt);
    if (!found || starts(*found)) return found;
  }
  return model_error("supply.motor_power", format_quantity(shaft_power, Quantity::power, UnitSystem::si),
                     fmt::format("the motor tables end at {}, of which {} is left at this temperature and altitude",
                                 format_quantity(known.back(), Quantity::power, UnitSystem::si),
                                 format_quantity(left, Quantity::share, UnitSystem::si)));
}

double part_load_efficiency(const Motor& motor, double load_share) {
  return part_load_efficiency_of<double>(load_share, motor.efficiency, kFixedLossShare);
}

}  // namespace lobewise::drive
