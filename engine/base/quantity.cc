#include "engine/base/quantity.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "engine/base/constants.h"
#include "engine/base/fitting_unit.h"
#include "engine/base/unit_word.h"

namespace lobewise {
namespace {

// Conversion factors: SI brochure and NIST SP 811 (exact where defined: inch 25.4 mm, pound 0.45359237 kg, g_n 9.80665
// m/s2); hp = 550 ft·lbf/s = 745.69987 W; metric horsepower = 75 kgf·m/s = 735.49875 W. Source: NIST SP 811, appendix
// B.
constexpr double kInch = 0.0254;
constexpr double kFoot = 0.3048;
constexpr double kPound = 0.45359237;
constexpr double kPoundForce = kPound * kGravity;
constexpr double kRpm = 2 * kPi / 60;
constexpr double kDegree = kPi / 180;

constexpr Unit kNumberUnits[] = {{"", 1, 0}};
constexpr Unit kShareUnits[] = {{"", 1, 0}, {"%", 0.01, 0}, {"ppm", 1e-6, 0}};
constexpr Unit kLengthUnits[] = {{"m", 1, 0},      {"mm", 1e-3, 0},          {"cm", 1e-2, 0},
                                 {"um", 1e-6, 0},  {"km", 1e3, 0},           {"in", kInch, 0},
                                 {"ft", kFoot, 0}, {"mil", kInch / 1000, 0}, {"yd", 3 * kFoot, 0}};
constexpr Unit kAreaUnits[] = {
    {"m2", 1, 0}, {"mm2", 1e-6, 0}, {"cm2", 1e-4, 0}, {"in2", kInch* kInch, 0}, {"ft2", kFoot* kFoot, 0}};
constexpr Unit kVolumeUnits[] = {{"m3", 1, 0},
                                 {"L", 1e-3, 0},
                                 {"mm3", 1e-9, 0},
                                 {"cm3", 1e-6, 0},
                                 {"gal", 231 * kInch* kInch* kInch, 0},
                                 {"qt", 57.75 * kInch* kInch* kInch, 0},
                                 {"ft3", kFoot* kFoot* kFoot, 0}};
constexpr Unit kMassUnits[] = {
    {"kg", 1, 0}, {"g", 1e-3, 0}, {"t", 1000, 0}, {"lb", kPound, 0}, {"st", 2000 * kPound, 0}};
constexpr Unit kTimeUnits[] = {{"s", 1, 0}, {"ms", 1e-3, 0}, {"min", 60, 0}, {"h", 3600, 0}, {"d", 86400, 0}};
constexpr Unit kDurationUnits[] = {{"s", 1, 0},     {"min", 60, 0},      {"h", 3600, 0},
                                   {"d", 86400, 0}, {"week", 604800, 0}, {"a", 31557600, 0}};
constexpr Unit kAgeUnits[] = {{"s", 1, 0},         {"h", 3600, 0},         {"d", 86400, 0},
                              {"week", 604800, 0}, {"months", 2629800, 0}, {"years", 31557600, 0}};
constexpr Unit kSpeedUnits[] = {
    {"m/s", 1, 0},      {"m/min", 1.0 / 60, 0},     {"km/h", 1 / 3.6, 0}, {"mm/s", 1e-3, 0}, {"ft/min", kFoot / 60, 0},
    {"ft/s", kFoot, 0}, {"mph", 1609.344 / 3600, 0}};
constexpr Unit kAngularSpeedUnits[] = {{"rad/s", 1, 0}, {"rpm", kRpm, 0}, {"rps", 2 * kPi, 0}, {"deg/s", kDegree, 0}};
constexpr Unit kAngleUnits[] = {
    {"rad", 1, 0}, {"deg", kDegree, 0}, {"arcmin", kDegree / 60, 0}, {"arcsec", kDegree / 3600, 0}};
constexpr Unit kForceUnits[] = {{"N", 1, 0},          {"kN", 1e3, 0},
                                {"MN", 1e6, 0},       {"lbf", kPoundForce, 0},
                                {"kgf", kGravity, 0}, {"kip", 1000 * kPoundForce, 0}};
constexpr Unit kTorqueUnits[] = {{"N·m", 1, 0},
                                 {"kN·m", 1e3, 0},
                                 {"N·mm", 1e-3, 0},
                                 {"lbf·in", kPoundForce* kInch, 0},
                                 {"lbf·ft", kPoundForce* kFoot, 0},
                                 {"kgf·m", kGravity, 0}};
constexpr Unit kPowerUnits[] = {{"W", 1, 0},
                                {"kW", 1e3, 0},
                                {"MW", 1e6, 0},
                                {"hp", 550 * kFoot* kPoundForce, 0},
                                {"PS", 75 * kGravity, 0},
                                {"Btu/h", 1055.05585262 / 3600, 0}};
constexpr Unit kPressureUnits[] = {{"Pa", 1, 0},
                                   {"MPa", 1e6, 0},
                                   {"kPa", 1e3, 0},
                                   {"GPa", 1e9, 0},
                                   {"bar", 1e5, 0},
                                   {"N/mm2", 1e6, 0},
                                   {"psi", kPoundForce / (kInch * kInch), 0},
                                   {"ksi", 1000 * kPoundForce / (kInch * kInch), 0}};
constexpr Unit kTemperatureUnits[] = {{"K", 1, 0}, {"°C", 1, kZeroCelsius}, {"°F", 1 / 1.8, kZeroCelsius - 32 / 1.8}};
constexpr Unit kTemperatureDifferenceUnits[] = {{"K", 1, 0}, {"°C", 1, 0}, {"°F", 1 / 1.8, 0}};
constexpr Unit kMassFlowUnits[] = {{"kg/s", 1, 0},
                                   {"t/h", 1 / 3.6, 0},
                                   {"kg/h", 1 / 3600.0, 0},
                                   {"st/h", 2000 * kPound / 3600, 0},
                                   {"lb/h", kPound / 3600, 0},
                                   {"lb/min", kPound / 60, 0}};
constexpr Unit kVolumeFlowUnits[] = {{"m3/s", 1, 0},
                                     {"m3/h", 1 / 3600.0, 0},
                                     {"L/min", 1e-3 / 60, 0},
                                     {"L/s", 1e-3, 0},
                                     {"ft3/h", kFoot* kFoot* kFoot / 3600, 0},
                                     {"ft3/min", kFoot* kFoot* kFoot / 60, 0},
                                     {"gal/min", 231 * kInch* kInch* kInch / 60, 0}};
constexpr Unit kDensityUnits[] = {{"kg/m3", 1, 0},
                                  {"t/m3", 1000, 0},
                                  {"kg/L", 1000, 0},
                                  {"g/cm3", 1000, 0},
                                  {"lb/ft3", kPound / (kFoot * kFoot * kFoot), 0}};
constexpr Unit kLineMassUnits[] = {{"kg/m", 1, 0}, {"lb/ft", kPound / kFoot, 0}};
constexpr Unit kInertiaUnits[] = {
    {"kg·m2", 1, 0}, {"kg·cm2", 1e-4, 0}, {"lb·ft2", kPound* kFoot* kFoot, 0}, {"lb·in2", kPound* kInch* kInch, 0}};
constexpr Unit kTorsionalStiffnessUnits[] = {{"N·m/rad", 1, 0},
                                             {"kN·m/rad", 1e3, 0},
                                             {"N·m/arcmin", 1 / (kDegree / 60), 0},
                                             {"lbf·in/rad", kPoundForce* kInch, 0},
                                             {"lbf·in/arcmin", kPoundForce* kInch / (kDegree / 60), 0}};
constexpr Unit kStiffnessUnits[] = {
    {"N/m", 1, 0}, {"N/mm", 1e3, 0}, {"N/um", 1e6, 0}, {"lbf/in", kPoundForce / kInch, 0}};
constexpr Unit kKinematicViscosityUnits[] = {{"m2/s", 1, 0}, {"mm2/s", 1e-6, 0}, {"cSt", 1e-6, 0}};
constexpr Unit kDynamicViscosityUnits[] = {{"Pa·s", 1, 0}, {"mPa·s", 1e-3, 0}, {"cP", 1e-3, 0}};
constexpr Unit kThermalConductanceUnits[] = {{"W/K", 1, 0}, {"Btu/(h·°F)", 1055.05585262 / 3600 * 1.8, 0}};
constexpr Unit kHeatCapacityUnits[] = {{"J/K", 1, 0}, {"kJ/K", 1e3, 0}, {"Btu/°F", 1055.05585262 * 1.8, 0}};
constexpr Unit kEnergyUnits[] = {{"J", 1, 0},
                                 {"kJ", 1e3, 0},
                                 {"MJ", 1e6, 0},
                                 {"kWh", 3.6e6, 0},
                                 {"MWh", 3.6e9, 0},
                                 {"Btu", 1055.05585262, 0},
                                 {"lbf·ft", kPoundForce* kFoot, 0}};
constexpr Unit kFrequencyUnits[] = {{"Hz", 1, 0}, {"kHz", 1e3, 0}, {"rpm", 1.0 / 60, 0}};
constexpr Unit kCurrentUnits[] = {{"A", 1, 0}, {"mA", 1e-3, 0}, {"kA", 1e3, 0}};
constexpr Unit kVoltageUnits[] = {{"V", 1, 0}, {"kV", 1e3, 0}, {"mV", 1e-3, 0}};
constexpr Unit kMoneyUnits[] = {{"", 1, 0}};
constexpr Unit kMoneyRateUnits[] = {{"", 1, 0}, {"/h", 1, 0}};
constexpr Unit kHardnessUnits[] = {{"HRC", 1, 0}};
constexpr Unit kPerHourUnits[] = {{"1/h", 1, 0}, {"1/min", 60, 0}, {"1/d", 1 / 24.0, 0}};
constexpr Unit kEnergyPriceUnits[] = {{"/J", 1, 0}, {"/kWh", 1 / 3.6e6, 0}, {"/MWh", 1 / 3.6e9, 0}};
constexpr Unit kCarbonIntensityUnits[] = {{"kg/J", 1, 0}, {"kg/kWh", 1 / 3.6e6, 0}, {"g/kWh", 1e-3 / 3.6e6, 0}};
constexpr Unit kCarbonPriceUnits[] = {{"/kg", 1, 0}, {"/t", 1e-3, 0}};

constexpr QuantityInfo kInfos[] = {
    {Quantity::number, "number", "number", kNumberUnits, "", "", 4},
    {Quantity::share, "share", "share", kShareUnits, "%", "%", 3},
    {Quantity::length, "length", "length", kLengthUnits, "mm", "in", 4},
    {Quantity::area, "area", "area", kAreaUnits, "m2", "ft2", 3},
    {Quantity::volume, "volume", "volume", kVolumeUnits, "L", "gal", 3},
    {Quantity::mass, "mass", "mass", kMassUnits, "kg", "lb", 3},
    {Quantity::time, "time", "time", kTimeUnits, "s", "s", 3},
    {Quantity::duration, "duration", "service time", kDurationUnits, "h", "h", 3},
    {Quantity::lead_time, "lead_time", "calendar time", kDurationUnits, "d", "d", 2},
    {Quantity::age, "age", "age", kAgeUnits, "years", "years", 3},
    {Quantity::speed, "speed", "speed", kSpeedUnits, "m/s", "ft/min", 3},
    {Quantity::angular_speed, "angular_speed", "rotational speed", kAngularSpeedUnits, "rpm", "rpm", 4},
    {Quantity::angle, "angle", "angle", kAngleUnits, "deg", "deg", 4},
    {Quantity::force, "force", "force", kForceUnits, "N", "lbf", 3},
    {Quantity::torque, "torque", "torque", kTorqueUnits, "N·m", "lbf·in", 4},
    {Quantity::power, "power", "power", kPowerUnits, "kW", "hp", 3},
    {Quantity::pressure, "pressure", "pressure or stress", kPressureUnits, "MPa", "psi", 4},
    {Quantity::temperature, "temperature", "temperature", kTemperatureUnits, "°C", "°F", 3},
    {Quantity::temperature_difference, "temperature_difference", "temperature difference", kTemperatureDifferenceUnits,
     "K", "°F", 3},
    {Quantity::mass_flow, "mass_flow", "mass flow", kMassFlowUnits, "t/h", "st/h", 3},
    {Quantity::volume_flow, "volume_flow", "volume flow", kVolumeFlowUnits, "m3/h", "ft3/h", 3},
    {Quantity::density, "density", "density", kDensityUnits, "kg/m3", "lb/ft3", 3},
    {Quantity::line_mass, "line_mass", "mass per length", kLineMassUnits, "kg/m", "lb/ft", 3},
    {Quantity::inertia, "inertia", "moment of inertia", kInertiaUnits, "kg·m2", "lb·ft2", 3},
    {Quantity::torsional_stiffness, "torsional_stiffness", "torsional stiffness", kTorsionalStiffnessUnits,
     "N·m/arcmin", "lbf·in/arcmin", 3},
    {Quantity::stiffness, "stiffness", "stiffness", kStiffnessUnits, "N/um", "lbf/in", 3},
    {Quantity::kinematic_viscosity, "kinematic_viscosity", "kinematic viscosity", kKinematicViscosityUnits, "mm2/s",
     "cSt", 3},
    {Quantity::dynamic_viscosity, "dynamic_viscosity", "dynamic viscosity", kDynamicViscosityUnits, "mPa·s", "cP", 3},
    {Quantity::thermal_conductance, "thermal_conductance", "thermal conductance", kThermalConductanceUnits, "W/K",
     "Btu/(h·°F)", 3},
    {Quantity::heat_capacity, "heat_capacity", "heat capacity", kHeatCapacityUnits, "kJ/K", "Btu/°F", 3},
    {Quantity::energy, "energy", "energy", kEnergyUnits, "kWh", "kWh", 3},
    {Quantity::frequency, "frequency", "frequency", kFrequencyUnits, "Hz", "Hz", 4},
    {Quantity::current, "current", "current", kCurrentUnits, "A", "A", 3},
    {Quantity::voltage, "voltage", "voltage", kVoltageUnits, "V", "V", 3},
    {Quantity::money, "money", "money", kMoneyUnits, "", "", 4},
    {Quantity::money_rate, "money_rate", "money per hour", kMoneyRateUnits, "/h", "/h", 4},
    {Quantity::hardness, "hardness", "hardness", kHardnessUnits, "HRC", "HRC", 3},
    {Quantity::per_hour, "per_hour", "times an hour", kPerHourUnits, "1/h", "1/h", 3},
    {Quantity::energy_price, "energy_price", "price of energy", kEnergyPriceUnits, "/kWh", "/kWh", 4},
    {Quantity::carbon_intensity, "carbon_intensity", "carbon per energy", kCarbonIntensityUnits, "g/kWh", "g/kWh", 3},
    {Quantity::carbon_price, "carbon_price", "price of carbon", kCarbonPriceUnits, "/t", "/t", 3},
};

/// Other spellings, after normalising (see normalise_unit): compared case-insensitively where no two units differ by
/// case only.
struct Alias {
  std::string_view text;
  std::string_view unit;
};
constexpr Alias kAliases[] = {
    {"percent", "%"},
    {"metre", "m"},
    {"meter", "m"},
    {"metres", "m"},
    {"meters", "m"},
    {"micron", "um"},
    {"inch", "in"},
    {"inches", "in"},
    {"\"", "in"},
    {"foot", "ft"},
    {"feet", "ft"},
    {"'", "ft"},
    {"l", "L"},
    {"litre", "L"},
    {"liter", "L"},
    {"litres", "L"},
    {"liters", "L"},
    {"gallon", "gal"},
    {"gallons", "gal"},
    {"quart", "qt"},
    {"lbs", "lb"},
    {"lbm", "lb"},
    {"pound", "lb"},
    {"pounds", "lb"},
    {"tonne", "t"},
    {"tonnes", "t"},
    {"kilo", "kg"},
    {"shortton", "st"},
    {"ton", "st"},
    {"tons", "st"},
    {"sec", "s"},
    {"second", "s"},
    {"seconds", "s"},
    {"minute", "min"},
    {"minutes", "min"},
    {"hr", "h"},
    {"hrs", "h"},
    {"hour", "h"},
    {"hours", "h"},
    {"day", "d"},
    {"days", "d"},
    {"weeks", "week"},
    {"year", "a"},
    {"years", "a"},
    {"yr", "a"},
    {"a", "years"},  // of an age
    {"year", "years"},
    {"yr", "years"},
    {"month", "months"},
    {"fpm", "ft/min"},
    {"fps", "ft/s"},
    {"kph", "km/h"},
    {"r/min", "rpm"},
    {"rev/min", "rpm"},
    {"1/min", "rpm"},
    {"min-1", "rpm"},
    {"min^-1", "rpm"},
    {"u/min", "rpm"},
    {"rev/s", "rps"},
    {"s-1", "rps"},
    {"rad", "rad"},
    {"°", "deg"},
    {"degree", "deg"},
    {"degrees", "deg"},
    {"newton", "N"},
    {"lb", "lbf"},
    {"lbs", "lbf"},
    {"kips", "kip"},
    {"kp", "kgf"},
    {"n·m", "N·m"},
    {"nm", "N·m"},
    {"knm", "kN·m"},
    {"kn·m", "kN·m"},
    {"n·mm", "N·mm"},
    {"nmm", "N·mm"},
    {"in·lb", "lbf·in"},
    {"lb·in", "lbf·in"},
    {"in·lbf", "lbf·in"},
    {"ft·lb", "lbf·ft"},
    {"lb·ft", "lbf·ft"},
    {"ft·lbf", "lbf·ft"},
    {"inlb", "lbf·in"},
    {"ftlb", "lbf·ft"},
    {"kg·m", "kgf·m"},
    {"kp·m", "kgf·m"},
    {"in·lbs", "lbf·in"},
    {"ft·lbs", "lbf·ft"},
    {"watt", "W"},
    {"horsepower", "hp"},
    {"cv", "PS"},
    {"n/mm^2", "N/mm2"},
    {"degc", "°C"},
    {"c", "°C"},
    {"celsius", "°C"},
    {"degf", "°F"},
    {"f", "°F"},
    {"fahrenheit", "°F"},
    {"tph", "t/h"},
    {"stph", "st/h"},
    {"ton/h", "st/h"},
    {"tons/h", "st/h"},
    {"tonne/h", "t/h"},
    {"lb/hr", "lb/h"},
    {"cfh", "ft3/h"},
    {"cfm", "ft3/min"},
    {"gpm", "gal/min"},
    {"m^3/h", "m3/h"},
    {"m^3/s", "m3/s"},
    {"m^2", "m2"},
    {"m^3", "m3"},
    {"ft^2", "ft2"},
    {"ft^3", "ft3"},
    {"in^2", "in2"},
    {"mm^2", "mm2"},
    {"cm^3", "cm3"},
    {"kg/m^3", "kg/m3"},
    {"lb/ft^3", "lb/ft3"},
    {"pcf", "lb/ft3"},
    {"kg·m^2", "kg·m2"},
    {"kgm2", "kg·m2"},
    {"kgm^2", "kg·m2"},
    {"lb·ft^2", "lb·ft2"},
    {"lbft2", "lb·ft2"},
    {"m^2/s", "m2/s"},
    {"mm^2/s", "mm2/s"},
    {"nm/rad", "N·m/rad"},
    {"nm/arcmin", "N·m/arcmin"},
    {"amp", "A"},
    {"amps", "A"},
    {"volt", "V"},
    {"volts", "V"},
    {"perhour", "1/h"},
    {"/h", "1/h"},
    {"perminute", "1/min"},
    {"perday", "1/d"},
    {"/d", "1/d"},
    {"rc", "HRC"},
};

std::string_view trim(std::string_view text) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; };
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// Exotic spaces, minus signs, dots and superscripts become the plain ones.
std::string normalise(std::string_view raw) {
  std::string text(raw);
  for (std::string_view space : {"\u00A0", "\u2009", "\u202F", "\u2007"}) replace_all(text, space, " ");
  for (std::string_view minus : {"\u2212", "\u2013"}) replace_all(text, minus, "-");
  for (std::string_view dot : {"\u22C5", "\u2219", "\u2022"}) replace_all(text, dot, "·");
  for (std::string_view micro : {"\u00B5", "\u03BC"}) replace_all(text, micro, "u");
  replace_all(text, "\u00B2", "2");
  replace_all(text, "\u00B3", "3");
  replace_all(text, "\u207B\u00B9", "-1");
  replace_all(text, "\u2019", "'");
  replace_all(text, "\u00BA", "°");
  replace_all(text, "\u2033", "\"");
  replace_all(text, "\u00BD", " 1/2");
  replace_all(text, "\u00BC", " 1/4");
  replace_all(text, "\u00BE", " 3/4");
  return text;
}

/// `N m`, `N.m`, `N*m`, `lb-in` -> with a middle dot; spaces removed.
std::string normalise_unit(std::string_view raw) {
  std::string text(trim(raw));
  if (text != "min-1" && text != "s-1" && text.find("^-") == std::string::npos) replace_all(text, "-", "·");
  replace_all(text, "*", "·");
  replace_all(text, ".", "·");
  if (const std::size_t space = text.find(' '); space != std::string::npos) {
    // A blank between two unit words is a product (`N m`), beside a slash or after `per` it is nothing.
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
      if (text[i] != ' ') {
        out += text[i];
        continue;
      }
      const bool beside_slash = (!out.empty() && out.back() == '/') || text[i + 1] == '/';
      if (!beside_slash && out != "per" && out != "short" && out.substr(0, 3) != "deg") out += "·";
    }
    text = out;
  }
  return text;
}

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

