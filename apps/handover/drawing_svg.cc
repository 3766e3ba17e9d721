#include <fmt/format.h>

#include <cmath>

#include "apps/handover/drawing.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

/// Line as it prints: width and dashes [mm of paper].
struct Pen {
  double width;
  const char* dashes;
};

Pen pen_of(Layer layer) {
  switch (layer) {
    case Layer::outline:
      return {0.5, ""};
    case Layer::hidden:
      return {0.25, "2 1"};
    case Layer::centre:
      return {0.18, "6 1.2 0.6 1.2"};
    case Layer::typical:
      return {0.25, "5 1 0.6 1 0.6 1"};
    case Layer::frame:
      return {0.35, ""};
    case Layer::dimension:
    case Layer::text:
      break;
  }
  return {0.18, ""};
}

class Writer {
 public:
  Writer(const Box& box, double scale) : box_(box), scale_(scale) {}

  void stroke(const Stroke& s) {
    std::string points;
    for (Point p : s.points) points += fmt::format("{:.3f},{:.3f} ", x(p), y(p));
    out_ +=
        fmt::format("<{} points=\"{}\" fill=\"none\"{}/>\n", s.closed ? "polygon" : "polyline", points, pen(s.layer));
  }
  void arrow(const Stroke& s) {
    std::string points;
    for (Point p : s.points) points += fmt::format("{:.3f},{:.3f} ", x(p), y(p));
    out_ += fmt::format("<polygon points=\"{}\" fill=\"#17211d\"/>\n", points);
  }
  void circle(const Circle& c) {
    out_ += fmt::format("<circle cx=\"{:.3f}\" cy=\"{:.3f}\" r=\"{:.3f}\" fill=\"none\"{}/>\n", x(c.centre),
                        y(c.centre), c.radius / scale_, pen(c.layer));
  }
  void lettering(const Lettering& item) {
    constexpr const char* kAnchors[] = {"start", "middle", "end"};
    constexpr double kSizeOverCapitals = 1.375;  // Inter: capitals are 0.727 of the size
    const std::string turn =
        item.upright ? fmt::format(" transform=\"rotate(-90 {:.3f} {:.3f})\"", x(item.at), y(item.at)) : "";
    out_ += fmt::format("<text x=\"{:.3f}\" y=\"{:.3f}\" font-size=\"{:.3f}\" text-anchor=\"{}\"{}>{}</text>\n",
                        x(item.at), y(item.at), kSizeOverCapitals * item.height / scale_,
                        kAnchors[static_cast<std::size_t>(item.anchor)], turn, markup(item.text));
  }
  std::string take() { return std::move(out_); }

 private:
  [[nodiscard]] double x(Point p) const { return (p.x - box_.left) / scale_; }
  [[nodiscard]] double y(Point p) const { return (box_.top - p.y) / scale_; }
  static std::string pen(Layer layer) {
    const Pen pen = pen_of(layer);
    const std::string dashes =
        *pen.dashes == '\0' ? std::string() : fmt::format(" stroke-dasharray=\"{}\"", pen.dashes);
    return fmt::format(" stroke=\"#17211d\" stroke-width=\"{}\"{}", pen.width, dashes);
  }
  const Box& box_;
  double scale_;
  std::string out_;
};

}  // namespace

std::string drawing_svg(const Drawing& drawing, const Box& box, double scale, const std::string& title) {
  Writer writer(box, scale);
  for (const Stroke& s : drawing.strokes) writer.stroke(s);
  for (const Circle& c : drawing.circles) writer.circle(c);
  for (const Lettering& item : drawing.letterings) writer.lettering(item);
  for (const Dimension& d : drawing.dimensions) {
    const DimensionParts parts = take_apart(d, drawing.letter);
    for (const Stroke& s : parts.lines) writer.stroke(s);
    for (const Stroke& s : parts.arrows) writer.arrow(s);
    writer.lettering(parts.text);
  }
  return fmt::format(
      "<svg class=\"drawing\" xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.3f} {1:.3f}\" width=\"{0:.3f}mm\" "
      "height=\"{1:.3f}mm\" role=\"img\" aria-label=\"{2}\" font-family=\"Inter, 'DejaVu Sans', sans-serif\" "
      "stroke-linejoin=\"round\"><title>{2}</title>\n{3}</svg>\n",
      box.width() / scale, box.height() / scale, markup(title), writer.take());
}

}  // namespace lobewise::handover
