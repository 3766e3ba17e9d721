#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/contact/mesh_losses.h"
#include "engine/losses/stage_losses.h"

namespace lobewise::losses {
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

OperatingPoint point(double nu) {
  OperatingPoint p;
  p.input_speed = 150;
  p.oil_temperature = 333.15;
  p.nu_40 = 220e-6;
  p.nu = nu;
  p.density = 870;
  p.pressure_viscosity = 2e-8;
  return p;
}

StageLossModel model(Mount mount) {
  StageDesign design;
  design.ring_mount = design.pin_mount = mount;
  design.ring_bore_radius = 0.004;
  design.pin_bore_radius = 0.005;
  design.eccentric = {0.05, 5, 5.5e-4};
  return prepare(stage(), contact::equal_stiffness_cycle(stage(), 300), design);
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
TEST(StageLosses, ConstantFrictionIsTheClosedForm) {
  const StageLossModel needle = model(Mount::needle);
  const StageLosses losses = stage_losses(needle, point(5e-5));
  const double lobes = lobe_friction_torque(stage(), 300, 0.004 * 4 / 7) * 150 * 2;
  const double pins = pin_friction_torque(stage(), 300, 0.004 * 5 / 8) * 150 * 2;
  EXPECT_NEAR(losses.ring_rollers, lobes, 2e-5 * lobes);
  EXPECT_NEAR(losses.output_pins, pins, 2e-5 * pins);
}

// The first-order losses of the contact module, the same stage and coefficient, level L1.
TEST(StageLosses, AgreesWithMeshLosses) {
  contact::MeshModel mesh;
  mesh.stage = stage();
  contact::MeshSolver solver(mesh);
  const Result<contact::CycleForces> cycle = contact::mesh_cycle(solver, contact::Level::l2, 600, 36);
  ASSERT_TRUE(cycle.ok());
  double ring = 0, pin = 0;
  const int n = 60;
  for (int i = 0; i < n; ++i) {
    ASSERT_EQ(solver.solve(contact::Level::l2, 2 * kPi * i / n, 600), contact::Outcome::converged);
    const contact::MeshLosses loss = contact::mesh_losses(solver, {}, 600);
    ring += loss.ring / n;
    pin += loss.pin / n;
  }
  const SlidingSums lobes = lobe_sliding(stage(), cycle->flank, 0.004), pins = pin_sliding(stage(), cycle->pins, 0.005);
  EXPECT_NEAR(2 * 0.05 * lobes.total, ring, 2e-4 * ring);
  EXPECT_NEAR(2 * 0.05 * 5.0 / 8 * pins.total, pin, 2e-3 * pin);
}

TEST(StageLosses, NoLoadPart) {
  StageLossModel all = model(Mount::plain);
  all.input_bearings = {{{0.04, 2, 2.2e-4}, 500, 1}};
  all.output_bearings = {{{0.08, 6, 4e-4}, 5000, 1.0 / 17}};
  all.seals = {{0.035, 1}};
  all.gap_area = 0.05;
  all.dipping = {{1.0 / 17, 0.05, 0.08, 0.01}};
  const StageLosses loaded = stage_losses(all, point(8e-5));
  StageLossModel idle = all;
  idle.lobes.sums = idle.pins.sums = {};
  idle.eccentric_load = idle.input_bearings[0].load = idle.output_bearings[0].load = 0;
  const StageLosses empty = stage_losses(idle, point(8e-5));
  EXPECT_NEAR(loaded.no_load, empty.total(), 1e-12);
  EXPECT_NEAR(empty.no_load, empty.total(), 1e-12);
  EXPECT_LT(loaded.no_load, loaded.total());
  for (const double place : {loaded.ring_rollers, loaded.output_pins, loaded.eccentric_bearings, loaded.input_bearings,
                             loaded.output_bearings, loaded.seals, loaded.oil_drag, loaded.churning})
    EXPECT_GT(place, 0);
}

// Needle rollers lose least, a roller that does not turn most.
TEST(StageLosses, Mounts) {
  const double needle = stage_losses(model(Mount::needle), point(2e-5)).ring_rollers;
  const double plain = stage_losses(model(Mount::plain), point(2e-5)).ring_rollers;
  const double fixed = stage_losses(model(Mount::fixed), point(2e-5)).ring_rollers;
  EXPECT_LT(needle, plain);
  EXPECT_LT(plain, fixed);
}

TEST(StageLosses, CarrierHeld) {
  StageDesign design;
  design.ring_bore_radius = 0.004;
  design.pin_bore_radius = 0.005;
  design.eccentric = {0.05, 5, 5.5e-4};
  design.held = Held::carrier;
  const StageLossModel carrier = prepare(stage(), contact::equal_stiffness_cycle(stage(), 300), design);
  OperatingPoint faster = point(5e-5);
  faster.input_speed *= 18.0 / 17;
  const StageLosses a = stage_losses(carrier, faster), b = stage_losses(model(Mount::plain), point(5e-5));
  EXPECT_NEAR(a.ring_rollers, b.ring_rollers, 1e-9);
  EXPECT_NEAR(a.eccentric_bearings, b.eccentric_bearings, 1e-9);
}

}  // namespace
}  // namespace lobewise::losses
