#include "apps/handover/bar_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <vector>

#include "apps/handover/chart_parts.h"
#include "apps/handover/text.h"

namespace lobewise::handover::chart {
namespace {

using Json = nlohmann::json;

/// Value at a bar's end: three digits are enough beside a length.
std::string short_number(double value) {
  if (value == 0) return "0";
  const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 2);
  return tick_label(std::round(value / step) * step, std::min(step, std::abs(value) >= 100 ? 1.0 : step));
}

/// A bar; the points of one series stand together under its name.
struct Bar {
  std::string name;       ///< empty from the second bar of a group on
  std::size_t place = 0;  ///< in its group
  double value = 0;
  double top = 0;  ///< [pt]
};

class BarChart {
 public:
  BarChart(const Json& chart, const std::string& units, double width)
      : chart_(chart), units_(units), width_(width), log_(chart["log_y"]) {
    Span span;
    for (Series& s : read_series(chart, units)) {
      span.add(s.y, log_);
      if (s.dashed) {
        limits_.push_back({fmt::format("{} {}", s.name, short_number(s.y[0])), s.y[0]});
        continue;
      }
      for (std::size_t i = 0; i < s.y.size(); ++i) bars_.push_back({i == 0 ? s.name : "", i, s.y[i], 0});
    }
    if (span.empty() || bars_.empty()) return;
    span.low = log_ ? std::pow(10.0, std::floor(std::log10(span.low))) : std::min(0.0, span.low);
    span.high = log_ ? span.high : std::max(0.0, span.high);
    name_room_ = width * 0.38;
    for (const Bar& bar : bars_) left_ = std::max(left_, widest(fold(bar.name, name_room_, 2)));
    left_ += 8;
    right_ = width - 42;
    if (!log_ && span.low < 0) left_ += 34;  // room for the value beside a bar to the left
    axis_ = axis_across(span, log_, right_ - left_);
    if (chart["pair"].size() == 2) legend_ = kFont * 1.9;
    place_limits();
    top_ = legend_ + (rows_ == 0 ? 4 : rows_ * kRow + 3);
    bottom_ = top_;
    for (Bar& bar : bars_) {
      if (bar.place == 0 && bottom_ > top_) bottom_ += kBetween;
      bar.top = bottom_ + (bar.place == 0 ? kBetween / 2 : 0);
      bottom_ = bar.top + kBar;
    }
    bottom_ += kBetween / 2;
  }

  std::string draw() const {
    if (bars_.empty()) return "";
    const double height = bottom_ + kFont * 3.2, zero = px(log_ ? axis_.low : 0);
    std::string out = open_svg(width_, height, chart_) + legend() + grid();
    for (const Bar& bar : bars_) out += draw_bar(bar, zero);
    out += line(zero, top_, zero, bottom_, "rule");
    for (const Limit& limit : limits_) {
      const double foot = legend_ + kRow * (limit.row + 1);
      out += line(px(limit.value), foot, px(limit.value), bottom_, "limit");
      out += text(limit.middle, foot - 2.5, "middle", limit.label, " class=\"name\"");
    }
    for (const Bar& bar : bars_) out += words_of(bar, zero);
    return out + text(right_, height - 1.5, "end", axis_title(chart_, "y", units_), " class=\"axis\"") + "</svg>";
  }

 private:
  static constexpr double kBar = 9, kBetween = 5, kRow = kFont * 1.25;  ///< [pt]

  struct Limit {
    std::string label;
    double value = 0;
    double middle = 0;  ///< of its label [pt]
    int row = 0;        ///< of its label, from the top
  };

