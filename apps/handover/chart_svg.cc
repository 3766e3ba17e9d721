#include "apps/handover/chart_svg.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "apps/handover/axis.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

using Json = nlohmann::json;

constexpr double kFont = 7.5;  ///< size of all text [pt]
constexpr int kTicksAcross = 6, kTicksUp = 6;

/// Mean width of a character of the sans face over its size; measured on the labels of the demo charts.
double text_width(const std::string& text) { return 0.53 * kFont * static_cast<double>(code_points(text).size()); }

struct Series {
  std::string name;
  std::vector<double> x, y;  ///< as shown, not SI
  bool dashed = false;
};

struct Scale {
  std::string unit;
  double factor = 1, offset = 0;
  [[nodiscard]] double shown(double si) const { return (si - offset) / factor; }
};

Scale scale_of(const Json& unit) { return {unit["unit"], unit["factor"], unit["offset"]}; }

std::string axis_title(const Json& label, const Scale& scale) {
  const std::string text = label;
  return scale.unit.empty() ? text : fmt::format("{} [{}]", text, scale.unit);
}

std::vector<Series> read_series(const Json& chart, const Scale& sx, const Scale& sy) {
  std::vector<Series> all;
  for (const Json& json : chart["series"]) {
    Series s;
    s.name = clean(json["name"].get<std::string>());
    s.dashed = json["dashed"];
    const std::size_t count = std::min(json["x"].size(), json["y"].size());
    for (std::size_t i = 0; i < count; ++i) {
      s.x.push_back(sx.shown(json["x"][i]));
      s.y.push_back(sy.shown(json["y"][i]));
    }
    if (count > 0) all.push_back(std::move(s));
  }
  return all;
}

struct Span {
  double low = INFINITY, high = -INFINITY;
  void add(const std::vector<double>& values, bool positive_only) {
    for (double v : values)
      if (std::isfinite(v) && (!positive_only || v > 0)) {
        low = std::min(low, v);
        high = std::max(high, v);
      }
  }
  [[nodiscard]] bool empty() const { return low > high; }
};

/// Axis over the data; from zero when the data come near it.
Axis axis_over(Span span, bool log, int most) {
  if (log) return log_axis(span.low, span.high, most);
  if (span.low > 0 && span.low < 0.5 * span.high) span.low = 0;
  return linear_axis(span.low, span.high, most);
}

std::string text(double x, double y, const char* anchor, const std::string& words, const char* extra = "") {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\"{}>{}</text>", x, y, anchor, extra,
                     markup(words));
}
std::string line(double x1, double y1, double x2, double y2, const char* kind) {
  return fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" class=\"{}\"/>", x1, y1, x2, y2,
                     kind);
}

std::string open_svg(double width, double height, const Json& chart) {
  const std::string title = markup(chart["title"].get<std::string>());
  return fmt::format(
      "<svg class=\"chart\" viewBox=\"0 0 {0:.0f} {1:.0f}\" width=\"{0:.0f}pt\" height=\"{1:.0f}pt\" role=\"img\" "
      "aria-label=\"{2}\" xmlns=\"http://www.w3.org/2000/svg\"><title>{2}</title>",
      width, height, title);
}

/// One of five marks that tell series apart without colour.
std::string mark(std::size_t kind, double x, double y) {
  constexpr double r = 2.3;
  switch (kind % 5) {
    case 0:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\" class=\"mark full\"/>", x, y, r);
    case 1:
      return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{}\" height=\"{}\" class=\"mark\"/>", x - r, y - r,
                         2 * r, 2 * r);
    case 2:
      return fmt::format("<path d=\"M{:.1f} {:.1f}l{} {}h{}z\" class=\"mark full\"/>", x, y - r * 1.2, r * 1.1, r * 2,
                         -2.2 * r);
    case 3:
      return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{}\" class=\"mark\"/>", x, y, r);
    default:
      return fmt::format("<path d=\"M{0:.1f} {1:.1f}l{2} {2}l-{2} {2}l-{2} -{2}z\" class=\"mark full\"/>", x, y - 3.0,
                         3.0);
  }
}

struct Label {
  double y = 0;  ///< wanted, then placed [pt]
  std::string name;
};

/// Moves labels apart so that none covers another, inside [top, bottom].
void spread(std::vector<Label>& labels, double top, double bottom) {
  constexpr double kGap = kFont * 1.15;
  std::sort(labels.begin(), labels.end(), [](const Label& a, const Label& b) { return a.y < b.y; });
  double least = top;
  for (Label& label : labels) {
    label.y = std::max(label.y, least);
    least = label.y + kGap;
  }
  double most = bottom;
  for (auto label = labels.rbegin(); label != labels.rend(); ++label) {
    label->y = std::min(label->y, most);
    most = label->y - kGap;
  }
}

