#include "engine/case/stoppage.h"

#include <numeric>

#include "data/weibull.h"
#include "engine/case/weibull.h"

namespace lobewise::cost {
namespace {

constexpr double kHour = 3600;

FailureMode mode(const char* name, const char* item, double low_hours, double hours, double high_hours,
                 double price_share, double unit_price) {
  const std::optional<WeibullRanges> w = weibull_ranges(item);
  FailureMode m;
  m.name = name;
  if (w) {
    m.shape = w->shape;
    m.scale = w->scale;
  }
  m.repair_time = range(low_hours * kHour, hours * kHour, high_hours * kHour, "common practice, no source");
  m.repair_cost = range(0.5 * price_share * unit_price, price_share * unit_price, 2 * price_share * unit_price,
                        "share of the unit's price; common practice, no source");
  return m;
}

}  // namespace

std::vector<double> failures_by_year(const FailureMode& mode, double age, double running_time, int years) {
  std::vector<double> failures =
      cumulative_failures({mode.shape.nominal, mode.scale.nominal}, age, running_time, years);
  std::adjacent_difference(failures.begin(), failures.end(), failures.begin());
  return failures;
}

std::optional<WeibullRanges> weibull_ranges(const std::string& item) {
  for (const data::WeibullRow& row : data::kWeibull) {
    if (row.item == item) {
      const std::string source = "[weibull_table] data/weibull.csv, " + item + ": " + std::string(row.source) + " (" +
                                 std::string(row.status) + ")";
      return WeibullRanges{range(row.beta_low, row.beta_typical, row.beta_high, source),
                           log_range(row.eta_low_h * kHour, row.eta_typical_h * kHour, row.eta_high_h * kHour, source)};
    }
  }
  return std::nullopt;
}

std::vector<FailureMode> usual_modes(double unit_price, bool belt) {
  std::vector<FailureMode> modes;
  modes.push_back(mode("rolling bearings", "roller bearing", 4, 10, 30, 0.15, unit_price));
  modes.push_back(mode("shaft seals", "seal, mechanical", 2, 4, 10, 0.03, unit_price));
  modes.push_back(mode("teeth or lobes", "gear (set)", 6, 16, 60, 0.5, unit_price));
  if (belt) {
    modes.push_back(mode("belts", "belt, drive", 0.5, 1.5, 4, 0.03, unit_price));
  }
  return modes;
}

}  // namespace lobewise::cost
