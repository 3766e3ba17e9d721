#pragma once
// Where an axis begins and ends and where its marks stand.

#include <string>
#include <vector>

namespace lobewise::handover {

struct Tick {
  double value = 0;
  std::string label;
};

/// A linear or logarithmic axis that covers its data with round numbers at the marks.
struct Axis {
  double low = 0, high = 1;  ///< low < high; both > 0 when logarithmic
  bool log = false;
  std::vector<Tick> ticks;

  /// 0 at low, 1 at high; outside values give shares below 0 or above 1.
  [[nodiscard]] double share(double value) const;
};

/// Axis from round number to round number, steps of 1, 2 or 5 times a power of ten.
/// @param from, to  data; equal values are widened
/// @param most      ticks wanted at most, >= 2
[[nodiscard]] Axis linear_axis(double from, double to, int most);
/// From a 1, 2 or 5 of a decade to another, marks at these where there is room, else at decades; precondition: 0 < from
/// <= to.
[[nodiscard]] Axis log_axis(double from, double to, int most);
/// As the above with the ends at the data itself: for the horizontal axis of a line chart.
[[nodiscard]] Axis tight(Axis axis, double from, double to);

/// Number for an axis: thousands separated by a thin blank, no exponent below 1e6.
[[nodiscard]] std::string tick_label(double value, double step);

}  // namespace lobewise::handover