/// A name in at most two lines of about `room` points.
std::vector<std::string> fold(const std::string& name, double room) {
  if (text_width(name) <= room) return {name};
  std::size_t best = std::string::npos;
  for (std::size_t i = name.find(' '); i != std::string::npos; i = name.find(' ', i + 1))
    if (best == std::string::npos || text_width(name.substr(0, i)) <= room) best = i;
  if (best == std::string::npos) return {name};
  return {name.substr(0, best), name.substr(best + 1)};
}

class LineChart {
 public:
  LineChart(const Json& chart, const std::string& units, double width, double height)
      : chart_(chart),
        sx_(scale_of(chart["x_unit"][units])),
        sy_(scale_of(chart["y_unit"][units])),
        series_(read_series(chart, sx_, sy_)),
        width_(width),
        height_(height) {}

  std::string draw() {
    const bool log_x = chart_["log_x"], log_y = chart_["log_y"];
    Span over_x, over_y;
    for (const Series& s : series_) {
      over_x.add(s.x, log_x);
      over_y.add(s.y, log_y);
    }
    if (over_x.empty() || over_y.empty()) return "";
    y_ = axis_over(over_y, log_y, kTicksUp);
    x_ = tight(axis_over(over_x, log_x, kTicksAcross), over_x.low, over_x.high);
    set_margins();
    std::string out = open_svg(width_, height_, chart_) + grid();
    for (std::size_t i = 0; i < series_.size(); ++i) out += draw_series(series_[i], i);
    return out + labels() + "</svg>";
  }

 private:
  void set_margins() {
    double widest = 0, name = 0;
    for (const Tick& t : y_.ticks) widest = std::max(widest, text_width(t.label));
    left_ = widest + 8;
    label_room_ = width_ * 0.26;
    for (const Series& s : series_)
      for (const std::string& part : fold(s.name, label_room_)) name = std::max(name, text_width(part));
    right_ = width_ - std::min(name, label_room_ * 1.2) - 8;
    top_ = kFont * 1.9;
    bottom_ = height_ - kFont * 2.9;
  }
  [[nodiscard]] double px(double value) const { return left_ + (right_ - left_) * x_.share(value); }
  [[nodiscard]] double py(double value) const {
    return bottom_ - (bottom_ - top_) * std::clamp(y_.share(value), -0.05, 1.05);
  }

  [[nodiscard]] std::string grid() const {
    std::string out = text(0, kFont, "start", axis_title(chart_["y_label"], sy_), " class=\"axis\"");
    for (const Tick& t : y_.ticks) {
      out += line(left_, py(t.value), right_, py(t.value), "grid");
      out += text(left_ - 4, py(t.value) + kFont * 0.35, "end", t.label);
    }
    double free_from = -INFINITY;
    for (const Tick& t : x_.ticks) {
      out += line(px(t.value), bottom_, px(t.value), bottom_ + 3, "rule");
      const double half = text_width(t.label) / 2;
      if (px(t.value) - half < free_from) continue;
      out += text(px(t.value), bottom_ + 3 + kFont, "middle", t.label);
      free_from = px(t.value) + half + 4;
    }
    out += line(left_, bottom_, right_, bottom_, "rule");
    return out + text(right_, height_ - 1.5, "end", axis_title(chart_["x_label"], sx_), " class=\"axis\"");
  }

  [[nodiscard]] std::string draw_series(const Series& s, std::size_t index) const {
    if (s.x.size() == 1) return mark(4, px(s.x[0]), py(s.y[0]));
    std::string points;
    for (std::size_t i = 0; i < s.x.size(); ++i) {
      const bool off = (x_.log && s.x[i] <= 0) || (y_.log && s.y[i] <= 0);
      if (!off) points += fmt::format("{:.1f},{:.1f} ", px(s.x[i]), py(s.y[i]));
    }
    std::string out = fmt::format("<polyline points=\"{}\" class=\"{}\"/>", points, s.dashed ? "limit" : "series");
    if (s.dashed || solid_count() < 2) return out;
    double next = left_ + 12 + 9 * static_cast<double>(index);  // staggered, so that marks of near lines do not meet
    for (std::size_t i = 0; i < s.x.size(); ++i) {
      if (px(s.x[i]) < next) continue;
      out += mark(index, px(s.x[i]), py(s.y[i]));
      next = px(s.x[i]) + (right_ - left_) / 6;
    }
    return out;
  }
  [[nodiscard]] std::ptrdiff_t solid_count() const {
    return std::count_if(series_.begin(), series_.end(), [](const Series& s) { return !s.dashed && s.x.size() > 1; });
  }

