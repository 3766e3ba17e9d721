#pragma once
// Watertight bodies from outlines: walls along closed curves, flat faces between them.

#include <array>
#include <map>
#include <string>
#include <vector>

#include "apps/handover/drawing.h"

namespace lobewise::handover {

/// A closed curve without repeated first point, counter-clockwise.
using Loop = std::vector<Point>;

[[nodiscard]] Loop circle(Point centre, double radius, int points);
/// Area inside, positive for counter-clockwise [unit^2].
[[nodiscard]] double area(const Loop& loop);

/// Triangles that fill an outline less its holes, as indices into outline and holes put one behind the other.
/// Preconditions: simple loops, counter-clockwise, holes inside the outline and clear of each other.
/// Method: each hole is joined to the outline by a bridge, then ears are cut off (D. Eberly, "Triangulation by Ear
/// Clipping", from memory). Every edge of the loops is an edge of one triangle, so that walls fit without gaps.
[[nodiscard]] std::vector<std::array<int, 3>> triangulate(const Loop& outline, const std::vector<Loop>& holes);

struct Vertex {
  double x = 0, y = 0, z = 0;
};

/// A body under construction. Loops that meet must hold the same points.
class Solid {
 public:
  std::string name;

  /// Wall along a loop from z = low to high; the body lies inside the loop, or outside when it bounds a hole.
  void wall(const Loop& loop, double low, double high, bool hole);
  /// Flat face at a height, seen from above or from below.
  void face(const Loop& outline, const std::vector<Loop>& holes, double z, bool upwards);
  /// Prism with holes: walls and both faces.
  void prism(const Loop& outline, const std::vector<Loop>& holes, double low, double high);

  [[nodiscard]] const std::vector<Vertex>& vertices() const { return vertices_; }
  [[nodiscard]] const std::vector<std::array<int, 3>>& triangles() const { return triangles_; }
  /// Volume enclosed, by the divergence theorem [unit^3].
  [[nodiscard]] double volume() const;
  /// True when every edge is used exactly twice, once in each direction.
  [[nodiscard]] bool watertight() const;
  /// Moves the body.
  void shift(double dx, double dy, double dz);
  [[nodiscard]] Box footprint() const;

 private:
  int vertex(Point p, double z);

  std::vector<Vertex> vertices_;
  std::vector<std::array<int, 3>> triangles_;
  std::map<std::array<double, 3>, int> index_;
};

}  // namespace lobewise::handover
