// Forces over a cycle and the film between the most heavily pressed surfaces.
#include "engine/contact/cycle_forces.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"
#include "tests/support/mesh_forces.h"

namespace lobewise::contact {
namespace {

mechanism::StageGeometry stage() {
  mechanism::StageGeometry g;
  g.lobes = 17;
  g.pitch_radius = 0.08;
  g.roller_radius = 0.007;
  g.eccentricity = 0.003;
  g.width = 0.014;
  g.pins = 10;
  g.pin_circle_radius = 0.05;
  g.pin_radius = 0.008;
  return g;
}

// Whatever the model, the forces must carry the torque: mean of sum F l over the cycle.
double torque_of(const std::vector<double>& flank, const mechanism::StageGeometry& g) {
  double sum = 0;
  for (std::size_t j = 0; j < flank.size(); ++j)
    sum -= flank[j] *
           mechanism::roller_mesh(g, 2 * kPi * (static_cast<double>(j) + 0.5) / static_cast<double>(flank.size()), 0)
               .lever_arm;
  return sum * g.rollers() / static_cast<double>(flank.size());
}

TEST(CycleForces, CarryTheTorque) {
  const CycleForces rigid = equal_stiffness_cycle(stage(), 300);
  EXPECT_NEAR(torque_of(rigid.flank, stage()), 300, 1e-9);
  MeshModel model;
  model.stage = stage();
  model.stage.roller_offset = 3e-6;
  MeshSolver solver(model);
  for (const Level level : {Level::l1, Level::l2}) {
    const CycleForces mesh = mesh_forces(solver, level, 600, 36);
    EXPECT_NEAR(torque_of(mesh.flank, model.stage), 300, 0.3);  // lever arms of the ideal pose
    EXPECT_EQ(mesh.flank.size() % 18, 0u);
  }
}

// A law without load dependence is the rigid closed form.
TEST(CycleForces, LinearLawIsTheClosedForm) {
  MeshModel model;
  model.stage = stage();
  model.ring_law.kind = model.pin_law.kind = LawKind::linear;
  model.ring_law.linear_stiffness = 1e12;  // stiff: the pose stays ideal
  MeshSolver solver(model);
  const CycleForces mesh = mesh_forces(solver, Level::l1, 600, 23);
  const CycleForces rigid = equal_stiffness_cycle(stage(), 300, 23);
  ASSERT_EQ(mesh.flank.size(), rigid.flank.size());
  for (std::size_t j = 0; j < rigid.flank.size(); ++j) EXPECT_NEAR(mesh.flank[j], rigid.flank[j], 0.5) << j;
}

TEST(HardContact, FixedRollerHasTheThinnerFilm) {
  const CycleForces cycle = equal_stiffness_cycle(stage(), 300);
  const HardContact turning = hardest_lobe_contact(stage(), cycle.flank, {}, true);
  const HardContact held = hardest_lobe_contact(stage(), cycle.flank, {}, false);
  EXPECT_EQ(turning.pressure, held.pressure);
  EXPECT_LT(held.entrainment, turning.entrainment);
  EXPECT_EQ(hardest_lobe_contact(stage(), std::vector<double>(18, 0.0), {}, true).force, 0);
}

}  // namespace
}  // namespace lobewise::contact
