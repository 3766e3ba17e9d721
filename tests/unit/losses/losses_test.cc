#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/mesh_losses.h"
#include "engine/losses/friction.h"
#include "engine/losses/mesh_loss.h"
#include "engine/losses/parts.h"
#include "tests/support/mesh_forces.h"
#include "tests/support/one_stage_unit.h"

namespace lobewise::losses {
namespace {

using drive::LossPlaces;
using range::Carried;

constexpr double kWarm = 333.15;

/// Forces of a stage whose contacts are all equally stiff, 300 N m and 600 N m on a disc.
std::unique_ptr<drive::OneStageUnit> unit(Carried carried) {
  auto unit = std::make_unique<drive::OneStageUnit>(drive::stage_of_seventeen(carried));
  const mechanism::StageGeometry& g = unit->stage.geometry;
  unit->table = std::make_shared<const drive::StageTable>(
      drive::table_of(unit->stage, {{600, contact::equal_stiffness_cycle(g, 300)},  // two discs
                                    {1200, contact::equal_stiffness_cycle(g, 600)}}));
  return unit;
}

TEST(Friction, Ends) {
  EXPECT_EQ(sleeve_friction(0), kSleeveFriction.boundary.nominal);
  EXPECT_NEAR(sleeve_friction(1), kSleeveFriction.film.nominal, 1e-8);
  EXPECT_NEAR(sleeve_friction(kSleeveFriction.half.nominal), 0.045, 1e-15);
  EXPECT_EQ(mixed_friction(0), 0.10);
  EXPECT_EQ(roller_side_factor(0.1, 0.08, 0.5), 0.04);
  EXPECT_EQ(roller_side_factor(0.03, 0.08, 0.5), 0.03);
}

// Written out by hand: 35 mm, 1450 1/min, VG 220, 60 C: [145 - 96 + 350 lg lg 220.8] 35^2 1450 1e-7 = 31.7 W ("about 30
// W").
TEST(Parts, Seal) {
  EXPECT_NEAR(seal_loss(0.035, 1450 * kPi / 30, 220e-6, 333.15), 31.70, 0.02);
  EXPECT_EQ(seal_loss(0.035, 100, 15e-6, 500), 0);
}

TEST(Parts, BearingBranchesMeet) {
  const BearingDrag bearing{0.05, 3, 3e-4};
  const double speed = 2000 / 40.0 * kPi / 30;  // nu n = 2000 at 40 mm2/s
  const double below = bearing_friction(bearing, speed * (1 - 1e-9), 40e-6, 0).M_0;
  const double above = bearing_friction(bearing, speed * (1 + 1e-9), 40e-6, 0).M_0;
  EXPECT_NEAR(below / above, 160 / std::pow(2000, 2.0 / 3), 1e-6);  // 1.008: the form's own small step
}

TEST(Parts, ChurningBranches) {
  for (const double re : {2000.0, 1e5}) {
    const double low = churning_loss(870, 1e-4, re * (1 - 1e-9) * 1e-4 / (0.05 * 0.08), 0.05, 0.08, 0.01).torque;
    const double high = churning_loss(870, 1e-4, re * (1 + 1e-9) * 1e-4 / (0.05 * 0.08), 0.05, 0.08, 0.01).torque;
    EXPECT_NEAR(low / high, 1, 0.3) << re;  // the published branches do not meet exactly
  }
}

TEST(Parts, Efficiency) {
  const Efficiency result = efficiency(900, std::array{60.0, 40.0});
  EXPECT_EQ(result.loss, 100);
  EXPECT_EQ(result.efficiency, 0.9);
}

// Sums over the cycle against the closed forms of the formula level.
TEST(BuildLosses, ConstantFrictionIsTheClosedForm) {
  const auto needle = unit(Carried::needle);
  const mechanism::StageGeometry& g = needle->stage.geometry;
  // The closed form is that of one constant coefficient: no rolling beside it, no rise at low speed.
  drive::Coefficients constant;
  constant.rolling_arm = constant.low_speed_rise = 0;
  const LossPlaces losses = needle->losses(600, 150, kWarm, constant);
  const double lobes = lobe_friction_torque(g, 300, 0.004 * 4 / 7) * 150 * 2;
  const double pins = pin_friction_torque(g, 300, 0.004 * 5 / 8) * 150 * 2;
  EXPECT_NEAR(losses.lobes, lobes, 2e-5 * lobes);
  EXPECT_NEAR(losses.output_pins, pins, 2e-5 * pins);
}

// The first-order losses of the contact module, the same stage and coefficient, level L2.
TEST(BuildLosses, AgreesWithMeshLosses) {
  contact::MeshModel mesh;
  mesh.stage = drive::stage_of_seventeen().geometry;
  contact::MeshSolver solver(mesh);
  const contact::CycleForces cycle = contact::mesh_forces(solver, contact::Level::l2, 600, 36);
  double ring = 0, pin = 0;
  const int n = 60;
  for (int i = 0; i < n; ++i) {
    ASSERT_EQ(solver.solve(contact::Level::l2, 2 * kPi * i / n, 600), contact::Outcome::converged);
    const contact::MeshLosses loss = contact::mesh_losses(solver, {}, 600);
    ring += loss.ring / n;
    pin += loss.pin / n;
  }
  const SlidingSums lobes = lobe_sliding(mesh.stage, cycle.flank, 0.004),
                    pins = pin_sliding(mesh.stage, cycle.pins, 0.005);
  EXPECT_NEAR(2 * 0.05 * lobes.total, ring, 2e-4 * ring);
  EXPECT_NEAR(2 * 0.05 * 5.0 / 8 * pins.total, pin, 2e-3 * pin);
}

// Without torque lobes and pins lose nothing, everything else as much as the lubricant alone takes; torque adds to it.
TEST(BuildLosses, WithoutTorqueOnlyTheLubricantLoses) {
  const auto all = unit(Carried::sleeve);
  all->frame.input_seal_diameter = 0.035;
  all->frame.output.seal_diameter = 0.060;
  const LossPlaces empty = all->losses(0, 150, kWarm), loaded = all->losses(600, 150, kWarm);
  EXPECT_EQ(empty.lobes, 0);
  EXPECT_EQ(empty.output_pins, 0);
  EXPECT_EQ(empty.seals, loaded.seals);
  EXPECT_EQ(empty.oil_drag, loaded.oil_drag);
  const double nu = all->oil().nu(kWarm, 1);
  const BearingDrag drag{0.05, kFullComplement.f0_oil.nominal, kFullComplement.f1.nominal};
  EXPECT_NEAR(empty.eccentric_bearings, 2 * bearing_friction(drag, 150 * 18 / 17.0, nu, 0).power, 1e-9);
  EXPECT_GT(loaded.eccentric_bearings, empty.eccentric_bearings);
  for (const double place :
       {loaded.lobes, loaded.output_pins, loaded.input_bearings, loaded.output_bearings, loaded.seals, loaded.oil_drag})
    EXPECT_GT(place, 0);
}

// Needle rollers lose least, a roller that does not turn most.
TEST(BuildLosses, HowRollersAreCarried) {
  const double needle = unit(Carried::needle)->losses(600, 150, kWarm + 20).lobes;
  const double sleeve = unit(Carried::sleeve)->losses(600, 150, kWarm + 20).lobes;
  const double fixed = unit(Carried::fixed)->losses(600, 150, kWarm + 20).lobes;
  EXPECT_LT(needle, sleeve);
  EXPECT_LT(sleeve, fixed);
}

}  // namespace
}  // namespace lobewise::losses
