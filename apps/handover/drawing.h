#pragma once
// A drawing as data: strokes, texts and dimensions on layers, in millimetres or inches of the real thing. SVG and DXF
// are written from the same one.

#include <string>
#include <vector>

namespace lobewise::handover {

struct Point {
  double x = 0, y = 0;
};
inline Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y}; }
inline Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
inline Point operator*(double k, Point a) { return {k * a.x, k * a.y}; }

enum class Layer { outline, hidden, centre, typical, dimension, text, frame };

struct Stroke {
  Layer layer = Layer::outline;
  std::vector<Point> points;
  bool closed = false;
};
struct Circle {
  Layer layer = Layer::outline;
  Point centre;
  double radius = 0;
};
enum class Anchor { start, middle, end };
struct Lettering {
  Layer layer = Layer::text;
  Point at;           ///< of the base line
  double height = 0;  ///< of capitals
  std::string text;   ///< as people wrote it: the writers make it safe
  Anchor anchor = Anchor::start;
  bool upright = false;  ///< reads from the right-hand side
};

/// Distance between two points, measured along x or y.
struct Dimension {
  Point from, to;
  bool vertical = false;     ///< measures along y
  double line = 0;           ///< where the dimension line stands: its y, or its x when vertical
  std::string text;          ///< e.g. `⌀80`
  bool text_before = false;  ///< where the text has no room between the arrows it stands before them, not behind
  /// What the distance measured is.
  [[nodiscard]] double measured() const;
};

struct Box {
  double left = 1e300, bottom = 1e300, right = -1e300, top = -1e300;
  void add(Point p);
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return top - bottom; }
};

struct Drawing {
  double letter = 2.5;      ///< height of dimension texts in units of the drawing
  std::string unit = "mm";  ///< `mm` or `in`
  std::vector<Stroke> strokes;
  std::vector<Circle> circles;
  std::vector<Lettering> letterings;
  std::vector<Dimension> dimensions;

  void line(Layer layer, Point a, Point b) { strokes.push_back({layer, {a, b}, false}); }
  void rectangle(Layer layer, Point low, Point high);
  /// Around everything, dimension texts included.
  [[nodiscard]] Box box() const;
};

/// A dimension taken apart: lines of extension and dimension, arrow heads (closed triangles), text.
struct DimensionParts {
  std::vector<Stroke> lines;
  std::vector<Stroke> arrows;
  Lettering text;
};
[[nodiscard]] DimensionParts take_apart(const Dimension& dimension, double letter);

/// SVG with a view box in drawing units (y upwards turned), sized on paper.
/// @param box    what to show
/// @param scale  drawing units per millimetre of paper
[[nodiscard]] std::string drawing_svg(const Drawing& drawing, const Box& box, double scale, const std::string& title);

/// DXF of release 12, ASCII: layers, line types, lettering, DIMENSION entities with their blocks.
[[nodiscard]] std::string drawing_dxf(const Drawing& drawing);

}  // namespace lobewise::handover
