#pragma once
// Forces of the loaded mesh over a whole turn of the crank, as `drive::rigid_stage_table` collects them, for a model of
// the test's own: any level and contact law.
#include <gtest/gtest.h>

#include "engine/contact/cycle_forces.h"
#include "engine/contact/mesh_solver.h"

namespace lobewise::contact {

/// @param torque  on the whole stage [N m]
inline CycleForces mesh_forces(MeshSolver& solver, Level level, double torque, int fewest_phases) {
  const CrankTurn turn(solver.model().stage, fewest_phases);
  CycleForces forces = turn.empty_forces();
  for (int phase = 0; phase < turn.phases(); ++phase) {
    EXPECT_EQ(solver.solve(level, turn.crank(phase), torque), Outcome::converged);
    const DiscLoads& disc = solver.discs().front();
    turn.record(phase, disc.ring_force, disc.pin_force, disc.bearing_force(), forces);
  }
  return forces;
}

}  // namespace lobewise::contact
