#include "apps/handover/line_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <vector>

#include "apps/handover/chart_parts.h"
#include "apps/handover/label_place.h"

namespace lobewise::handover::chart {
namespace {

using Json = nlohmann::json;

/// Lines of one name, one above the other.
struct Label {
  double y = 0;  ///< of the first line: wanted, then placed [pt]
  std::vector<std::string> lines;
  std::size_t series = 0;
  [[nodiscard]] double height() const { return kLine * static_cast<double>(lines.size()); }
};

/// Moves labels apart so that none covers another, inside [top, bottom].
void spread(std::vector<Label>& labels, double top, double bottom) {
  std::stable_sort(labels.begin(), labels.end(), [](const Label& a, const Label& b) { return a.y < b.y; });
  double least = top;
  for (Label& label : labels) {
    label.y = std::max(label.y, least);
    least = label.y + label.height();
  }
  double most = bottom + kLine;
  for (auto label = labels.rbegin(); label != labels.rend(); ++label) {
    label->y = std::min(label->y, most - label->height());
    most = label->y;
  }
}

class LineChart {
 public:
  LineChart(const Json& chart, const std::string& units, double width, double height)
      : chart_(chart), units_(units), series_(read_series(chart, units)), width_(width), height_(height) {}

  std::string draw() {
    const bool log_x = chart_["log_x"], log_y = chart_["log_y"];
    Span over_x, over_y;
    for (const Series& s : series_) {
      over_x.add(s.x, log_x);
      over_y.add(s.y, log_y);
    }
    if (over_x.empty() || over_y.empty()) return "";
    y_ = axis_over(over_y, log_y, kTicksUp);
    set_margins();
    x_ = tight(axis_across(over_x, log_x, right_ - left_), over_x.low, over_x.high);
    std::string out = open_svg(width_, height_, chart_) + grid();
    for (const Series& s : series_)
      if (s.band) out += fmt::format("<polyline points=\"{}\" class=\"band\"/>", points_of(s));
    for (std::size_t i = 0; i < series_.size(); ++i) out += draw_series(series_[i], i);
    return out + end_labels() + inner_labels() + "</svg>";
  }

 private:
  void set_margins() {
    double tick = 0, name = 0;
    for (const Tick& t : y_.ticks) tick = std::max(tick, text_width(t.label));
    left_ = tick + 8;
    label_room_ = width_ * 0.26;
    for (const Series& s : series_)
      if (at_its_end(s)) name = std::max(name, widest(fold(s.name, label_room_, 3)));
    sample_ = std::count_if(series_.begin(), series_.end(), at_its_end) > 1 ? 17 : 0;
    right_ = width_ - std::min(name, label_room_ * 1.2) - 8 - sample_;
    top_ = kFont * 1.9;
    bottom_ = height_ - kFont * 2.9;
  }
  /// Lines are named at their right end, everything else where it stands.
  [[nodiscard]] static bool at_its_end(const Series& s) { return !s.point() && !s.upright(); }
  [[nodiscard]] double px(double value) const { return left_ + (right_ - left_) * x_.share(value); }
  [[nodiscard]] double py(double value) const {
    return bottom_ - (bottom_ - top_) * std::clamp(y_.share(value), -0.05, 1.05);
  }

  [[nodiscard]] std::string grid() const {
    std::string out = text(0, kFont, "start", axis_title(chart_, "y", units_), " class=\"axis\"");
    for (const Tick& t : y_.ticks) {
      out += line(left_, py(t.value), right_, py(t.value), "grid");
      out += text(left_ - 4, py(t.value) + kFont * 0.35, "end", t.label);
    }
    for (const Tick& t : x_.ticks) {
      out += line(px(t.value), bottom_, px(t.value), bottom_ + 3, "rule");
      out += text(px(t.value), bottom_ + 3 + kFont, "middle", t.label);
    }
    out += line(left_, bottom_, right_, bottom_, "rule");
    return out + text(right_, height_ - 1.5, "end", axis_title(chart_, "x", units_), " class=\"axis\"");
  }

