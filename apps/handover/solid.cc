#include "apps/handover/solid.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/base/constants.h"

namespace lobewise::handover {
namespace {

/// Twice the area of a triangle, positive when it turns to the left.
double turn(Point a, Point b, Point c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

bool same(Point a, Point b) { return a.x == b.x && a.y == b.y; }

bool inside(Point p, Point a, Point b, Point c) {
  return turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0;
}

/// A polygon that may run along the same bridge twice, as a ring of indices into `points`.
class EarCutter {
 public:
  EarCutter(const Loop& outline, const std::vector<Loop>& holes) {
    ring_ = append(outline, false);
    std::vector<std::vector<int>> inner;
    for (const Loop& hole : holes) inner.push_back(append(hole, true));
    // From right to left, so that a bridge meets only what is part of the ring already.
    std::sort(inner.begin(), inner.end(), [&](const auto& a, const auto& b) { return right(a) > right(b); });
    for (const std::vector<int>& hole : inner) bridge(hole);
  }

  std::vector<std::array<int, 3>> run() {
    std::vector<std::array<int, 3>> out;
    std::size_t i = 0, tried = 0;
    while (ring_.size() > 3) {
      const std::size_t n = ring_.size();
      i %= n;
      const int a = ring_[(i + n - 1) % n], b = ring_[i], c = ring_[(i + 1) % n];
      // When rounding leaves no proper ear, the flattest corner goes: the edges still pair up.
      if (tried > n || is_ear(a, b, c)) {
        out.push_back({a, b, c});
        ring_.erase(ring_.begin() + static_cast<std::ptrdiff_t>(i));
        tried = 0;
        i = i + n - 2;  // back to the corner before: it often became an ear
      } else {
        ++i;
        ++tried;
      }
    }
    out.push_back({ring_[0], ring_[1], ring_[2]});
    return out;
  }

 private:
  std::vector<int> append(const Loop& loop, bool reversed) {
    std::vector<int> indices;
    for (Point p : loop) {
      indices.push_back(static_cast<int>(points_.size()));
      points_.push_back(p);
    }
    if (reversed) std::reverse(indices.begin(), indices.end());
    return indices;
  }
  [[nodiscard]] Point at(int index) const { return points_[static_cast<std::size_t>(index)]; }
  [[nodiscard]] double right(const std::vector<int>& loop) const {
    double x = -1e300;
    for (int i : loop) x = std::max(x, at(i).x);
    return x;
  }

  void bridge(const std::vector<int>& hole) {
    const std::size_t start = static_cast<std::size_t>(
        std::max_element(hole.begin(), hole.end(), [&](int a, int b) { return at(a).x < at(b).x; }) - hole.begin());
    const std::size_t target = visible_from(at(hole[start]));
    std::vector<int> path(hole.begin() + static_cast<std::ptrdiff_t>(start), hole.end());
    path.insert(path.end(), hole.begin(), hole.begin() + static_cast<std::ptrdiff_t>(start) + 1);
    path.push_back(ring_[target]);
    ring_.insert(ring_.begin() + static_cast<std::ptrdiff_t>(target) + 1, path.begin(), path.end());
  }

  /// Place in the ring of a corner that can be seen from `m`, looking to the right.
  [[nodiscard]] std::size_t visible_from(Point m) const {
    const std::size_t n = ring_.size();
    double hit = 1e300;
    std::size_t best = 0;
    Point end{};
    for (std::size_t i = 0; i < n; ++i) {
      const Point a = at(ring_[i]), b = at(ring_[(i + 1) % n]);
      if (a.y > m.y || b.y < m.y || a.y == b.y) continue;  // the ring has its inside on the left of its edges
      const double x = a.x + (m.y - a.y) / (b.y - a.y) * (b.x - a.x);
      if (x < m.x || x >= hit) continue;
      hit = x;
      best = a.x > b.x ? i : (i + 1) % n;
      end = at(ring_[best]);
    }
    // Reflex corners inside the triangle (m, hit, end) stand in the way: the one nearest the ray is seen.
    const Point foot{hit, m.y};
    double slope = 1e300;
    std::size_t seen = best;
    for (std::size_t i = 0; i < n; ++i) {
      const Point p = at(ring_[i]);
      if (p.x < m.x || same(p, end)) continue;
      const bool in = end.y < m.y ? inside(p, m, end, foot) : inside(p, m, foot, end);
      if (!in || !reflex(i)) continue;
      const double steep = std::abs(p.y - m.y) / std::max(1e-300, p.x - m.x);
      if (steep < slope) {
        slope = steep;
        seen = i;
      }
    }
    return seen;
  }
  [[nodiscard]] bool reflex(std::size_t i) const {
    const std::size_t n = ring_.size();
    return turn(at(ring_[(i + n - 1) % n]), at(ring_[i]), at(ring_[(i + 1) % n])) <= 0;
  }

  [[nodiscard]] bool is_ear(int ia, int ib, int ic) const {
    const Point a = at(ia), b = at(ib), c = at(ic);
    if (turn(a, b, c) <= 0) return false;
    const double left = std::min({a.x, b.x, c.x}), right = std::max({a.x, b.x, c.x});
    const double low = std::min({a.y, b.y, c.y}), high = std::max({a.y, b.y, c.y});
    for (int i : ring_) {
      const Point p = at(i);
      if (p.x < left || p.x > right || p.y < low || p.y > high || same(p, a) || same(p, b) || same(p, c)) continue;
      if (inside(p, a, b, c)) return false;
    }
    return true;
  }

  std::vector<Point> points_;
  std::vector<int> ring_;
};

}  // namespace

Loop circle(Point centre, double radius, int points) {
  Loop loop;
  for (int i = 0; i < points; ++i) {
    const double a = 2 * kPi * i / points;
    loop.push_back(centre + Point{radius * std::cos(a), radius * std::sin(a)});
  }
  return loop;
}

double area(const Loop& loop) {
  double sum = 0;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Point a = loop[i], b = loop[(i + 1) % loop.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum / 2;
}

std::vector<std::array<int, 3>> triangulate(const Loop& outline, const std::vector<Loop>& holes) {
  return EarCutter(outline, holes).run();
}

int Solid::vertex(Point p, double z) {
  const auto [place, fresh] = index_.try_emplace({p.x, p.y, z}, static_cast<int>(vertices_.size()));
  if (fresh) vertices_.push_back({p.x, p.y, z});
  return place->second;
}

void Solid::wall(const Loop& loop, double low, double high, bool hole) {
  for (std::size_t i = 0; i < loop.size(); ++i) {
    Point a = loop[i], b = loop[(i + 1) % loop.size()];
    if (hole) std::swap(a, b);
    const int a0 = vertex(a, low), b0 = vertex(b, low), a1 = vertex(a, high), b1 = vertex(b, high);
    triangles_.push_back({a0, b0, b1});
    triangles_.push_back({a0, b1, a1});
  }
}

void Solid::face(const Loop& outline, const std::vector<Loop>& holes, double z, bool upwards) {
  std::vector<int> ids;
  for (Point p : outline) ids.push_back(vertex(p, z));
  for (const Loop& hole : holes)
    for (Point p : hole) ids.push_back(vertex(p, z));
  for (const std::array<int, 3>& t : triangulate(outline, holes)) {
    const auto id = [&](std::size_t k) { return ids[static_cast<std::size_t>(t[k])]; };
    triangles_.push_back(upwards ? std::array<int, 3>{id(0), id(1), id(2)} : std::array<int, 3>{id(0), id(2), id(1)});
  }
}

void Solid::prism(const Loop& outline, const std::vector<Loop>& holes, double low, double high) {
  wall(outline, low, high, false);
  for (const Loop& hole : holes) wall(hole, low, high, true);
  face(outline, holes, low, false);
  face(outline, holes, high, true);
}

double Solid::volume() const {
  double sum = 0;
  for (const std::array<int, 3>& t : triangles_) {
    const Vertex &a = vertices_[static_cast<std::size_t>(t[0])], &b = vertices_[static_cast<std::size_t>(t[1])],
                 &c = vertices_[static_cast<std::size_t>(t[2])];
    sum += a.x * (b.y * c.z - b.z * c.y) - a.y * (b.x * c.z - b.z * c.x) + a.z * (b.x * c.y - b.y * c.x);
  }
  return sum / 6;
}

bool Solid::watertight() const {
  std::set<std::pair<int, int>> edges;
  for (const std::array<int, 3>& t : triangles_)
    for (std::size_t k = 0; k < 3; ++k)
      if (t[k] == t[(k + 1) % 3] || !edges.insert({t[k], t[(k + 1) % 3]}).second) return false;
  return std::all_of(edges.begin(), edges.end(), [&](const auto& edge) {
    return edges.count({edge.second, edge.first}) == 1;
  });
}

void Solid::shift(double dx, double dy, double dz) {
  for (Vertex& v : vertices_) {
    v.x += dx;
    v.y += dy;
    v.z += dz;
  }
}

Box Solid::footprint() const {
  Box box;
  for (const Vertex& v : vertices_) box.add({v.x, v.y});
  return box;
}

}  // namespace lobewise::handover
