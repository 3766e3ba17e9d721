#pragma once
// Rotation of the output under torque: lost motion, stiffness, and two stages in series.
#include "engine/base/result.h"
#include "engine/contact/mesh_solver.h"

namespace lobewise::contact {

/// Rotation error under the stage torque T at crank angle phi [rad]: of the output for l2, l3; of the first disc for
/// l1, l1f, where every disc takes T / n_d. Errors: no equilibrium.
[[nodiscard]] Result<double> rotation_under(MeshSolver& solver, Level level, double crank_angle, double torque);

/// Lost motion: rotation(+3 % T) - rotation(-3 % T), T = rated output torque > 0 [rad].
/// The 3 % are common practice, no source.
[[nodiscard]] Result<double> lost_motion(MeshSolver& solver, Level level, double crank_angle, double rated_torque);

/// Torsional stiffness between half and full torque: 0.5 T / (rotation(T) - rotation(T/2)), T > 0 [Nm/rad].
/// The range of torque is common practice, no source.
[[nodiscard]] Result<double> torsional_stiffness(MeshSolver& solver, Level level, double crank_angle, double torque);

/// Figures of one stage, or of several in series, at the output.
struct StageFigures {
  double ratio = 0;           ///< i, with sign
  double efficiency = 0;      ///< eta
  double stiffness = 0;       ///< k [Nm/rad]
  double lost_motion = 0;     ///< [rad]
  double rotation_error = 0;  ///< te [rad]
};

/// Torque at the input of a stage that gives `output_torque`: T / (|i| eta) [Nm].
[[nodiscard]] double input_torque(const StageFigures& stage, double output_torque);

/// First stage drives the second: i = i1 i2, eta = eta1 eta2, 1/k = 1/k2 + 1/(k1 i2^2), lm = lm2 + lm1/|i2|, te = te2 +
/// te1/i2. Source: derived, docs/theory/mesh.md.
[[nodiscard]] StageFigures in_series(const StageFigures& first, const StageFigures& second);

}  // namespace lobewise::contact