  [[nodiscard]] std::vector<Spot> spots_of(const Series& s) const {
    std::vector<Spot> spots;
    for (std::size_t i = 0; i < s.x.size(); ++i)
      if (!(x_.log && s.x[i] <= 0) && !(y_.log && s.y[i] <= 0)) spots.push_back({px(s.x[i]), py(s.y[i])});
    return spots;
  }
  [[nodiscard]] std::string points_of(const Series& s) const {
    std::string points;
    for (const Spot& spot : spots_of(s)) points += fmt::format("{:.1f},{:.1f} ", spot.x, spot.y);
    return points;
  }

  [[nodiscard]] std::string draw_series(const Series& s, std::size_t index) const {
    if (s.band) return "";
    if (s.point()) return mark(4, px(s.x[0]), py(s.y[0]));
    std::string out =
        fmt::format("<polyline points=\"{}\" class=\"{}\"/>", points_of(s), s.dashed ? "limit" : "series");
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
    return std::count_if(series_.begin(), series_.end(),
                         [](const Series& s) { return !s.dashed && !s.band && at_its_end(s); });
  }

  [[nodiscard]] std::string end_labels() const {
    std::vector<Label> labels;
    for (std::size_t i = 0; i < series_.size(); ++i) {
      if (!at_its_end(series_[i])) continue;
      Label label{py(series_[i].y.back()) + kFont * 0.35, fold(series_[i].name, label_room_, 3), i};
      label.y -= 0.5 * (label.height() - kLine);
      labels.push_back(std::move(label));
    }
    spread(labels, top_ + kFont * 0.35, bottom_ + kFont * 0.35);
    std::string out;
    for (const Label& label : labels) {
      for (std::size_t i = 0; i < label.lines.size(); ++i)
        out += text(right_ + 5 + sample_, label.y + kLine * static_cast<double>(i), "start", label.lines[i],
                    " class=\"name\"");
      if (sample_ == 0) continue;
      const double y = label.y - kFont * 0.35;
      const Series& s = series_[label.series];
      out += line(right_ + 5, y, right_ + 18, y, s.band ? "band" : s.dashed ? "limit" : "series");
      if (!s.band && !s.dashed && solid_count() > 1) out += mark(label.series, right_ + 11.5, y);
    }
    return out;
  }

  /// Names of points and of upright limits, beside them.
  [[nodiscard]] std::string inner_labels() const {
    constexpr double kRoom = 5;
    LabelPlace place({left_ + 2, top_, right_ - 2, bottom_ - 1});
    for (const Series& s : series_) {
      const std::vector<Spot> spots = spots_of(s);
      if (s.point() && !spots.empty())
        place.keep_off({spots[0].x - 3, spots[0].y - 3, spots[0].x + 3, spots[0].y + 3});
      else
        place.avoid(spots);
    }
    std::string out;
    for (const Series& s : series_) {
      const std::vector<Spot> spots = spots_of(s);
      if (at_its_end(s) || spots.empty()) continue;
      const std::vector<std::string> lines = fold(s.name, 0.36 * (right_ - left_), 3);
      Spot spot = spots[spots.size() / 2];
      if (s.upright()) spot = {spots[0].x, top_};
      const double width = widest(lines);
      const Box box = place.beside(spot, width, kLine * static_cast<double>(lines.size()), kRoom);
      const bool right = box.left >= spot.x;
      for (std::size_t i = 0; i < lines.size(); ++i)
        out += text(right ? box.left : box.right, box.top + kFont * (0.9 + 1.15 * static_cast<double>(i)),
                    right ? "start" : "end", lines[i], " class=\"name halo\"");
    }
    return out;
  }

  const Json& chart_;
  const std::string& units_;
  std::vector<Series> series_;
  double width_, height_;
  Axis x_, y_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, label_room_ = 0;
  double sample_ = 0;  ///< width of the piece of line in front of a name
};

}  // namespace

std::string line_chart(const Json& chart, const std::string& units, double width, double height) {
  return LineChart(chart, units, width, height).draw();
}

}  // namespace lobewise::handover::chart