  /// Labels of limits that stand close go one above the other.
  void place_limits() {
    std::vector<double> free_from;  // of every row
    std::sort(limits_.begin(), limits_.end(), [](const Limit& a, const Limit& b) { return a.value < b.value; });
    for (Limit& limit : limits_) {
      const double half = text_width(limit.label) / 2;
      limit.middle = std::clamp(px(limit.value), half, width_ - half);
      while (limit.row < static_cast<int>(free_from.size()) &&
             limit.middle - half < free_from[static_cast<std::size_t>(limit.row)])
        ++limit.row;
      free_from.resize(std::max(free_from.size(), static_cast<std::size_t>(limit.row) + 1));
      free_from[static_cast<std::size_t>(limit.row)] = limit.middle + half + 5;
    }
    rows_ = static_cast<int>(free_from.size());
    // Two or three: the outer labels stand outside of their lines.
    const std::size_t n = limits_.size();
    if (rows_ == 1 || n > 3) return;
    rows_ = n == 2 ? 1 : 2;
    for (std::size_t i = 0; i < n; ++i) {
      Limit& limit = limits_[i];
      const double half = text_width(limit.label) / 2 + 3, aside = i == 0 ? -half : i + 1 == n ? half : 0;
      limit.middle = std::clamp(px(limit.value) + aside, half, width_ - half);
      limit.row = aside == 0 ? 0 : rows_ - 1;
    }
  }

  /// What the first and the second bar of every group are.
  [[nodiscard]] std::string legend() const {
    if (legend_ == 0) return "";
    std::string out;
    double x = left_;
    for (std::size_t i = 0; i < 2; ++i) {
      const std::string name = clean(chart_["pair"][i].get<std::string>());
      out += fmt::format("<rect x=\"{:.1f}\" y=\"1\" width=\"9\" height=\"{}\" class=\"{}\"/>", x, kBar - 0.6,
                         i == 0 ? "bar" : "bar second");
      out += text(x + 13, 1 + kBar / 2 + kFont * 0.35, "start", name, " class=\"name\"");
      x += 13 + text_width(name) + 16;
    }
    return out;
  }

  [[nodiscard]] double px(double value) const {
    return left_ + (right_ - left_) * std::clamp(axis_.share(value), 0.0, 1.0);
  }

  [[nodiscard]] std::string grid() const {
    std::string out;
    for (const Tick& t : axis_.ticks) {
      out += line(px(t.value), top_, px(t.value), bottom_, "grid");
      out += text(px(t.value), bottom_ + kFont + 2, "middle", t.label);
    }
    return out;
  }

  [[nodiscard]] double end_of(const Bar& bar, double zero) const {
    return log_ && bar.value <= 0 ? zero : px(bar.value);
  }
  [[nodiscard]] std::string draw_bar(const Bar& bar, double zero) const {
    if (log_ && bar.value <= 0) return "";
    const double end = end_of(bar, zero), low = std::min(zero, end), high = std::max(zero, end);
    return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{}\" class=\"{}\"/>", low, bar.top,
                       std::max(0.4, high - low), kBar - 0.6, bar.place == 0 ? "bar" : "bar second");
  }
  /// Its name and its value.
  [[nodiscard]] std::string words_of(const Bar& bar, double zero) const {
    const double base = bar.top + kBar / 2 + kFont * 0.35, end = end_of(bar, zero);
    std::string out;
    const std::vector<std::string> parts = fold(bar.name, name_room_, 2);
    for (std::size_t i = 0; i < parts.size() && !bar.name.empty(); ++i)
      out += text(name_end(), base + (i == 0 && parts.size() > 1 ? -0.5 : i == 0 ? 0 : 0.5) * kFont, "end", parts[i]);
    const bool backwards = end < zero;
    return out + text(backwards ? end - 3 : end + 3, base, backwards ? "end" : "start", short_number(bar.value),
                      " class=\"name halo\"");
  }
  /// Names stand left of everything that is drawn.
  [[nodiscard]] double name_end() const { return !log_ && axis_.low < 0 ? left_ - 39 : left_ - 5; }

  const Json& chart_;
  const std::string& units_;
  double width_;
  bool log_;
  std::vector<Bar> bars_;
  std::vector<Limit> limits_;
  Axis axis_;
  int rows_ = 0;       ///< of the labels of limits
  double legend_ = 0;  ///< height above everything else [pt]
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, name_room_ = 0;
};

}  // namespace

std::string bar_chart(const Json& chart, const std::string& units, double width) {
  return BarChart(chart, units, width).draw();
}

}  // namespace lobewise::handover::chart
