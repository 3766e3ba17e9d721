#pragma once
// Own mapped meshes of 9-node quadrilaterals; every boundary node, corner or mid-side, lies on the exact curve.
#include <array>
#include <vector>

#include "engine/base/result.h"
#include "engine/mechanism/profile.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::contact::elastic {

using mechanism::Vec2;

/// A closed boundary: corner, mid-side, corner, ... counter-clockwise.
struct Loop {
  std::vector<int> nodes;
  double outward = 1;  ///< +1 the body lies inside the loop (flank), -1 outside it (hole, bore)
  Vec2 centre;         ///< of a round loop [m]
  [[nodiscard]] int edges() const { return static_cast<int>(nodes.size()) / 2; }
};

struct Mesh {
  std::vector<Vec2> nodes;  ///< [m]
  /// Corners, mid-sides, middle of each element: lattice order, three rows of three.
  std::vector<std::array<int, 9>> elements;
  std::vector<Loop> loops;
};

/// A place on the boundary of a mesh.
struct EdgePoint {
  int loop = 0, edge = 0;
  double s = 0;  ///< -1..1 along the edge
  Vec2 point;    ///< on the edge [m]
};

/// What the mesh is made for.
struct DiscShape {
  mechanism::StageGeometry stage;
  double bore_radius = 0;  ///< rb: bore, or the raceway of the ring pressed into it [m]
  bool holes = true;       ///< output holes are cut
  double hole_offset = 0;  ///< angle of hole 0 from the lobe root on the x axis [rad]
};

/// How fine: intervals per lobe along the flank and element layers in each of the three zones (rim, holes, bore). Above
/// 30 lobes, when the intervals are a multiple of three and the rim is deep enough, the inside gets a third of the
/// intervals.
struct MeshDensity {
  int per_lobe = 8;
  int layers = 2;
};
/// Enough for 0.1 % of the largest force (docs/theory/elastic.md): max(8, 140/N) intervals and two layers; above 30
/// lobes nine intervals and three layers.
[[nodiscard]] MeshDensity default_density(int lobes);

inline constexpr int kFlankLoop = 0, kBoreLoop = 1, kFirstHoleLoop = 2;

/// Spacing of the elements: t = xi - alpha sin(N xi)/N makes the spacing at root and tip equal when xi is even.
class FlankSpacing {
 public:
  explicit FlankSpacing(const mechanism::Profile& profile);
  [[nodiscard]] double parameter(double xi) const;  ///< t [rad]
  [[nodiscard]] double inverse(double t) const;     ///< xi [rad]

 private:
  double lobes_, alpha_;
};

/// Disc: loop 0 flank, 1 bore, 2.. holes in order.
/// Errors (model): the mapped mesh folds over itself (ligaments too thin).
[[nodiscard]] Result<Mesh> disc_mesh(const DiscShape& shape, MeshDensity density);

/// Unit circle (loop 0); with `core` > 0 an annulus whose inner wall is loop 1, else a full disc. `squeeze` in [0, 1)
/// draws the nodes towards the angles +-pi/2.
[[nodiscard]] Mesh circle_mesh(double core, int intervals, int layers, double squeeze);

/// Foot of `target` on the loop, searched from edge `edge`.
[[nodiscard]] EdgePoint foot_on_loop(const Mesh& mesh, int loop, int edge, Vec2 target);
/// The edge of a round loop that spans the angle of `target` about the loop's centre.
[[nodiscard]] int edge_at(const Mesh& mesh, int loop, Vec2 target);

/// Quadratic shape functions of an edge at s in [-1, 1]: start, middle, end.
[[nodiscard]] constexpr std::array<double, 3> edge_shape(double s) {
  return {0.5 * s * (s - 1), 1 - s * s, 0.5 * s * (s + 1)};
}
[[nodiscard]] constexpr std::array<double, 3> edge_slope(double s) { return {s - 0.5, -2 * s, s + 0.5}; }

}  // namespace lobewise::contact::elastic
