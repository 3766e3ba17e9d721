#pragma once
// What line and bar charts share: reading a chart of the engine, axes, text and marks. Lengths on paper in points.

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "apps/handover/axis.h"

namespace lobewise::handover::chart {

constexpr double kFont = 7.5;           ///< size of all text
constexpr double kLine = 1.15 * kFont;  ///< from one line of a label to the next
constexpr int kTicksAcross = 6, kTicksUp = 6;

[[nodiscard]] double text_width(const std::string& text);

struct Series {
  std::string name;
  std::vector<double> x, y;  ///< as shown, not SI
  bool dashed = false;
  bool band = false;

  [[nodiscard]] bool point() const { return x.size() == 1; }
  /// A limit on what the chart goes along.
  [[nodiscard]] bool upright() const { return dashed && x.size() > 1 && x.front() == x.back(); }
};
/// @param units  `si` or `us`
[[nodiscard]] std::vector<Series> read_series(const nlohmann::json& chart, const std::string& units);

/// @param axis  `x` or `y`
[[nodiscard]] std::string axis_title(const nlohmann::json& chart, const std::string& axis, const std::string& units);

/// From the least to the largest of what was added.
struct Span {
  double low = INFINITY, high = -INFINITY;
  void add(const std::vector<double>& values, bool positive_only);
  [[nodiscard]] bool empty() const { return low > high; }
};
/// Axis over the data; from zero when the data come near it.
[[nodiscard]] Axis axis_over(Span span, bool log, int most);
/// The same for an axis from left to right, with as many marks as have room for their labels.
[[nodiscard]] Axis axis_across(Span span, bool log, double room);

/// A name in lines of about `room` points, as few as will do and `most` at most.
[[nodiscard]] std::vector<std::string> fold(const std::string& name, double room, std::size_t most);
[[nodiscard]] double widest(const std::vector<std::string>& lines);

[[nodiscard]] std::string open_svg(double width, double height, const nlohmann::json& chart);
[[nodiscard]] std::string text(double x, double y, const char* anchor, const std::string& words,
                               const char* extra = "");
[[nodiscard]] std::string line(double x1, double y1, double x2, double y2, const char* kind);
/// One of five marks that tell series apart without colour.
[[nodiscard]] std::string mark(std::size_t kind, double x, double y);

}  // namespace lobewise::handover::chart
