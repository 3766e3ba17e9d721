// What would make the start on the coldest day good: named, never taken.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/evidence/cold_start.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// A drive with another fill; nothing when that has no curve or keeps the fast bearings too thin once warm.
std::optional<Drive> with_fill(const Drive& drive, const range::Lubricant& fill) {
  const Result<drive::Oil> oil = drive::oil_of(fill);
  if (!oil) return std::nullopt;
  Drive other = drive;
  other.oil = *oil;
  other.oil.f0_factor = drive.oil.f0_factor;
  other.oil.wetted_share = drive.oil.wetted_share;
  const Evaluation warm = evaluate(other, {});
  for (const Check& check : lubrication_checks(other, warm))
    if (!check.of_order && check.margin() < 0) return std::nullopt;
  return other;
}

/// The smallest larger motor with which the drive passes at a temperature; nothing when none does.
std::optional<Drive> with_larger_motor(const Drive& drive, double temperature) {
  if (!drive.motor || !cold_verdict(drive, temperature).flows) return std::nullopt;
  for (const double rating : drive::ratings(drive.motor->frequency)) {
    if (rating <= drive.motor->rated_power) continue;
    const auto wanted = static_cast<drive::MotorClass>(static_cast<int>(drive.requirement.motor_class));
    const Result<drive::Motor> motor =
        drive::motor(rating, drive.motor->frequency, drive.motor->poles, wanted, std::nullopt);
    if (!motor) continue;
    Drive other = drive;
    other.motor = *motor;
    if (cold_verdict(other, temperature).good()) return other;
  }
  return std::nullopt;
}

std::string name_of(const range::Lubricant& fill) {
  const char* kind = fill.base == range::BaseOil::mineral ? "mineral" : "synthetic";
  return fmt::format("{}{} {}", fill.food_grade ? "food-grade " : "", kind,
                     fill.kind == range::LubricantKind::grease ? "grease" : "oil");
}

/// A fill and what the start comes to with it.
Text fill_line(const Drive& drive, double temperature, std::string_view rest) {
  const drive::ColdStart start = drive::cold_start(drive, temperature, {});
  return {
      fmt::format("the {} of this range, {{}} at {{}}, good from {{}} on{}: a start then asks {{}} of the motor's {{}}",
                  name_of(drive.oil.fill), rest),
      {{drive.oil.fill.viscosity_40, Quantity::kinematic_viscosity},
       {kZeroCelsius + 40, Quantity::temperature},
       {drive::pour_point(drive.oil.fill).lowest, Quantity::temperature},
       {start.asked(), Quantity::torque},
       {start.given, Quantity::torque}}};
}

Text motor_line(const Drive& drive, double temperature) {
  const drive::ColdStart start = drive::cold_start(drive, temperature, {});
  return {"a motor of {}, which gives {} of the {} asked",
          {{drive.motor->rated_power, Quantity::power},
           {start.given, Quantity::torque},
           {start.asked(), Quantity::torque}}};
}

/// Coldest oil with which this drive starts well [K]; nothing when even warm oil does not help.
std::optional<double> warm_enough(const Drive& drive, double from) {
  double low = from, high = kZeroCelsius + 40;
  if (low >= high || !cold_verdict(drive, high).good()) return std::nullopt;
  while (high - low > 0.05) {
    const double middle = 0.5 * (low + high);
    (cold_verdict(drive, middle).good() ? high : low) = middle;
  }
  return high;
}

}  // namespace

std::vector<Text> cold_remedies(const Drive& drive, const Evaluation& e) {
  const double temperature = drive::coldest(drive, e.coefficients);
  const ColdVerdict now = cold_verdict(drive, temperature);
  std::vector<Text> out;
  if (!drive.motor || now.good()) return out;
  std::optional<Text> together;  // a fill that needs a larger motor as well
  for (const range::Lubricant& fill : drive.build.frame().lubricants) {
    if (drive.requirement.food_area != fill.food_grade) continue;
    const std::optional<Drive> other = with_fill(drive, fill);
    if (!other || !cold_verdict(*other, temperature).flows) continue;
    if (cold_verdict(*other, temperature).good()) {
      out.push_back(fill_line(*other, temperature, ""));
    } else if (!together) {
      if (const std::optional<Drive> larger = with_larger_motor(*other, temperature)) {
        Text line = fill_line(*larger, temperature, ", with a motor of {}");
        line.values.insert(line.values.begin() + 3, {larger->motor->rated_power, Quantity::power});
        together = std::move(line);
      }
    }
  }
  if (const std::optional<Drive> larger = with_larger_motor(drive, temperature))
    out.push_back(motor_line(*larger, temperature));
  if (out.empty() && together) out.push_back(*together);
  if (const std::optional<double> warm = warm_enough(drive, temperature))
    out.push_back({"a heater that keeps the lubricant at {} or more before a start", {{*warm, Quantity::temperature}}});
  if (now.flows && !now.starts) {
    drive::Coefficients unloaded;
    unloaded.start_factor = 0;
    const drive::ColdStart empty = drive::cold_start(drive, temperature, unloaded);
    if (empty.ratio() >= drive::kSpareStartTorque)
      out.push_back({"a start with the machine unloaded, which asks {} of the motor's {}",
                     {{empty.asked(), Quantity::torque}, {empty.given, Quantity::torque}}});
  }
  if (!now.flows && drive.oil.grease())
    out.push_back({"a soft grease for the cold on a synthetic base oil, as its supplier recommends", {}});
  if (out.empty()) out.push_back({"a thinner synthetic oil than this range offers, with a heater", {}});
  return out;
}

}  // namespace lobewise::evidence
