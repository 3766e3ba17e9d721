#include "apps/handover/drawing.h"

#include <algorithm>
#include <cmath>

#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

/// Mean width of a letter over the height of capitals, for a plain sans face.
constexpr double kLetterWidth = 0.78;

double width_of(const std::string& text, double height) {
  return kLetterWidth * height * static_cast<double>(code_points(clean(text)).size());
}

void add_lettering(Box& box, const Lettering& item) {
  const double width = width_of(item.text, item.height);
  const double before = item.anchor == Anchor::start ? 0 : item.anchor == Anchor::middle ? width / 2 : width;
  const Point along = item.upright ? Point{0, 1} : Point{1, 0};
  box.add(item.at - before * along);
  box.add(item.at + (width - before) * along);
}

}  // namespace

double Dimension::measured() const { return vertical ? std::abs(to.y - from.y) : std::abs(to.x - from.x); }

void Box::add(Point p) {
  left = std::min(left, p.x);
  right = std::max(right, p.x);
  bottom = std::min(bottom, p.y);
  top = std::max(top, p.y);
}

void Drawing::rectangle(Layer layer, Point low, Point high) {
  strokes.push_back({layer, {low, {high.x, low.y}, high, {low.x, high.y}}, true});
}

Box Drawing::box() const {
  Box box;
  for (const Stroke& s : strokes)
    for (Point p : s.points) box.add(p);
  for (const Circle& c : circles) {
    box.add(c.centre - Point{c.radius, c.radius});
    box.add(c.centre + Point{c.radius, c.radius});
  }
  for (const Lettering& item : letterings) add_lettering(box, item);
  for (const Dimension& d : dimensions) {
    const DimensionParts parts = take_apart(d, letter);
    for (const Stroke& s : parts.lines)
      for (Point p : s.points) box.add(p);
    add_lettering(box, parts.text);
  }
  return box;
}

DimensionParts take_apart(const Dimension& d, double letter) {
  // Worked out along x; a vertical dimension is the same with the axes exchanged.
  const auto turn = [&](Point p) { return d.vertical ? Point{p.y, p.x} : p; };
  Point a = turn(d.from), b = turn(d.to);
  if (a.x > b.x) std::swap(a, b);
  const double gap = 0.3 * letter, over = 0.5 * letter, arrow = letter, span = b.x - a.x;
  DimensionParts out;
  const auto stroke = [&](Point p, Point q) { out.lines.push_back({Layer::dimension, {turn(p), turn(q)}, false}); };
  for (Point p : {a, b}) {
    const double side = d.line >= p.y ? 1 : -1;
    if (std::abs(d.line - p.y) > gap) stroke({p.x, p.y + side * gap}, {p.x, d.line + side * over});
  }
  const double text = width_of(d.text, letter);
  const bool arrows_inside = span > 3 * arrow;
  const bool text_inside = span > text + (arrows_inside ? 2.5 * arrow : 0.4 * letter);
  const auto head = [&](double at, double towards) {
    out.arrows.push_back({Layer::dimension,
                          {turn({at, d.line}), turn({at + towards * arrow, d.line + arrow / 6}),
                           turn({at + towards * arrow, d.line - arrow / 6})},
                          true});
  };
  head(a.x, arrows_inside ? 1 : -1);
  head(b.x, arrows_inside ? -1 : 1);
  double out_left = arrows_inside ? a.x : a.x - 2 * arrow;
  double out_right = arrows_inside ? b.x : b.x + 2 * arrow;
  double middle = (a.x + b.x) / 2;
  if (!text_inside && d.text_before) {
    middle = out_left - 0.4 * letter - text / 2;
    out_left = middle - text / 2;
  } else if (!text_inside) {
    middle = out_right + 0.4 * letter + text / 2;
    out_right = middle + text / 2;
  }
  stroke({out_left, d.line}, {out_right, d.line});
  // Text stands above the line, or to the left of an upright one.
  const double base = d.vertical ? d.line - 0.35 * letter : d.line + 0.35 * letter;
  out.text = {Layer::dimension, turn({middle, base}), letter, d.text, Anchor::middle, d.vertical};
  return out;
}

}  // namespace lobewise::handover
