#pragma once
// Electric energy of a drive over its duty, and the published carbon and price figures. (The folder's namespace is
// `cost` because `case` is a word of the language.)

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/formula/term.h"
#include "engine/case/range.h"

namespace lobewise::cost {

inline constexpr double kJoulePerKilowattHour = 3.6e6;
/// A year of the calendar, s (Julian year).
inline constexpr double kYear = 31557600;

/// One block of the duty at the output of the reducer.
struct Load {
  double time_share = 0;    ///< of the running time, 0 … 1
  double output_power = 0;  ///< W, >= 0
};

/// Losses of a reducer: idle + slope x output power.
struct DriveLosses {
  Range idle_power;  ///< W, independent of the load
  Range slope;       ///< W lost per W of output power
};

/// Motor from its nameplate; losses fixed share + rest with the square of the load.
struct MotorNameplate {
  double rated_power = 0;  ///< W
  Range rated_efficiency;  ///< 0 … 1
  Range fixed_loss_share;  ///< part of the full-load losses that stays at no load
};
/// 0.35 (0.25 … 0.5); common practice, no source.
[[nodiscard]] Range usual_fixed_loss_share();

/// Shaft power of the motor at an output power: P_out (1 + slope) + idle.
template <class X>
[[nodiscard]] X shaft_power(const X& output_power, const X& idle, const X& slope) {
  return output_power * (1.0 + slope) + idle;
}
/// P_el = P_s + P_r (1/eta - 1)(f + (1 - f)(P_s/P_r)^2) of a motor that gives P_s.
template <class X>
[[nodiscard]] X motor_input(const X& shaft, const X& rated, const X& efficiency, const X& fixed_share) {
  using namespace formula;
  return shaft + rated * (1.0 / efficiency - 1.0) * (fixed_share + (1.0 - fixed_share) * pow(shaft / rated, 2.0));
}
/// The one of the other. Nominal values. Precondition: rated_power > 0, rated_efficiency > 0.
[[nodiscard]] double electric_power(const DriveLosses& losses, const MotorNameplate& motor, double output_power);
/// Mean electric power over the duty, W; the shares of time are taken as given (a rest is a block without power, motor
/// off, that need not be listed).
[[nodiscard]] double mean_electric_power(const DriveLosses& losses, const MotorNameplate& motor,
                                         const std::vector<Load>& duty);

/// Code of a country that the table has figures of, from its code or its English name in any case. Nothing else.
[[nodiscard]] std::optional<std::string_view> country_code(std::string_view said);
/// Codes of all of them, `AUS, BRA, …`.
[[nodiscard]] std::string known_countries();

/// Carbon intensity of a country's grid, kg CO2 per J, from data/energy_co2.csv; range ± 15 % for later years (common
/// practice, no source). @param iso3  e.g. `DEU`. Nothing when the table has no such row.
[[nodiscard]] std::optional<Range> grid_carbon(std::string_view iso3);

/// Industrial electricity price rows of a country.
struct EnergyPrice {
  Range price;                ///< money per J, in the row's own currency
  std::string_view currency;  ///< e.g. `EUR`
  int year = 0;
};
[[nodiscard]] std::vector<EnergyPrice> energy_prices(std::string_view iso3);

}  // namespace lobewise::cost
