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
  std::size_t point = std::min(digits.find('.'), digits.size());
  if (point < 5) return digits;  // four digits read well without a gap
  while (point > 3) {
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
  const std::string digits = with_thousands(fmt::format("{:.{}f}", std::abs(value), decimals));
  return value < 0 ? "\u2212" + digits : digits;
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
  constexpr double kClose = 1e-9;
  const int first = static_cast<int>(std::floor(std::log10(from) + kClose));
  const int last = static_cast<int>(std::ceil(std::log10(to) - kClose));
  std::vector<Tick> all, decades;  // between the marks next to the data
  for (int power = first; power <= last + 1; ++power)
    for (const double m : {1.0, 2.0, 5.0}) {
      const double decade = std::pow(10.0, power), value = m * decade;
      if (value <= from * (1 + kClose)) {
        all.clear();
        decades.clear();
      } else if (all.size() > 1 && all.back().value >= to * (1 - kClose)) {
        continue;
      }
      all.push_back({value, tick_label(value, std::min(decade, 1.0))});
      if (m == 1) decades.push_back(all.back());
    }
  Axis axis;
  axis.log = true;
  axis.low = all.front().value;
  axis.high = all.back().value;
  const std::size_t room = static_cast<std::size_t>(most) + 1;
  const std::vector<Tick>& chosen = all.size() <= room || decades.size() < 2 ? all : decades;
  const std::size_t stride = (chosen.size() + room - 1) / room;
  for (std::size_t i = 0; i < chosen.size(); i += stride) axis.ticks.push_back(chosen[i]);
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
