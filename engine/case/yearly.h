#pragma once
// What an option costs in one year of the horizon. One template each over the scalar: a number is a year, a list of a
// recorded formula all years at once. Derived, docs/theory/case.md.

#include "engine/base/formula/term.h"
#include "engine/case/energy.h"

namespace lobewise::cost {

inline constexpr double kHour = 3600;

/// (1 + r)^-y: money of year y in money of today.
template <class X>
[[nodiscard]] X discount(const X& rate, const X& year) {
  using namespace formula;
  return pow(1.0 + rate, -year);
}

/// W p (1 + g)^(y - 1): energy of year y = 1, 2, … at a price that grows by g a year.
template <class X>
[[nodiscard]] X energy_cost(const X& energy, const X& price, const X& growth, const X& year) {
  using namespace formula;
  return energy * price * pow(1.0 + growth, year - 1.0);
}

/// W c (1 - d)^(y - 1): carbon of year y of a grid whose intensity falls by d a year [kg].
template <class X>
[[nodiscard]] X carbon_mass(const X& energy, const X& intensity, const X& decline, const X& year) {
  using namespace formula;
  return energy * intensity * pow(1.0 - decline, year - 1.0);
}

/// Lubricant and labour of a year.
template <class X>
[[nodiscard]] X upkeep_cost(const X& lubricant, const X& labour_time, const X& labour_rate) {
  return lubricant + labour_time / kHour * labour_rate;
}

/// Lost production: running time lost, at money an hour.
template <class X>
[[nodiscard]] X standstill_cost(const X& lost_time, const X& stop_cost) {
  return lost_time / kHour * stop_cost;
}

/// Running time lost while a part is awaited: of the calendar time the share in which the machine would have run.
template <class X>
[[nodiscard]] X awaited(const X& calendar_time, const X& running_time) {
  return calendar_time * running_time / kYear;
}

}  // namespace lobewise::cost