const Unit* find_unit(std::string_view text, const QuantityInfo& quantity) {
  for (const Unit& unit : quantity.units)
    if (unit.name == text) return &unit;
  const std::string lowered = lower(text);
  for (const Alias& alias : kAliases) {
    if (alias.text != lowered && alias.text != text) continue;
    for (const Unit& unit : quantity.units)
      if (unit.name == alias.unit) return &unit;
  }
  const Unit* found = nullptr;  // any other case, as long as it is not ambiguous (MW and mW)
  for (const Unit& unit : quantity.units) {
    if (lower(unit.name) != lowered) continue;
    if (found != nullptr) return nullptr;
    found = &unit;
  }
  return found;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::optional<double> plain_double(std::string_view digits) {
  double value = 0;
  const auto [end, error] = fast_float::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
  return value;
}

struct ScannedNumber {
  double value = 0;
  std::size_t length = 0;  ///< characters used
  std::string problem;     ///< why it is no number
};

/// Scans sign, digits with thousands separators, decimal point or comma, exponent, and `a/b` or `n a/b` fractions.
ScannedNumber scan_number(std::string_view text) {
  ScannedNumber out;
  std::size_t i = 0;
  double sign = 1;
  if (i < text.size() && (text[i] == '-' || text[i] == '+')) {
    if (text[i] == '-') sign = -1;
    ++i;
  }
  while (i < text.size() && text[i] == ' ') ++i;
  std::string digits;
  std::size_t commas = 0, points = 0, digits_after_comma = 0, spaces = 0;
  bool comma_last = false;
  bool any = false;
  std::size_t j = i;
  std::size_t group = 0;  // digits since the last separator
  for (; j < text.size(); ++j) {
    const char c = text[j];
    if (is_digit(c)) {
      digits += c;
      any = true;
      ++group;
      if (commas > 0) ++digits_after_comma;
    } else if (c == '.') {
      if (points > 0) break;
      ++points;
      comma_last = false;
      digits += '.';
    } else if (c == ',') {
      if (points > 0) break;
      ++commas;
      digits_after_comma = 0;
      comma_last = true;
      digits += ',';
      group = 0;
    } else if ((c == ' ' || c == '\'') && any && points == 0 && commas == 0 && j + 3 < text.size() &&
               is_digit(text[j + 1]) && is_digit(text[j + 2]) && is_digit(text[j + 3]) &&
               (j + 4 >= text.size() || !is_digit(text[j + 4])) && (group == 3 || (spaces == 0 && group < 3)) &&
               !(j + 4 < text.size() && text[j + 4] == '/')) {
      ++spaces;
      group = 0;
    } else {
      break;
    }
  }
  if (!any) {
    out.problem = "no number";
    return out;
  }
  while (!digits.empty() && (digits.back() == ',')) {  // a trailing comma is punctuation
    digits.pop_back();
    --commas;
    --j;
    comma_last = false;
  }
  if (commas == 1 && points == 0) {
    const std::size_t comma = digits.find(',');
    if (comma_last && digits_after_comma == 3 && comma <= 3 && comma > 0 && digits.substr(0, comma) != "0") {
      std::string joined = digits;
      joined.erase(comma, 1);
      std::string pointed = digits;
      pointed[comma] = '.';
      out.problem = fmt::format("ambiguous comma: write {} or {}", joined, pointed + "0");
      return out;
    }
    digits[comma] = '.';
  } else if (commas > 0) {  // 1,234,567 or 1,234.5: every group has three digits
    std::size_t at = digits.find(',');
    while (at != std::string::npos) {
      const std::size_t next = digits.find_first_of(",.", at + 1);
      if ((next == std::string::npos ? digits.size() : next) - at - 1 != 3) {
        out.problem = "commas not in thousands";
        return out;
      }
      digits.erase(at, 1);
      at = digits.find(',');
    }
  }
  if (!digits.empty() && digits.back() == '.') digits.pop_back();
  if (j + 1 < text.size() && (text[j] == 'e' || text[j] == 'E') &&
      (is_digit(text[j + 1]) ||
       ((text[j + 1] == '-' || text[j + 1] == '+') && j + 2 < text.size() && is_digit(text[j + 2])))) {
    std::size_t k = j + 1;
    digits += 'e';
    if (text[k] == '-') digits += '-';
    if (text[k] == '-' || text[k] == '+') ++k;
    while (k < text.size() && is_digit(text[k])) digits += text[k++];
    j = k;
  }
  if (digits.front() == '.') digits = "0" + digits;
  const std::optional<double> value = plain_double(digits);
  if (!value || !std::isfinite(*value)) {
    out.problem = "no finite number";
    return out;
  }
  out.value = *value;
  out.length = j;
  // Fractions: `3/8` or `1 3/8`
  const auto read_integer = [&](std::size_t& at) -> std::optional<double> {
    const std::size_t start = at;
    while (at < text.size() && is_digit(text[at])) ++at;
    return at == start || at - start > 9 ? std::nullopt : plain_double(text.substr(start, at - start));
  };
  if (points == 0 && commas == 0) {
    std::size_t at = j;
    if (at < text.size() && text[at] == '/') {
      ++at;
      if (const auto denominator = read_integer(at)) {
        if (*denominator == 0) {
          out.problem = "division by zero";
          return out;
        }
        out.value = *value / *denominator;
        out.length = at;
      }
    } else if (at < text.size() && (text[at] == ' ' || text[at] == '-')) {
      ++at;
      const auto numerator = read_integer(at);
      if (numerator && at < text.size() && text[at] == '/') {
        ++at;
        if (const auto denominator = read_integer(at); denominator && *denominator != 0) {
          out.value = *value + *numerator / *denominator;
          out.length = at;
        }
      }
    }
  }
  out.value *= sign;
  return out;
}

std::string unit_names(const QuantityInfo& quantity) {
  std::string names;
  for (const Unit& unit : quantity.units) {
    if (unit.name.empty()) continue;
    if (!names.empty()) names += ", ";
    names += unit.name;
  }
  return names;
}

std::string with_article(std::string_view label) {
  const bool vowel = !label.empty() && std::string_view("aeiou").find(label.front()) != std::string_view::npos;
  return fmt::format("{} {}", vowel ? "an" : "a", label);
}

const Unit& unit_named(const QuantityInfo& quantity, std::string_view name) {
  for (const Unit& unit : quantity.units)
    if (unit.name == name) return unit;
  return quantity.units.front();
}

}  // namespace

