#include "engine/contact/elastic/mesh.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "engine/base/constants.h"
#include "engine/contact/elastic/plane_body.h"

namespace lobewise::contact::elastic {
namespace {

using mechanism::dot;
using mechanism::norm;
using mechanism::unit;
using Row = std::vector<int>;

/// From here on the lobes are small against the rim and the inside of the disc gets wider elements.
constexpr int kManyLobes = 30;

/// Positions 0..1 of `2 layers + 1` node rows, layer thickness growing by `ratio`; mid rows half way.
std::vector<double> graded(int layers, double ratio) {
  std::vector<double> corners(1, 0.0);
  double thickness = 1;
  for (int i = 0; i < layers; ++i, thickness *= ratio) corners.push_back(corners.back() + thickness);
  std::vector<double> rows;
  for (int i = 0; i < layers; ++i) {
    rows.push_back(corners[i] / corners.back());
    rows.push_back(0.5 * (corners[i] + corners[i + 1]) / corners.back());
  }
  rows.push_back(1);
  return rows;
}

Row add_nodes(Mesh& mesh, const std::vector<Vec2>& points) {
  Row row;
  for (const Vec2 p : points) {
    row.push_back(static_cast<int>(mesh.nodes.size()));
    mesh.nodes.push_back(p);
  }
  return row;
}

/// Fills the closed strip between two rows of nodes (outer first, both counter-clockwise) along straight lines.
void fill(Mesh& mesh, const Row& outer, const Row& inner, const std::vector<double>& positions) {
  std::vector<Row> rows(1, outer);
  for (std::size_t j = 1; j + 1 < positions.size(); ++j) {
    std::vector<Vec2> points;
    for (std::size_t i = 0; i < outer.size(); ++i)
      points.push_back((1 - positions[j]) * mesh.nodes[outer[i]] + positions[j] * mesh.nodes[inner[i]]);
    rows.push_back(add_nodes(mesh, points));
  }
  rows.push_back(inner);
  const std::size_t count = outer.size();
  for (std::size_t j = 0; j + 2 < rows.size(); j += 2)
    for (std::size_t i = 0; i < count; i += 2) {
      std::array<int, 9> element{};
      for (std::size_t b = 0; b < 3; ++b)
        for (std::size_t a = 0; a < 3; ++a) element[3 * b + a] = rows[j + b][(i + a) % count];
      mesh.elements.push_back(element);
    }
}

/// Fills the strip between a row of nodes (outer) and one with a third of its intervals (inner): under every three fine
/// elements stands one wide element, two slanted ones beside the middle.
class Coarsening {
 public:
  Coarsening(Mesh& mesh, const Row& outer, const Row& inner) : mesh_(mesh) {
    const std::size_t count = outer.size();
    for (std::size_t i = 0; i < count; i += 2) edges_[key(outer[i], outer[(i + 2) % count])] = outer[i + 1];
    const std::size_t wide = inner.size();
    for (std::size_t i = 0; i < wide; i += 2) edges_[key(inner[i], inner[(i + 2) % wide])] = inner[i + 1];
    for (std::size_t i = 0; i < wide; i += 2) {
      std::array<int, 4> top{};
      for (std::size_t k = 0; k < 4; ++k) top[k] = outer[(3 * i + 2 * k) % count];
      const int left = inner[i], right = inner[(i + 2) % wide];
      const int a = between(top[1], left, right, 1.0 / 3), b = between(top[2], left, right, 2.0 / 3);
      add(top[0], top[1], a, left);
      add(top[1], top[2], b, a);
      add(top[2], top[3], right, b);
      add(a, b, right, left);
    }
  }

