#include "engine/case/energy.h"

#include <algorithm>
#include <set>
#include <string>

#include "data/energy_co2.h"

namespace lobewise::cost {
namespace {

std::string where(const data::EnergyCo2Row& row) {
  std::string text = std::string(row.source.empty() ? "no source" : row.source);
  return "data/energy_co2.csv, " + std::string(row.name) + ": " + text + " (" + std::string(row.status) + ")";
}

}  // namespace

Range usual_fixed_loss_share() { return range(0.25, 0.35, 0.5, "common practice, no source"); }

double electric_power(const DriveLosses& losses, const MotorNameplate& motor, double output_power) {
  return motor_input(shaft_power(output_power, losses.idle_power.nominal, losses.slope.nominal), motor.rated_power,
                     motor.rated_efficiency.nominal, motor.fixed_loss_share.nominal);
}

double mean_electric_power(const DriveLosses& losses, const MotorNameplate& motor, const std::vector<Load>& duty) {
  double power = 0;
  for (const Load& load : duty) {
    power += load.time_share * electric_power(losses, motor, load.output_power);
  }
  return power;
}

std::optional<std::string_view> country_code(std::string_view said) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  const auto same = [&](std::string_view word) {
    return std::equal(word.begin(), word.end(), said.begin(), said.end(),
                      [&](char a, char b) { return lower(a) == lower(b); });
  };
  for (const data::EnergyCo2Row& row : data::kEnergyCo2)
    if (same(row.iso3) || same(row.name)) return row.iso3;
  return std::nullopt;
}

std::string known_countries() {
  std::set<std::string_view> codes;
  for (const data::EnergyCo2Row& row : data::kEnergyCo2) codes.insert(row.iso3);
  std::string list;
  for (const std::string_view code : codes) list += (list.empty() ? "" : ", ") + std::string(code);
  return list;
}

std::optional<Range> grid_carbon(std::string_view iso3) {
  constexpr double kSpread = 0.15;
  for (const data::EnergyCo2Row& row : data::kEnergyCo2) {
    if (row.kind == "grid_carbon_intensity" && row.iso3 == iso3) {
      const double value = (row.value_low + row.value_high) / 2 / 1000 / kJoulePerKilowattHour;  // g/kWh in the table
      return range(value * (1 - kSpread), value, value * (1 + kSpread), where(row));
    }
  }
  return std::nullopt;
}

std::vector<EnergyPrice> energy_prices(std::string_view iso3) {
  std::vector<EnergyPrice> prices;
  for (const data::EnergyCo2Row& row : data::kEnergyCo2) {
    if (row.kind == "industrial_electricity_price" && row.iso3 == iso3) {
      const double low = row.value_low / kJoulePerKilowattHour;
      const double high = row.value_high / kJoulePerKilowattHour;
      prices.push_back({range(low, (low + high) / 2, high, where(row)), row.unit.substr(0, row.unit.find('/')),
                        static_cast<int>(row.year)});
    }
  }
  return prices;
}

}  // namespace lobewise::cost
