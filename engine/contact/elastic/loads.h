#pragma once
// Unit loads on the boundary of a meshed body, their singular part taken away (plane.h), and what is left solved by
// finite elements. The rest is smooth, so that a coarse mesh is enough.

#include "engine/contact/elastic/plane_body.h"

namespace lobewise::contact::elastic {

/// A contact point on the boundary.
struct SurfacePoint {
  EdgePoint place;       ///< foot on the finite-element edge
  Vec2 point;            ///< true point [m]
  Vec2 normal;           ///< unit, into the body
  double parameter = 0;  ///< t on the flank, angle about the centre on a hole or the bore [rad]
};

/// Gauss points of all boundary edges: turns the stress vectors of a singular field into nodal forces.
class BoundaryQuadrature {
 public:
  explicit BoundaryQuadrature(const Mesh& mesh);
  /// Adds the nodal forces of -sigma.outward of up to kBlock fields, each to its own load case.
  void add_removed_tractions(std::span<const SingularField> fields, NodeBlock& forces) const;

  struct Sample {
    Vec2 point;
    Vec2 outward;  ///< outward normal times the weight of length [m]
    std::array<int, 3> nodes;
    std::array<double, 3> shape;
  };
  [[nodiscard]] const std::vector<Sample>& samples(int loop) const { return samples_[loop]; }

 private:
  template <class Lanes>
  void add(const std::array<SingularField::Source<double>, kBlock>& loads, NodeBlock& forces) const;
#if defined(__x86_64__)
  void add_wide(const std::array<SingularField::Source<double>, kBlock>& loads, NodeBlock& forces) const;
#endif
  std::vector<std::vector<Sample>> samples_;
};

/// Displacement in `block` (one load case) at a place on the boundary.
[[nodiscard]] Vec2 displacement_at(const Mesh& mesh, const NodeBlock& block, const EdgePoint& place, int load_case);

}  // namespace lobewise::contact::elastic
