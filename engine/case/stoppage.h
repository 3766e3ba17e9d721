#pragma once
// What stops a drive, how often and for how long.

#include <optional>
#include <string>
#include <vector>

#include "engine/case/range.h"

namespace lobewise::cost {

/// A part that fails and is then as new.
struct FailureMode {
  std::string name;
  Range shape;        ///< Weibull beta
  Range scale;        ///< Weibull eta, s of running
  Range repair_time;  ///< standstill with the part at hand, s of running time lost
  Range repair_cost;  ///< parts and work, money per event
};

/// The customer's own count; it replaces the modes.
struct StatedStoppages {
  Range per_year;
  Range repair_time;  ///< s of running time lost each, waiting included
  Range repair_cost;  ///< money each
};

struct Stoppages {
  std::vector<FailureMode> modes;
  std::optional<StatedStoppages> stated;
  double age = 0;  ///< running time already served, s
  bool spare_on_shelf = false;
  Range spare_wait;  ///< calendar time until a part comes when there is none, s
};

/// Expected failures of a part in each year of running, each one replaced by a new part; the first is `age` old.
/// @param age, running_time  s;  @param years  >= 1
[[nodiscard]] std::vector<double> failures_by_year(const FailureMode& mode, double age, double running_time, int years);

/// Weibull parameters of a machine part from data/weibull.csv; eta spreads over orders of magnitude, hence logarithmic.
/// Nothing when the table has no such item.
struct WeibullRanges {
  Range shape, scale;
};
[[nodiscard]] std::optional<WeibullRanges> weibull_ranges(const std::string& item);

/// Modes for a drive whose own history nobody knows: rolling bearings, shaft seals, teeth or lobes, and the belt in
/// front. Geared, worm and cycloidal units get the same figures: no open field data says otherwise, so a difference in
/// stoppages must come from the customer's history or from the age of what stands. Repair times and shares of the
/// price: common practice, no source.
/// @param unit_price  of a replacement unit, money;  @param belt  a belt drive in front
[[nodiscard]] std::vector<FailureMode> usual_modes(double unit_price, bool belt);

}  // namespace lobewise::cost
