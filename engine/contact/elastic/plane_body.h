#pragma once
// A meshed plane body, its stiffness factorised once, solved for blocks of load cases.
#include <memory>
#include <span>
#include <vector>

#include "engine/contact/elastic/mesh.h"
#include "engine/contact/elastic/panel_factor.h"
#include "engine/contact/elastic/plane.h"

namespace lobewise::contact::elastic {

/// Values of kBlock load cases at every degree of freedom: [2 node + direction][case].
class NodeBlock {
 public:
  explicit NodeBlock(std::size_t nodes) : values_(2 * nodes * kBlock, 0.0) {}
  [[nodiscard]] double* at(std::size_t dof) { return values_.data() + dof * kBlock; }
  [[nodiscard]] const double* at(std::size_t dof) const { return values_.data() + dof * kBlock; }
  void clear() { std::fill(values_.begin(), values_.end(), 0.0); }

 private:
  std::vector<double> values_;
};

/// Smallest determinant of the Jacobian over all elements and Gauss points, divided by the element's largest:
/// a mesh is sound when it is positive.
[[nodiscard]] double least_jacobian(const Mesh& mesh);

class PlaneBody {
 public:
  /// @param held  [2 node + direction]: displacement is prescribed there. At least the rigid motions must be held.
  PlaneBody(const Mesh& mesh, PlaneMaterial material, const std::vector<char>& held);
  ~PlaneBody();
  PlaneBody(PlaneBody&&) noexcept;
  PlaneBody& operator=(PlaneBody&&) noexcept;

  /// In: nodal forces, at held freedoms the displacement. Out: displacements (times E and thickness, over force).
  void solve(NodeBlock& block) const;
  /// As `solve` for forces on the boundary alone; displacements inside the body are not given.
  void solve_boundary(NodeBlock& block) const;
  /// Entries of the triangular factor, for reports and benchmarks.
  [[nodiscard]] std::size_t factor_entries() const;

 private:
  struct Factor;
  enum class Answer { everywhere, boundary };
  void solve(NodeBlock& block, Answer answer) const;
  std::unique_ptr<const Factor> factor_;
};

/// Stress at the corner nodes of the mesh from nodal displacements (one load case of `block`), averaged over the
/// elements that meet there; zero at mid-side and middle nodes [1/m].
[[nodiscard]] std::vector<Stress> corner_stress(const Mesh& mesh, PlaneMaterial material, const NodeBlock& block,
                                                int load_case);

}  // namespace lobewise::contact::elastic