  /// Names beside the ends of the lines; a single point carries its name itself.
  [[nodiscard]] std::string labels() const {
    std::string out;
    std::vector<Label> beside;
    for (const Series& s : series_) {
      const std::vector<std::string> parts = fold(s.name, label_room_);
      if (s.x.size() == 1) {
        const bool right = px(s.x[0]) + text_width(s.name) + 6 < right_;
        out += text(px(s.x[0]) + (right ? 5 : -5), py(s.y[0]) - 3, right ? "start" : "end", s.name, " class=\"name\"");
        continue;
      }
      double y = py(s.y.back()) + kFont * 0.35 - (parts.size() > 1 ? kFont * 0.55 : 0);
      for (const std::string& part : parts) {
        beside.push_back({y, part});
        y += 1e-3;  // keeps the lines of one name together when sorted
      }
    }
    spread(beside, top_ + kFont * 0.35, bottom_ + kFont * 0.35);
    for (const Label& label : beside) out += text(right_ + 5, label.y, "start", label.name, " class=\"name\"");
    return out;
  }

  const Json& chart_;
  Scale sx_, sy_;
  std::vector<Series> series_;
  double width_, height_;
  Axis x_, y_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, label_room_ = 0;
};

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
      : chart_(chart), scale_(scale_of(chart["y_unit"][units])), width_(width), log_(chart["log_y"]) {
    Span span;
    for (Series& s : read_series(chart, scale_of(chart["x_unit"][units]), scale_)) {
      span.add(s.y, log_);
      if (s.dashed) {
        limits_.push_back(std::move(s));
        continue;
      }
      for (std::size_t i = 0; i < s.y.size(); ++i) bars_.push_back({i == 0 ? s.name : "", i, s.y[i], 0});
    }
    if (span.empty() || bars_.empty()) return;
    span.low = log_ ? span.low : std::min(0.0, span.low);
    span.high = log_ ? span.high : std::max(0.0, span.high);
    axis_ = axis_over(span, log_, kTicksAcross);
    name_room_ = width * 0.38;
    for (const Bar& bar : bars_)
      for (const std::string& part : fold(bar.name, name_room_)) left_ = std::max(left_, text_width(part));
    left_ += 8;
    right_ = width - 42;
    if (!log_ && span.low < 0) left_ += 34;  // room for the value beside a bar to the left
    top_ = limits_.empty() ? 4 : kFont * 1.6;
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
    std::string out = open_svg(width_, height, chart_) + grid();
    for (const Bar& bar : bars_) out += draw_bar(bar, zero);
    out += line(zero, top_, zero, bottom_, "rule");
    for (const Series& s : limits_) {
      out += line(px(s.y[0]), top_ - 3, px(s.y[0]), bottom_, "limit");
      out +=
          text(px(s.y[0]), top_ - 5, "middle", fmt::format("{} {}", s.name, short_number(s.y[0])), " class=\"name\"");
    }
    return out + text(right_, height - 1.5, "end", axis_title(chart_["y_label"], scale_), " class=\"axis\"") + "</svg>";
  }

 private:
  static constexpr double kBar = 9, kBetween = 5;  ///< [pt]

  [[nodiscard]] double px(double value) const {
    return left_ + (right_ - left_) * std::clamp(axis_.share(value), 0.0, 1.0);
  }

  [[nodiscard]] std::string grid() const {
    std::string out;
    double free_from = -INFINITY;
    for (const Tick& t : axis_.ticks) {
      out += line(px(t.value), top_, px(t.value), bottom_, "grid");
      const double half = text_width(t.label) / 2;
      if (px(t.value) - half < free_from) continue;
      out += text(px(t.value), bottom_ + kFont + 2, "middle", t.label);
      free_from = px(t.value) + half + 4;
    }
    return out;
  }

  [[nodiscard]] std::string draw_bar(const Bar& bar, double zero) const {
    const double base = bar.top + kBar / 2 + kFont * 0.35;
    std::string out;
    const std::vector<std::string> parts = fold(bar.name, name_room_);
    for (std::size_t i = 0; i < parts.size() && !bar.name.empty(); ++i)
      out += text(name_end(), base + (i == 0 && parts.size() > 1 ? -0.5 : i == 0 ? 0 : 0.5) * kFont, "end", parts[i]);
    const bool none = log_ && bar.value <= 0;
    const double end = none ? zero : px(bar.value), low = std::min(zero, end), high = std::max(zero, end);
    if (!none)
      out += fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{}\" class=\"{}\"/>", low, bar.top,
                         std::max(0.4, high - low), kBar - 0.6, bar.place == 0 ? "bar" : "bar second");
    const bool backwards = end < zero;
    return out + text(backwards ? low - 3 : high + 3, base, backwards ? "end" : "start", short_number(bar.value),
                      " class=\"name halo\"");
  }
  /// Names stand left of everything that is drawn.
  [[nodiscard]] double name_end() const { return !log_ && axis_.low < 0 ? left_ - 39 : left_ - 5; }

  const Json& chart_;
  Scale scale_;
  double width_;
  bool log_;
  std::vector<Bar> bars_;
  std::vector<Series> limits_;
  Axis axis_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, name_room_ = 0;
};

}  // namespace

std::string chart_svg(const Json& chart, const std::string& units, double width, double height) {
  return chart["bars"].get<bool>() ? BarChart(chart, units, width).draw()
                                   : LineChart(chart, units, width, height).draw();
}

}  // namespace lobewise::handover