bool is_unit(std::string_view text, Quantity quantity) {
  const std::string unit = normalise_unit(normalise(text));
  return !unit.empty() && find_unit(unit, info(quantity)) != nullptr;
}

std::span<const QuantityInfo> all_quantities() { return kInfos; }

const QuantityInfo& info(Quantity quantity) { return kInfos[static_cast<std::size_t>(quantity)]; }

Result<double> parse_number(std::string_view text, std::string_view path) {
  const std::string clean = normalise(text);
  const std::string_view body = trim(clean);
  const ScannedNumber number = scan_number(body);
  if (!number.problem.empty() || number.length != body.size())
    return input_error(
        std::string(path), std::string(text),
        number.problem.empty() || number.problem == "no number" ? "a plain number is needed" : number.problem);
  return number.value;
}

Result<double> parse_quantity(std::string_view text, Quantity quantity, std::string_view path) {
  const QuantityInfo& asked = info(quantity);
  const std::string clean = normalise(text);
  std::string_view body = trim(clean);
  const auto refuse = [&](std::string message) {
    return input_error(std::string(path), std::string(text), std::move(message));
  };
  const std::string example = unit_names(asked).empty() ? std::string("a plain number")
                                                        : fmt::format("a number with one of {}", unit_names(asked));
  if (body.empty()) return refuse(fmt::format("empty; {} is needed: {}", with_article(asked.label), example));
  if (body.size() > 64) return refuse("longer than 64 characters; a number and a unit are enough");
  const ScannedNumber number = scan_number(body);
  if (!number.problem.empty())
    return refuse(fmt::format("{}; {} is needed: {}", number.problem, with_article(asked.label), example));
  const std::string unit_text = normalise_unit(body.substr(number.length));
  const Unit* unit = find_unit(unit_text, asked);
  if (unit == nullptr) {
    if (unit_text.empty()) return refuse(fmt::format("no unit; {} is needed: {}", with_article(asked.label), example));
    for (const QuantityInfo& other : kInfos)
      if (other.quantity != quantity && find_unit(unit_text, other) != nullptr)
        return refuse(fmt::format("'{}' is a unit of {}; {} is needed: {}", unit_text, other.label,
                                  with_article(asked.label), example));
    return refuse(fmt::format("unknown unit '{}'; {} is needed: {}", unit_text, with_article(asked.label), example));
  }
  const double si = number.value * unit->factor + unit->offset;
  if (!std::isfinite(si)) return refuse("not a finite number");
  return si;
}

