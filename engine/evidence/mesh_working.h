#pragma once
// Workings of what the solved mesh of a stage gives at a torque between those it was solved at.

#include <string>

#include "engine/base/formula/record.h"
#include "engine/drive/stage_table.h"

namespace lobewise::evidence {

/// A torque among the solved ones, with the share at which it lies between them; below the lowest everything goes in
/// proportion to it.
class SolvedMesh {
 public:
  /// @param torque  of the disc that is looked at, times the number of discs [N m]
  SolvedMesh(const drive::StageTable& table, double torque);

  /// A figure of the mesh there: lerp of both solved ones, or in proportion.
  /// @param torque  the same under its symbol
  [[nodiscard]] formula::Term at(const formula::Term& torque, const formula::Term& below,
                                 const formula::Term& above) const;
  /// The same for a figure that is drawn.
  [[nodiscard]] double at(double below, double above) const;
  [[nodiscard]] bool in_proportion() const { return in_proportion_; }
  /// The solved torques around it; in proportion both are the lowest.
  [[nodiscard]] const drive::MeshLevel& below() const { return *below_; }
  [[nodiscard]] const drive::MeshLevel& above() const { return *above_; }
  /// Torque of the stage for which a level was solved, T_a or T_b.
  [[nodiscard]] formula::Term torque_below() const;
  [[nodiscard]] formula::Term torque_above() const;
  /// A member of both levels under `symbol`_a and _b, put together.
  [[nodiscard]] formula::Term member(const formula::Term& torque, const std::string& symbol, const std::string& meaning,
                                     Quantity quantity, double drive::MeshLevel::*figure) const;

 private:
  double torque_;
  bool in_proportion_;
  const drive::MeshLevel *below_, *above_;
};

/// The largest lobe force of a level: that the forces found are in equilibrium, and that every contact gives way as far
/// as the pose asks. Lists of all contacts that carry.
/// @param tag  ends the symbols
/// @returns the force under its symbol
formula::Term record_solved_level(const drive::MeshLevel& level, const std::string& tag, const formula::Term& torque,
                                  Working& working);

}  // namespace lobewise::evidence
