#include "engine/evidence/mesh_working.h"

#include <algorithm>

namespace lobewise::evidence {
namespace {

using drive::MeshLevel;
using formula::input;
using formula::inputs;
using formula::Term;

constexpr const char* kMesh = "derived, docs/theory/mesh.md";
/// What is left of an equilibrium, as a share of the torque or of the largest approach.
constexpr double kCloses = 1e-6;

/// |F (p - w ln F) + u - g| over the largest approach, the worst of a list of contacts.
Term gives_way(const contact::PressedContacts& list, const std::string& force, const std::string& tag,
               const std::string& what, const Term& largest_approach) {
  const Term F = inputs(force + tag, "forces of the " + what + " that carry", list.force, Quantity::force);
  const Term p = inputs("p_" + force + tag, "give of each for itself, linear share (m/N)", list.local);
  const Term w = input("w_" + force + tag, "its share with the logarithm of the force (m/N)", list.logarithmic);
  const Term g =
      inputs("g_" + force + tag, "by how much the pose of the disc closes each gap", list.approach, Quantity::length);
  Term give = F * (p - w * ln(F));
  if (std::any_of(list.bent.begin(), list.bent.end(), [](double u) { return u != 0; }))
    give = give + inputs("u_" + force + tag, "what the disc's body gives there under all its forces", list.bent,
                         Quantity::length);
  return largest(abs(give - g)) / largest_approach;
}

}  // namespace

SolvedMesh::SolvedMesh(const drive::StageTable& table, double torque)
    : torque_(torque), in_proportion_(torque <= table.levels.front().torque) {
  const drive::StageTable::Between around = table.between(torque);
  below_ = around.below;
  above_ = in_proportion_ ? around.below : around.above;
}

Term SolvedMesh::torque_below() const {
  return input("T_a",
               in_proportion_ ? "lowest torque of the stage that was solved" : "solved torque of the stage below",
               below_->torque, Quantity::torque);
}

Term SolvedMesh::torque_above() const {
  return input("T_b", "solved torque of the stage above", above_->torque, Quantity::torque);
}

Term SolvedMesh::at(const Term& torque, const Term& below, const Term& above) const {
  if (in_proportion_) return below * torque / torque_below();
  return lerp(below, above, (torque - torque_below()) / (torque_above() - torque_below()));
}

double SolvedMesh::at(double below, double above) const {
  if (in_proportion_) return below * torque_ / below_->torque;
  return formula::lerp(below, above, (torque_ - below_->torque) / (above_->torque - below_->torque));
}

Term SolvedMesh::member(const Term& torque, const std::string& symbol, const std::string& meaning, Quantity quantity,
                        double MeshLevel::*figure) const {
  return at(torque, input(symbol + "_a", meaning + " at T_a", below_->*figure, quantity),
            input(symbol + "_b", meaning + " at T_b", above_->*figure, quantity));
}

Term record_solved_level(const MeshLevel& level, const std::string& tag, const Term& torque, Working& working) {
  const contact::Equilibrium& e = level.at_largest;
  const std::string force = "F_" + tag;
  const Term solution = input(force, "the solution", level.lobe_force, Quantity::force);
  const Term F = inputs("F_k" + tag, "forces of the ring rollers that carry", e.ring.force, Quantity::force);
  const Term Q = inputs("Q_j" + tag, "forces of the output pins that carry", e.pins.force, Quantity::force);
  const Term on_disc =
      abs(sum(F * inputs("l_k" + tag, "their levers about the middle of the disc", e.ring.arm, Quantity::length)) +
          sum(Q * inputs("l_j" + tag, "their levers about the middle of the disc", e.pins.arm, Quantity::length))) /
      torque;
  const Term on_output =
      abs(sum(inputs("Q_o" + tag, "forces of the output pins of all discs", e.output_force, Quantity::force) *
              inputs("l_o" + tag, "their levers about the output shaft", e.output_arm, Quantity::length)) /
              torque -
          1);
  formula::record_solved(working, force.c_str(),
                         ("largest force on a lobe at the solved torque T_" + tag +
                          ", crank angle of that force: moments on the disc and on the output vanish")
                             .c_str(),
                         Quantity::force, level.lobe_force,
                         formula::max({abs(largest(F) / solution - 1), on_disc, on_output}), kCloses, kMesh);
  const double deepest = std::max(*std::max_element(e.ring.approach.begin(), e.ring.approach.end()),
                                  *std::max_element(e.pins.approach.begin(), e.pins.approach.end()));
  const Term most = input("g_" + tag, "the largest", deepest, Quantity::length);
  formula::record_solved(
      working, ("g_" + tag).c_str(),
      "largest approach of a contact then: every contact gives way as far as the pose of the disc asks",
      Quantity::length, deepest,
      max(gives_way(e.ring, "F_k", tag, "ring rollers", most), gives_way(e.pins, "Q_j", tag, "output pins", most)),
      kCloses, std::string(kMesh) + ", docs/theory/elastic.md");
  return input(force, "largest force on a lobe at T_" + tag, level.lobe_force, Quantity::force);
}

}  // namespace lobewise::evidence
