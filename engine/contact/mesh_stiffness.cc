#include "engine/contact/mesh_stiffness.h"

#include <cmath>

namespace lobewise::contact {
namespace {

/// rotation(to) - rotation(from).
Result<double> difference(MeshSolver& solver, Level level, double crank_angle, double from, double to) {
  const auto start = rotation_under(solver, level, crank_angle, from);
  if (!start) return start;
  const auto end = rotation_under(solver, level, crank_angle, to);
  if (!end) return end;
  return *end - *start;
}

}  // namespace

Result<double> rotation_under(MeshSolver& solver, Level level, double crank_angle, double torque) {
  const Outcome outcome = solver.solve(level, crank_angle, torque);
  if (outcome != Outcome::converged) return outcome_error(outcome, torque);
  const bool pins = level == Level::l2 || level == Level::l3;
  return pins ? solver.output_rotation() : solver.discs().front().shift.rotation;
}

Result<double> lost_motion(MeshSolver& solver, Level level, double crank_angle, double rated_torque) {
  constexpr double kShare = 0.03;
  return difference(solver, level, crank_angle, -kShare * rated_torque, kShare * rated_torque);
}

Result<double> torsional_stiffness(MeshSolver& solver, Level level, double crank_angle, double torque) {
  const auto rotation = difference(solver, level, crank_angle, torque / 2, torque);
  if (!rotation) return rotation;
  return 0.5 * torque / *rotation;
}

double input_torque(const StageFigures& stage, double output_torque) {
  return output_torque / (std::abs(stage.ratio) * stage.efficiency);
}

StageFigures in_series(const StageFigures& first, const StageFigures& second) {
  StageFigures both;
  both.ratio = first.ratio * second.ratio;
  both.efficiency = first.efficiency * second.efficiency;
  both.stiffness = 1 / (1 / second.stiffness + 1 / (first.stiffness * second.ratio * second.ratio));
  both.lost_motion = second.lost_motion + first.lost_motion / std::abs(second.ratio);
  both.rotation_error = second.rotation_error + first.rotation_error / second.ratio;
  return both;
}

}  // namespace lobewise::contact