 private:
  static std::pair<int, int> key(int a, int b) { return {std::min(a, b), std::max(a, b)}; }
  int node(Vec2 p) {
    mesh_.nodes.push_back(p);
    return static_cast<int>(mesh_.nodes.size()) - 1;
  }
  int between(int top, int left, int right, double share) {
    const auto& n = mesh_.nodes;
    return node(0.5 * (n[top] + (1 - share) * n[left] + share * n[right]));
  }
  int middle(int a, int b) {
    const auto found = edges_.find(key(a, b));
    if (found != edges_.end()) return found->second;
    return edges_[key(a, b)] = node(0.5 * (mesh_.nodes[a] + mesh_.nodes[b]));
  }
  /// Element from its corners, counter-clockwise.
  void add(int a, int b, int c, int d) {
    const int ab = middle(a, b), bc = middle(b, c), cd = middle(c, d), da = middle(d, a);
    const auto& n = mesh_.nodes;
    const int centre = node(0.5 * (n[ab] + n[bc] + n[cd] + n[da]) - 0.25 * (n[a] + n[b] + n[c] + n[d]));
    mesh_.elements.push_back({a, ab, b, da, centre, bc, d, cd, c});
  }
  Mesh& mesh_;
  std::map<std::pair<int, int>, int> edges_;  ///< mid-side node between two corners
};

std::vector<Vec2> circle(double radius, int count) {
  std::vector<Vec2> points;
  for (int i = 0; i < count; ++i) points.push_back(radius * unit(2 * kPi * i / count));
  return points;
}

/// The zone between the circles r0 and r1 with its output holes: one closed strip round each hole.
class HoleZone {
 public:
  HoleZone(Mesh& mesh, const DiscShape& shape, const Row& inner, const Row& outer, int layers)
      : mesh_(mesh), shape_(shape), inner_(inner), outer_(outer), layers_(layers) {
    const int holes = shape.stage.pins;
    const int intervals = static_cast<int>(outer.size()) / 2;
    const double r0 = norm(mesh.nodes[inner[0]]);
    const double r1 = norm(mesh.nodes[outer[0]]);
    side_intervals_ = std::max(2, static_cast<int>(std::lround((r1 - r0) / (1.6 * 2 * kPi * r1 / intervals))));
    for (int j = 0; j <= holes; ++j) {
      const double place = (j - 0.5) * intervals / holes + shape.hole_offset * intervals / (2 * kPi);
      borders_.push_back(2 * static_cast<int>(std::floor(place + 0.5)));
    }
    borders_.back() = borders_.front() + 2 * intervals;
    for (int j = 0; j < holes; ++j) sides_.push_back(side(borders_[j]));
    sides_.push_back(sides_.front());
    for (int j = 0; j < holes; ++j) sector(j);
  }

 private:
  [[nodiscard]] static int wrapped(const Row& row, int index) {
    const int count = static_cast<int>(row.size());
    return row[((index % count) + count) % count];
  }
  /// Nodes strictly between the two circles on a sector border, from inside out.
  Row side(int border) {
    const Vec2 from = mesh_.nodes[wrapped(inner_, border)];
    const Vec2 to = mesh_.nodes[wrapped(outer_, border)];
    std::vector<Vec2> points;
    for (int i = 1; i < 2 * side_intervals_; ++i) {
      const double share = i / (2.0 * side_intervals_);
      points.push_back((1 - share) * from + share * to);
    }
    return add_nodes(mesh_, points);
  }
  void sector(int hole) {
    Row perimeter;  // counter-clockwise, from the inner end of the sector's first border along the r0 circle's far end
    for (int i = borders_[hole]; i < borders_[hole + 1]; ++i) perimeter.push_back(wrapped(outer_, i));
    perimeter.push_back(wrapped(outer_, borders_[hole + 1]));
    const Row& far_side = sides_[hole + 1];
    perimeter.insert(perimeter.end(), far_side.rbegin(), far_side.rend());
    for (int i = borders_[hole + 1]; i > borders_[hole]; --i) perimeter.push_back(wrapped(inner_, i));
    perimeter.push_back(wrapped(inner_, borders_[hole]));
    const Row& near_side = sides_[hole];
    perimeter.insert(perimeter.end(), near_side.begin(), near_side.end());
    // The outer arc runs counter-clockwise about the disc; about the hole the whole perimeter must do so, too.
    const auto& stage = shape_.stage;
    const Vec2 centre = stage.pin_circle_radius * unit(2 * kPi * hole / stage.pins + shape_.hole_offset);
    const std::size_t count = perimeter.size();
    std::vector<double> angles;
    for (std::size_t i = 0; i < count; ++i) {
      const Vec2 d = mesh_.nodes[perimeter[i]] - centre;
      double angle = std::atan2(d.y, d.x);
      if (i > 0) angle = angles.back() + std::remainder(angle - angles.back(), 2 * kPi);
      angles.push_back(angle);
    }
    double shift = 0;
    for (std::size_t i = 0; i < count; ++i)
      shift += (angles[i] - 2 * kPi * static_cast<double>(i) / static_cast<double>(count)) / static_cast<double>(count);
    std::vector<Vec2> wall;
    for (std::size_t i = 0; i < count; ++i) {
      const double even = 2 * kPi * static_cast<double>(i) / static_cast<double>(count) + shift;
      wall.push_back(centre + stage.hole_radius() * unit(0.6 * angles[i] + 0.4 * even));
    }
    const Row wall_row = add_nodes(mesh_, wall);
    fill(mesh_, perimeter, wall_row, graded(layers_, 1 / 1.5));
    mesh_.loops.push_back({wall_row, -1, centre});
  }

