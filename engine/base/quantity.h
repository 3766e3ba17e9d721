#pragma once
// The one registry of quantities: what can be measured, in which units people write it, and how it is shown.
// Inside the engine every value is an SI double; text with units exists only on the way in and on the way out.

#include <span>
#include <string>
#include <string_view>

#include "engine/base/result.h"

namespace lobewise {

enum class Quantity {
  number,  ///< no unit
  share,   ///< part of one, written in percent or as a plain number
  length,
  area,
  volume,
  mass,
  time,
  duration,   ///< service time, shown in hours
  lead_time,  ///< calendar time of deliveries, shown in days or weeks
  age,        ///< calendar time something has stood, shown in years or months
  speed,      ///< straight-line speed
  angular_speed,
  angle,
  force,
  torque,
  power,
  pressure,     ///< also stress
  temperature,  ///< absolute, K inside
  temperature_difference,
  mass_flow,
  volume_flow,
  density,
  line_mass,  ///< kg per metre of belt or chain
  inertia,
  torsional_stiffness,
  stiffness,
  kinematic_viscosity,
  dynamic_viscosity,
  thermal_conductance,
  heat_capacity,
  energy,
  frequency,
  current,
  voltage,
  money,
  money_rate,        ///< money per hour
  hardness,          ///< Rockwell C; here so that it is recognised and refused where something else is asked
  per_hour,          ///< how often an hour
  energy_price,      ///< money per energy
  carbon_intensity,  ///< kg CO2 per energy
  carbon_price,      ///< money per kg CO2
};

enum class UnitSystem { si, us };

/// One way to write a quantity: SI = factor * x + offset.
struct Unit {
  std::string_view name;  ///< as shown and as written; other spellings are in the parser's alias list
  double factor;
  double offset;
};

struct QuantityInfo {
  Quantity quantity;
  std::string_view key;         ///< name in schemas
  std::string_view label;       ///< plain words
  std::span<const Unit> units;  ///< accepted units, the first is the SI base
  std::string_view si_display;  ///< unit shown in the SI system
  std::string_view us_display;  ///< unit shown in the US system
  int digits;                   ///< significant digits that make sense
};

[[nodiscard]] std::span<const QuantityInfo> all_quantities();
[[nodiscard]] const QuantityInfo& info(Quantity quantity);

/// Reads what people write: `7.5 hp`, `7,5 kW`, `25 in-lb`, `1.2 kN·m`, `1 450 rpm`, `80 °F`, `3/8 in`, `1 3/8 in`.
/// @param text      number and unit; decimal point or comma; spaces, thin spaces or apostrophes between thousands
/// @param quantity  what is asked for
/// @param path      field path for the error
/// @returns SI value, finite. A bare number is accepted only for quantities without a unit (number, share, money …).
/// Errors: empty, no number, unknown unit, a unit of another quantity (named), ambiguous `1,450`, not finite.
[[nodiscard]] Result<double> parse_quantity(std::string_view text, Quantity quantity, std::string_view path);

/// SI value -> text with the unit of the chosen system, rounded to sensible digits, e.g. `1.45 kN·m`, `1450 rpm`.
[[nodiscard]] std::string format_quantity(double si, Quantity quantity, UnitSystem system);
/// As above with a chosen number of significant digits.
[[nodiscard]] std::string format_quantity(double si, Quantity quantity, UnitSystem system, int digits);
/// Value converted to the display unit of the system, not rounded.
[[nodiscard]] double to_display(double si, Quantity quantity, UnitSystem system);
[[nodiscard]] std::string_view display_unit(Quantity quantity, UnitSystem system);
/// Number alone with `digits` significant digits, no exponent between 1e-4 and 1e7, trailing zeros removed.
[[nodiscard]] std::string format_number(double value, int digits);
/// Reads a plain number with decimal point or comma, fraction or mixed fraction. Errors as parse_quantity.
[[nodiscard]] Result<double> parse_number(std::string_view text, std::string_view path);

}  // namespace lobewise
