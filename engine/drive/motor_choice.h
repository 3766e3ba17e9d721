#pragma once
// A motor for the job from the reference tables, with what its nameplate and a standard would say. No maker's
// catalogue.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/constants.h"
#include "engine/base/formula/term.h"
#include "engine/base/function_ref.h"
#include "engine/base/result.h"
#include "engine/base/working.h"
#include "engine/enquiry/enquiry.h"

namespace lobewise::drive {

/// Efficiency classes: IE code of IEC 60034-30-1 at 50 Hz; at 60 Hz the US classes of the reference table.
enum class MotorClass { ie1, ie2, ie3, ie4 };

/// A three-phase cage motor.
struct Motor {
  double rated_power = 0;  ///< [W]
  double frequency = 50;   ///< [Hz]
  int poles = 4;
  double synchronous_speed = 0;  ///< [rad/s]
  double rated_speed = 0;        ///< [rad/s]
  double rated_torque = 0;       ///< [N m]
  double locked_rotor = 0;       ///< share of rated torque
  double pull_up = 0;            ///< share of rated torque
  double breakdown = 0;          ///< share of rated torque
  double efficiency = 0;         ///< at rated load
  double inertia = 0;            ///< [kg m2]
  std::string frame;             ///< standard frame, empty when unknown
  std::string torque_source, efficiency_source;
};

/// Motor inertia J = 0.0022 kg m2 (P / kW)^1.35 for four poles, x 0.5 for two, x 1.6 for six, x 2.2 for eight.
/// Source: common practice, no source (range x 0.6 to 1.6).
[[nodiscard]] double typical_inertia(double rated_power, int poles);

/// Torques of a motor of today over the least values of the standard, which the tables hold.
inline constexpr Coefficient kTypicalStartTorque{1.3, 1.0, 1.8,
                                                 "common practice, no source: the standards give least values"};

/// Length of a cage motor without its shaft end over its shaft height, and width over the fins over it. The standard
/// fixes neither. From memory of common frames; drawings and comparisons say that it is typical.
inline constexpr Coefficient kMotorLengthOverHeight{3.1, 2.9, 3.6, "from memory of common frames"};
inline constexpr Coefficient kMotorWidthOverHeight{2.0, 1.9, 2.1, "from memory of common frames"};

/// Length from the mounting face to the fan cover [m]: kMotorLengthOverHeight times the shaft height that a frame such
/// as `160M` names in millimetres; without a frame 0.24 m (P/kW)^0.33 (common practice, no source, x 0.85 to 1.2).
[[nodiscard]] Coefficient typical_length(const Motor& motor);
/// Mass 14 kg (P/kW)^0.85 [kg]. Source: common practice, no source (range x 0.75 to 1.3).
[[nodiscard]] Coefficient typical_mass(double rated_power);

/// Full-load speed: synchronous speed less the slip of the four-pole motor of that power in data/motor_ratings.csv.
/// Source: common practice, no source. @returns nullopt outside the table.
[[nodiscard]] std::optional<double> typical_speed(double rated_power, double frequency, int poles);

/// Surroundings and altitude up to which a rating holds [K], [m]. IEC 60034-1, from memory.
inline constexpr double kReferenceAmbient = kZeroCelsius + 40, kReferenceAltitude = 1000;
/// Share of the rating that is left at an ambient temperature and altitude: 1 up to 40 degC and 1000 m; less 1 % a
/// kelvin above 40 degC (to 60 degC) and 1 % per 100 m above 1000 m. Source: IEC 60034-1 reference conditions (from
/// memory); slopes common practice, no source.
template <class X>
[[nodiscard]] X derating_of(const X& ambient_temperature, const X& altitude) {
  using namespace formula;
  const X heat = max(X(0), ambient_temperature - X(kReferenceAmbient)) * X(0.01);
  const X height = max(X(0), altitude - X(kReferenceAltitude)) * X(0.01) / X(100);
  return max(X(0), (X(1) - heat) * (X(1) - height));
}
[[nodiscard]] double derating(double ambient_temperature, double altitude);

/// The ratings that exist at a frequency, rising [W]. 50 Hz: IEC series, 60 Hz: US series.
[[nodiscard]] std::vector<double> ratings(double frequency);

/// A motor of exactly this nameplate; torques, efficiency and inertia from the tables.
/// @param rated_speed  nameplate speed, or nullopt for the typical one [rad/s]
/// Errors: power or poles outside the tables, speed not below synchronous.
[[nodiscard]] Result<Motor> motor(double rated_power, double frequency, int poles, MotorClass efficiency_class,
                                  std::optional<double> rated_speed);

/// Least torque the motor gives on its way up [N m]: the smaller of locked rotor and pull-up, f times the standard's
/// least, with the square of the voltage; a third of it in star; with a soft starter as at the end of its ramp, at full
/// voltage. An inverter gives its limit, kInverterTorqueLimit times the rated torque, or the breakdown torque.
/// @param torque_factor   f: kTypicalStartTorque
/// @param voltage_factor  voltage over rated voltage; an inverter makes its own
/// Sources: motion::kStarFactor, motion::kInverterTorqueLimit.
[[nodiscard]] double least_start_torque(const Motor& motor, enquiry::Starting starting, double torque_factor,
                                        double voltage_factor);
/// Torque the motor should have to spare on its way up. Common practice, no source.
inline constexpr double kSpareStartTorque = 1.1;

/// The smallest motor whose derated rating reaches `shaft_power` and which starts the machine. Errors: none is large
/// enough.
/// @param starts  whether a motor does
[[nodiscard]] Result<Motor> smallest_motor(double shaft_power, FunctionRef<bool(const Motor&)> starts, double frequency,
                                           int poles, MotorClass efficiency_class, double ambient_temperature,
                                           double altitude);

/// Rated current [A] of a three-phase motor: P / (sqrt(3) U eta cos phi).
[[nodiscard]] double rated_current(const Motor& motor, double voltage);
/// Power factor at rated load by poles. Common practice, no source: 0.88, 0.83, 0.78, 0.74 for 2, 4, 6, 8 poles.
[[nodiscard]] double typical_power_factor(int poles);
/// Current with the rotor held over rated current, at full voltage.
inline constexpr Coefficient kLockedRotorCurrent{7, 5, 8.5, "common practice, no source"};
/// Voltage of a low-voltage motor when nobody said it [V]: 400 V at 50 Hz, 460 V at 60 Hz. Common practice, no source.
[[nodiscard]] double usual_voltage(double frequency);

/// Share of the rated losses that do not change with the load. Common practice, no source.
inline constexpr double kFixedLossShare = 0.35;
/// Efficiency at a share of the rated load: losses = fixed share + rest growing with the square of the load.
/// eta = x / (x + L (f + (1 - f) x^2)), L = 1/eta_r - 1, f = 0.35. Source: common practice, no source (f 0.25 to 0.5).
template <class X>
[[nodiscard]] X part_load_efficiency_of(const X& load_share, const X& rated, const X& fixed) {
  return load_share / (load_share + (X(1) / rated - X(1)) * (fixed + (X(1) - fixed) * load_share * load_share));
}
[[nodiscard]] double part_load_efficiency(const Motor& motor, double load_share);

}  // namespace lobewise::drive
