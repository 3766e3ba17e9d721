#include "apps/handover/axis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace lobewise::handover {
namespace {

double round_step(double rough) {
  const double decade = std::pow(10.0, std::floor(std::log10(rough)));
  for (double m : {1.0, 2.0, 5.0})
    if (m * decade >= rough * (1 - 1e-9)) return m * decade;
  return 10 * decade;
}

std::string with_thousands(std::string digits) {
  const std::size_t start = digits[0] == '-' ? 1 : 0;
  std::size_t point = std::min(digits.find('.'), digits.size());
  if (point - start < 5) return digits;  // four digits read well without a gap
  while (point > start + 3) {
    point -= 3;
    digits.insert(point, "\u202f");
  }
  return digits;
}

}  // namespace

double Axis::share(double value) const {
  if (log) return std::log(value / low) / std::log(high / low);
  return (value - low) / (high - low);
}

std::string tick_label(double value, double step) {
  const int decimals = std::clamp(static_cast<int>(-std::floor(std::log10(step) + 1e-9)), 0, 9);
  if (std::abs(value) < step * 1e-6) value = 0;
  if (std::abs(value) >= 1e7) {
    const int power = static_cast<int>(std::floor(std::log10(std::abs(value)) + 1e-9));
    return fmt::format("{:.3g}e{}", value / std::pow(10.0, power), power);
  }
  return with_thousands(fmt::format("{:.{}f}", value, decimals));
}

Axis linear_axis(double from, double to, int most) {
  if (!(to > from)) {
    const double room = from == 0 ? 1 : 0.1 * std::abs(from);
    from -= room;
    to += room;
  }
  const double step = round_step((to - from) / (most - 1));
  Axis axis;
  const double first = std::floor(from / step + 1e-9), last = std::ceil(to / step - 1e-9);
  axis.low = first * step;
  axis.high = last * step;
  for (double k = first; k <= last + 0.5; ++k) axis.ticks.push_back({k * step, tick_label(k * step, step)});
  return axis;
}

Axis log_axis(double from, double to, int most) {
  Axis axis;
  axis.log = true;
  const int first = static_cast<int>(std::floor(std::log10(from) + 1e-9));
  int last = static_cast<int>(std::ceil(std::log10(to) - 1e-9));
  if (last == first) ++last;
  axis.low = std::pow(10.0, first);
  axis.high = std::pow(10.0, last);
  const int decades = last - first;
  const int stride = std::max(1, (decades + most - 1) / most);
  for (int d = first; d <= last; ++d) {
    if ((d - first) % stride != 0) continue;
    const double decade = std::pow(10.0, d);
    for (double m : {1.0, 2.0, 5.0}) {
      if (m > 1 && (3 * decades > most || d == last)) continue;
      axis.ticks.push_back({m * decade, tick_label(m * decade, std::min(m * decade, 1.0))});
      if (m * decade < 1) axis.ticks.back().label = tick_label(m * decade, decade);
    }
  }
  return axis;
}

Axis tight(Axis axis, double from, double to) {
  if (!(to > from)) return axis;
  axis.low = from;
  axis.high = to;
  const double slack = 1e-9 * (to - from);
  axis.ticks.erase(std::remove_if(axis.ticks.begin(), axis.ticks.end(),
                                  [&](const Tick& t) { return t.value < from - slack || t.value > to + slack; }),
                   axis.ticks.end());
  return axis;
}

}  // namespace lobewise::handover