  Mesh& mesh_;
  const DiscShape& shape_;
  const Row& inner_;
  const Row& outer_;
  int layers_, side_intervals_ = 0;
  std::vector<int> borders_;
  std::vector<Row> sides_;
};

}  // namespace

MeshDensity default_density(int lobes) {
  if (lobes > kManyLobes) return {9, 3};
  const int wanted = (140 + lobes - 1) / lobes;
  return {std::max(8, wanted + wanted % 2), 2};
}

FlankSpacing::FlankSpacing(const mechanism::Profile& profile) : lobes_(profile.lobes()) {
  const double root = norm(profile.point_derivative(0));
  const double tip = norm(profile.point_derivative(kPi / lobes_));
  alpha_ = (root - tip) / (root + tip);
}

double FlankSpacing::parameter(double xi) const { return xi - alpha_ * std::sin(lobes_ * xi) / lobes_; }

double FlankSpacing::inverse(double t) const {
  double xi = t;
  for (int step = 0; step < 60; ++step) {
    const double change = (parameter(xi) - t) / (1 - alpha_ * std::cos(lobes_ * xi));
    xi -= std::clamp(change, -0.5 / lobes_, 0.5 / lobes_);
    if (std::abs(change) < 1e-15) break;
  }
  return xi;
}

Result<Mesh> disc_mesh(const DiscShape& shape, MeshDensity density) {
  const auto& stage = shape.stage;
  const mechanism::Profile profile(stage);
  const FlankSpacing spacing(profile);
  const int count = 2 * stage.lobes * density.per_lobe;
  const double root = stage.cut_pitch_radius() - stage.eccentricity - stage.cut_roller_radius();
  const double inside = stage.pin_circle_radius - stage.hole_radius();
  const double outside = stage.pin_circle_radius + stage.hole_radius();
  const double r1 = shape.holes ? 0.5 * (outside + root) : root - 0.2 * (root - shape.bore_radius);
  const double rim = root - r1, pitch = 2 * kPi * root / stage.lobes;
  const bool coarsen = stage.lobes > kManyLobes && density.per_lobe % 3 == 0 && rim > 0.8 * pitch;
  const int wide = coarsen ? count / 3 : count;

  Mesh mesh;
  std::vector<Vec2> flank;
  for (int i = 0; i < count; ++i) flank.push_back(profile.point(spacing.parameter(2 * kPi * i / count)));
  const Row flank_row = add_nodes(mesh, flank);
  const Row bore_row = add_nodes(mesh, circle(shape.bore_radius, wide));
  mesh.loops.push_back({flank_row, 1, {}});
  mesh.loops.push_back({bore_row, -1, {}});
  const Row rim_row = add_nodes(mesh, circle(r1, wide));
  const auto from_flank = graded(density.layers, 1 / 0.6);
  if (coarsen) {
    // What a lobe does dies away within one pitch below the root; deeper, a third of the intervals is enough.
    const double fine = root - std::min(0.6 * rim, 0.7 * pitch);
    const double width = 2 * kPi * fine / (wide / 2);
    const double coarse = fine - 1.5 * width;
    const Row fine_row = add_nodes(mesh, circle(fine, count));
    fill(mesh, flank_row, fine_row, from_flank);
    if (coarse - r1 > width) {
      const Row coarse_row = add_nodes(mesh, circle(coarse, wide));
      Coarsening(mesh, fine_row, coarse_row);
      fill(mesh, coarse_row, rim_row, graded(static_cast<int>(std::ceil((coarse - r1) / (2.5 * width))), 1));
    } else {
      Coarsening(mesh, fine_row, rim_row);
    }
  } else {
    fill(mesh, flank_row, rim_row, from_flank);
  }
  if (shape.holes) {
    const double r0 = std::max(0.5 * (shape.bore_radius + inside), inside - 0.3 * stage.hole_radius());
    const Row inner_row = add_nodes(mesh, circle(r0, wide));
    fill(mesh, inner_row, bore_row, graded(density.layers, 1));
    HoleZone(mesh, shape, inner_row, rim_row, density.layers);
  } else {
    fill(mesh, rim_row, bore_row, graded(2 * density.layers, 1 / 1.2));
  }
  if (!(least_jacobian(mesh) > 0))
    return model_error("bore_radius", "",
                       "the disc cannot be meshed: leave more material between bore, output holes and lobe roots.");
  return mesh;
}

Mesh circle_mesh(double core, int intervals, int layers, double squeeze) {
  Mesh mesh;
  const int count = 2 * intervals;
  std::vector<Vec2> outside, inside;
  for (int i = 0; i < count; ++i) {
    const double even = 2 * kPi * i / count;
    outside.push_back(unit(even + 0.5 * squeeze * std::sin(2 * even)));
    inside.push_back(core * outside.back());
  }
  const Row outer = add_nodes(mesh, outside);
  mesh.loops.push_back({outer, 1, {}});
  if (core > 0) {
    const Row inner = add_nodes(mesh, inside);
    fill(mesh, outer, inner, graded(layers, 1 / 0.7));
    mesh.loops.push_back({inner, -1, {}});
  } else {
    const Row middle(outer.size(), static_cast<int>(mesh.nodes.size()));  // the innermost elements are triangles
    mesh.nodes.push_back({});
    fill(mesh, outer, middle, graded(layers, 1 / 0.7));
  }
  return mesh;
}

EdgePoint foot_on_loop(const Mesh& mesh, int loop, int edge, Vec2 target) {
  const Loop& l = mesh.loops[loop];
  EdgePoint foot{loop, edge, 0, {}};
  for (int move = 0; move < 8; ++move) {
    const int count = static_cast<int>(l.nodes.size());
    const Vec2 a = mesh.nodes[l.nodes[2 * foot.edge]];
    const Vec2 m = mesh.nodes[l.nodes[2 * foot.edge + 1]];
    const Vec2 b = mesh.nodes[l.nodes[(2 * foot.edge + 2) % count]];
    for (int step = 0; step < 8; ++step) {
      const auto N = edge_shape(foot.s);
      const auto dN = edge_slope(foot.s);
      foot.point = N[0] * a + N[1] * m + N[2] * b;
      const Vec2 tangent = dN[0] * a + dN[1] * m + dN[2] * b;
      const double change = dot(target - foot.point, tangent) / dot(tangent, tangent);
      foot.s += change;
      if (std::abs(change) < 1e-13) break;
    }
    constexpr double kSlack = 1 + 1e-9;
    if (std::abs(foot.s) <= kSlack) break;
    const int step = foot.s > 0 ? 1 : -1;
    foot.edge = (foot.edge + step + l.edges()) % l.edges();
    foot.s = -step;
  }
  return foot;
}

int edge_at(const Mesh& mesh, int loop, Vec2 target) {
  const Loop& l = mesh.loops[loop];
  const Vec2 d = target - l.centre;
  const double angle = std::atan2(d.y, d.x);
  const Vec2 first = mesh.nodes[l.nodes[0]] - l.centre;
  const double start = std::atan2(first.y, first.x);
  const auto from_start = [&](double a) { return a - start - 2 * kPi * std::floor((a - start) / (2 * kPi)); };
  int low = 0, high = l.edges();  // angles of the corners grow from `start`
  while (high - low > 1) {
    const int middle = (low + high) / 2;
    const Vec2 corner = mesh.nodes[l.nodes[2 * middle]] - l.centre;
    (from_start(std::atan2(corner.y, corner.x)) <= from_start(angle) ? low : high) = middle;
  }
  return low;
}

}  // namespace lobewise::contact::elastic
