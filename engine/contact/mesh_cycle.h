#pragma once
// One stage over a range of crank angles: what strength, losses, motion and the drawing need of the mesh.
#include <cstddef>
#include <vector>

#include "engine/base/result.h"
#include "engine/contact/mesh_losses.h"
#include "engine/contact/mesh_solver.h"

namespace lobewise::contact {

/// Crank angles start, start + span/n, … without the end.
struct CrankRange {
  double start = 0;  ///< [rad]
  double span = 0;   ///< [rad]
};
/// One ring pitch of the crank, 2 pi / Z. l1 and l1f repeat with it: what roller k carries at phi, roller k + 1 carries
/// at phi + 2 pi / Z, so that all rollers over one pitch hold every roller's revolution. In l2 and l3 the output pins
/// break this (4e-7 and about 1e-2 of the largest force) unless their number is a multiple of the lobes.
[[nodiscard]] CrankRange ring_pitch(const mechanism::StageGeometry& stage);
/// One revolution of the crank.
[[nodiscard]] CrankRange revolution();

/// Results by crank angle. Arrays by (angle, disc), (angle, disc, roller) or (angle, disc, pin): use the index
/// functions.
struct MeshCycle {
  Level level = Level::l1;
  double torque = 0;  ///< output torque of the stage [Nm]
  CrankRange range;
  int angles = 0, discs = 0, rollers = 0, pins = 0;

  std::vector<double> crank_angle;      ///< by angle [rad]
  std::vector<double> output_rotation;  ///< by angle: rotation error of the output; mean of the discs for l1, l1f [rad]
  std::vector<double> input_loss;       ///< by angle: frictional loss torque at the input, without drag [Nm]

  std::vector<DiscShift> shift;          ///< by disc: deviation from the ideal pose
  std::vector<mechanism::Vec2> bearing;  ///< by disc: force of the eccentric on the disc, ring frame [N]
  std::vector<int> loaded_rollers;       ///< by disc
  std::vector<int> loaded_pins;          ///< by disc
  std::vector<double> ring_force;        ///< by roller: F [N]
  std::vector<double> ring_radius;       ///< by roller: effective radius rho [m]
  std::vector<double> ring_pressure;     ///< by roller: peak Hertz pressure, 0 where unloaded [Pa]
  std::vector<double> sliding_speed;     ///< by roller: disc past a fixed roller, per unit input speed [m/rad]
  std::vector<double> rolling_speed;     ///< by roller: u2, disc past the contact point, per unit input speed [m/rad]
  std::vector<double> pin_force;         ///< by pin: Q [N]

  double peak_ring_force = 0;     ///< [N]
  double peak_pin_force = 0;      ///< [N]
  double peak_ring_pressure = 0;  ///< [Pa]
  double peak_pin_pressure = 0;   ///< [Pa]
  MeshLosses losses;              ///< mean over the range

  [[nodiscard]] std::size_t disc_at(int angle, int disc) const {
    return static_cast<std::size_t>(angle) * static_cast<std::size_t>(discs) + static_cast<std::size_t>(disc);
  }
  [[nodiscard]] std::size_t roller_at(int angle, int disc, int roller) const {
    return disc_at(angle, disc) * static_cast<std::size_t>(rollers) + static_cast<std::size_t>(roller);
  }
  [[nodiscard]] std::size_t pin_at(int angle, int disc, int pin) const {
    return disc_at(angle, disc) * static_cast<std::size_t>(pins) + static_cast<std::size_t>(pin);
  }
};

/// Solves `angles` >= 1 crank angles of `range` with the solver, each starting from the last. Memory of `cycle` is
/// reused.
[[nodiscard]] Outcome solve_cycle(MeshSolver& solver, Level level, double torque, const CrankRange& range, int angles,
                                  const MeshFriction& friction, MeshCycle& cycle);

/// As above for one ring pitch, with a checked model. Errors: those of `check_model`, angles < 1, no equilibrium.
[[nodiscard]] Result<MeshCycle> solve_cycle(const MeshModel& model, Level level, double torque, int angles,
                                            const MeshFriction& friction = {});

}  // namespace lobewise::contact
