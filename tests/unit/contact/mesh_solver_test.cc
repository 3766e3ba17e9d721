// Edges of the mesh solver: no torque, tight stages, refusals, memory.
#include "engine/contact/mesh_solver.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <limits>
#include <new>

#include "engine/contact/mesh_solver.h"
#include "engine/contact/mesh_stiffness.h"

namespace {
long allocations = 0;
}  // namespace

__attribute__((noinline)) void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc();
}
__attribute__((noinline)) void operator delete(void* memory) noexcept { std::free(memory); }
__attribute__((noinline)) void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace {
using namespace lobewise;
using namespace lobewise::contact;

constexpr Level kLevels[] = {Level::l1, Level::l1f, Level::l2, Level::l3};

MeshModel seventeen() {
  MeshModel model;
  model.stage = {17, 0.080, 0.007, 0.003, 0.014, 2, 10, 0.050, 0.008};
  return model;
}

TEST(MeshSolver, WithoutTorqueNothingIsLoaded) {
  auto model = seventeen();
  model.stage.roller_offset = 5e-6;
  model.support.clearance = 3e-6;
  MeshSolver solver(model);
  for (const Level level : kLevels) {
    ASSERT_EQ(solver.solve(level, 0.3, 0), Outcome::converged);
    for (const double force : solver.discs()[0].ring_force) EXPECT_EQ(force, 0);
    EXPECT_EQ(solver.output_rotation(), 0);
  }
}

// A roller 2 um too large for the profile presses all round, also without torque, and the forces still balance.
TEST(MeshSolver, TightStageIsPreloaded) {
  auto model = seventeen();
  model.stage.roller_offset = -2e-6;
  MeshSolver solver(model);
  for (const Level level : kLevels) {
    for (const double torque : {0.0, 1.0, -300.0}) {
      ASSERT_EQ(solver.solve(level, 0.3, torque), Outcome::converged);
      EXPECT_NEAR(solver.discs()[0].torque() + solver.discs()[1].torque(), torque, 1e-4);
      EXPECT_GT(solver.discs()[0].ring_force[9], 0);
    }
  }
}

TEST(MeshSolver, NegativeTorqueMirrorsThePose) {
  MeshSolver solver(seventeen());
  ASSERT_EQ(solver.solve(Level::l3, 0.3, 600), Outcome::converged);
  const auto forward = solver.discs()[0].ring_force;
  ASSERT_EQ(solver.solve(Level::l3, -0.3, -600), Outcome::converged);
  const auto& backward = solver.discs()[0].ring_force;
  for (std::size_t k = 0; k < 18; ++k) EXPECT_NEAR(forward[k], backward[(18 - k) % 18], 1e-5 * 1000);
}

TEST(MeshSolver, RefusesAContactWiderThanItsLaw) {
  auto model = seventeen();
  model.ring_law.depth = 1e-4;
  MeshSolver solver(model);
  EXPECT_EQ(solver.solve(Level::l1, 0.3, 2e5), Outcome::outside_law);
  const Error error = outcome_error(Outcome::outside_law, 2e5);
  EXPECT_EQ(error.kind, ErrorKind::model);
  EXPECT_EQ(error.offending, "200000 N m");
  EXPECT_FALSE(rotation_under(solver, Level::l1, 0.3, 2e5).ok());
  EXPECT_TRUE(rotation_under(solver, Level::l1, 0.3, 600).ok());  // and goes on afterwards
}

TEST(MeshSolver, RefusesDiscsThatJumpLobes) {
  auto model = seventeen();
  model.ring_law.kind = model.pin_law.kind = LawKind::linear;
  model.ring_law.linear_stiffness = 1e5;
  MeshSolver solver(model);
  for (const Level level : kLevels) EXPECT_EQ(solver.solve(level, 0.3, 6000), Outcome::jumps_lobes);
}

TEST(MeshModel, SaysWhatIsWrong) {
  auto model = seventeen();
  model.material.poisson = 0.5;
  model.ring_law.depth = 0;
  model.support.stiffness = std::numeric_limits<double>::quiet_NaN();
  const Errors errors = check_model(model, "mesh");
  ASSERT_EQ(errors.size(), 3u);
  EXPECT_EQ(errors[0].path, "mesh.material.poisson");
  EXPECT_EQ(errors[1].path, "mesh.ring_law.depth");
  EXPECT_EQ(errors[2].path, "mesh.support.stiffness");
  model = seventeen();
  model.stage.roller_offset = -0.0009;  // roots with a radius of 1/0.1452 mm, below the roller's 7 mm
  ASSERT_EQ(check_model(model).size(), 1u);
  EXPECT_NE(check_model(model)[0].message.find("lobe roots"), std::string::npos);
}

TEST(MeshSolver, AllocatesNothingWhileSolving) {
  auto model = seventeen();
  model.stage.roller_offset = 4e-6;
  MeshSolver solver(model);
  const auto solve = [&](Level level) {
    for (int i = 0; i < 8; ++i)
      if (solver.solve(level, 2 * kPi / 18 * i / 8, 600) != Outcome::converged) FAIL();
  };
  solve(Level::l3);
  const long before = allocations;
  for (const Level level : kLevels) solve(level);
  EXPECT_EQ(allocations, before);
}

}  // namespace
