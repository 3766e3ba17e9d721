#pragma once
// Discounted cash flow. Flows are yearly, the first one now; a saving is positive.

#include <optional>
#include <span>

namespace lobewise::cost {

/// Net present value: sum of flow_t / (1 + rate)^t, t = 0, 1, …  Textbook definition.
/// @param rate  per year, > -1
[[nodiscard]] double net_present_value(double rate, std::span<const double> flows);

/// Internal rate of return: the rate at which the present value is zero.
struct ReturnRate {
  std::optional<double>
      rate;  ///< the one nearest to zero; nothing when the flows never change sign or no rate balances them
  bool ambiguous = false;  ///< the flows change sign more than once, so that several rates may balance them
};
/// Searched between -99 % and 10 000 % on a fine grid, then bisected to 1e-12.
[[nodiscard]] ReturnRate internal_rate_of_return(std::span<const double> flows);

/// Years until the summed flows turn positive for good, with the year's flow spread evenly over it; nothing when never.
/// @param rate  0 for the simple payback
[[nodiscard]] std::optional<double> payback(double rate, std::span<const double> flows);

}  // namespace lobewise::cost