double to_display(double si, Quantity quantity, UnitSystem system) {
  const Unit& unit = unit_named(info(quantity), display_unit(quantity, system));
  return (si - unit.offset) / unit.factor;
}

std::string_view display_unit(Quantity quantity, UnitSystem system) {
  const QuantityInfo& q = info(quantity);
  return system == UnitSystem::si ? q.si_display : q.us_display;
}

std::string format_number(double value, int digits) {
  if (value == 0) return "0";
  if (!std::isfinite(value)) return "not a number";  // never shown: results are checked before they leave the engine
  const double magnitude = std::abs(value);
  if (magnitude < 1e-4 || magnitude >= 1e7) {
    std::string text = fmt::format("{:.{}e}", value, digits - 1);
    const std::size_t e = text.find('e');
    std::string mantissa = text.substr(0, e);
    if (mantissa.find('.') != std::string::npos) {
      while (mantissa.back() == '0') mantissa.pop_back();
      if (mantissa.back() == '.') mantissa.pop_back();
    }
    return mantissa + "e" + std::to_string(std::stoi(text.substr(e + 1)));
  }
  const int before = static_cast<int>(std::floor(std::log10(magnitude))) + 1;
  const int decimals = digits > before ? digits - before : 0;
  double rounded = value;
  if (digits < before) {
    const double step = std::pow(10.0, before - digits);
    rounded = std::round(value / step) * step;
  }
  std::string text = fmt::format("{:.{}f}", rounded, decimals);
  if (text.find('.') != std::string::npos) {
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

const Unit& fitting_unit(double si, Quantity quantity, UnitSystem system) {
  std::string_view unit = display_unit(quantity, system);
  // The two neighbouring sizes people use for the same thing.
  const double magnitude = std::abs(si);
  if (system == UnitSystem::si) {
    if (quantity == Quantity::power && magnitude < 1000) unit = "W";
    if (quantity == Quantity::torque && magnitude >= 10000) unit = "kN·m";
    if (quantity == Quantity::force && magnitude >= 10000) unit = "kN";
    if (quantity == Quantity::length && magnitude >= 10) unit = "m";
    if (quantity == Quantity::length && magnitude > 0 && magnitude < 1e-4) unit = "um";
    if (quantity == Quantity::energy && magnitude < 1e5) unit = magnitude < 1e3 ? "J" : "kJ";
  } else {
    if (quantity == Quantity::power && magnitude < 7.4) unit = "W";
    if (quantity == Quantity::length && magnitude >= 3) unit = "ft";
    if (quantity == Quantity::energy && magnitude < 1e5) unit = "lbf·ft";
    if (quantity == Quantity::length && magnitude > 0 && magnitude < 1e-4) unit = "mil";
  }
  if (quantity == Quantity::angle && magnitude > 0 && magnitude < 2 * kDegree) unit = "arcmin";
  if (quantity == Quantity::time && magnitude > 0 && magnitude < 0.1) unit = "ms";
  if (quantity == Quantity::duration && magnitude < 3600) unit = magnitude < 60 ? "s" : "min";
  if (quantity == Quantity::lead_time && magnitude >= 14 * 86400.0) unit = "week";
  if (quantity == Quantity::age && magnitude > 0 && magnitude < 31557600) unit = "months";
  return unit_named(info(quantity), unit);
}

std::string format_quantity(double si, Quantity quantity, UnitSystem system, int digits) {
  // A chance or a share so small that its digits say nothing.
  constexpr double kPracticallyNone = 1e-6;
  if (quantity == Quantity::share && si > 0 && si < kPracticallyNone) return "practically none";
  const Unit& chosen = fitting_unit(si, quantity, system);
  std::string_view unit = chosen.name;
  double shown = (si - chosen.offset) / chosen.factor;
  const std::string number =
      quantity == Quantity::temperature ? format_number(std::round(shown * 10) / 10, 12) : format_number(shown, digits);
  if (unit.empty()) return number;
  if (unit == "%") return number + " %";
  if (unit == "um") return number + " µm";
  if (unit == "week" && number != "1") return number + " weeks";
  if (number == "1" && (unit == "years" || unit == "months")) unit.remove_suffix(1);
  return fmt::format("{} {}", number, unit);
}

std::string format_quantity(double si, Quantity quantity, UnitSystem system) {
  return format_quantity(si, quantity, system, info(quantity).digits);
}

}  // namespace lobewise
