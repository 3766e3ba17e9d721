#include "apps/handover/chart_parts.h"

#include <fmt/format.h>

#include <algorithm>

#include "apps/handover/text.h"

namespace lobewise::handover::chart {

using Json = nlohmann::json;

namespace {

struct Scale {
  double factor = 1, offset = 0;
  [[nodiscard]] double shown(double si) const { return (si - offset) / factor; }
};

Scale scale_of(const Json& unit) { return {unit["factor"], unit["offset"]}; }

}  // namespace

/// Mean width of a character of the sans face over its size; measured on the labels of the demo charts.
double text_width(const std::string& text) { return 0.53 * kFont * static_cast<double>(code_points(text).size()); }

std::string axis_title(const Json& chart, const std::string& axis, const std::string& units) {
  const std::string label = chart[axis + "_label"], unit = chart[axis + "_unit"][units]["unit"];
  return unit.empty() ? label : typeset(fmt::format("{} [{}]", label, unit), false);
}

std::vector<Series> read_series(const Json& chart, const std::string& units) {
  const Scale sx = scale_of(chart["x_unit"][units]), sy = scale_of(chart["y_unit"][units]);
  std::vector<Series> all;
  for (const Json& json : chart["series"]) {
    Series s;
    s.name = typeset(clean(json["name"][units].get<std::string>()), false);
    s.dashed = json["dashed"];
    s.band = json["band"];
    const std::size_t count = std::min(json["x"].size(), json["y"].size());
    for (std::size_t i = 0; i < count; ++i) {
      s.x.push_back(sx.shown(json["x"][i]));
      s.y.push_back(sy.shown(json["y"][i]));
    }
    if (count > 0) all.push_back(std::move(s));
  }
  return all;
}

void Span::add(const std::vector<double>& values, bool positive_only) {
  for (double v : values)
    if (std::isfinite(v) && (!positive_only || v > 0)) {
      low = std::min(low, v);
      high = std::max(high, v);
    }
}

Axis axis_over(Span span, bool log, int most) {
  if (log) return log_axis(span.low, span.high, most);
  if (span.low > 0 && span.low < 0.5 * span.high) span.low = 0;
  return linear_axis(span.low, span.high, most);
}

Axis axis_across(Span span, bool log, double room) {
  Axis axis = axis_over(span, log, kTicksAcross);
  for (int most = kTicksAcross; most > 2; --most) {
    double end = -INFINITY;
    const bool fits = std::all_of(axis.ticks.begin(), axis.ticks.end(), [&](const Tick& t) {
      const double middle = room * axis.share(t.value), half = text_width(t.label) / 2;
      const bool free = middle - half > end;
      end = middle + half + 4;
      return free;
    });
    if (fits) break;
    axis = axis_over(span, log, most - 1);
  }
  return axis;
}

std::string text(double x, double y, const char* anchor, const std::string& words, const char* extra) {
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

std::vector<std::string> fold(const std::string& name, double room, std::size_t most) {
  std::vector<std::string> lines;
  std::string rest = name;
  while (text_width(rest) > room && lines.size() + 1 < most) {
    std::size_t best = std::string::npos;
    for (std::size_t i = rest.find(' '); i != std::string::npos; i = rest.find(' ', i + 1))
      if (best == std::string::npos || text_width(rest.substr(0, i)) <= room) best = i;
    if (best == std::string::npos) break;
    lines.push_back(rest.substr(0, best));
    rest = rest.substr(best + 1);
  }
  lines.push_back(rest);
  return lines;
}

double widest(const std::vector<std::string>& lines) {
  double width = 0;
  for (const std::string& line : lines) width = std::max(width, text_width(line));
  return width;
}

}  // namespace lobewise::handover::chart
