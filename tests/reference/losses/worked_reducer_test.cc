// The worked reducer: figures computed by an independent model of the same equations, printed rounded. Its printed
// input lacks the hole clearance and the contact law; 10 um and the Palmgren law reproduce all printed figures of the
// output pins and the eccentric bearings, and no other round clearance does
// (docs/decisions/010-lubricant-below-life-and-losses.md).
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/contact/lubricant.h"
#include "engine/losses/stage_losses.h"
#include "engine/strength/stage_life.h"

namespace lobewise {
namespace {

constexpr double kNu40 = 220e-6;
constexpr double kSpeed = 1450 * kPi / 30;

mechanism::StageGeometry stage() {
  mechanism::StageGeometry g;
  g.lobes = 17;
  g.pitch_radius = 0.08;
  g.roller_radius = 0.007;
  g.eccentricity = 0.003;
  g.width = 0.014;
  g.discs = 2;
  g.pins = 10;
  g.pin_circle_radius = 0.05;
  g.pin_radius = 0.008;
  g.hole_clearance = 10e-6;
  g.roller_offset = 5e-6;
  g.radius_offset = -5e-6;
  return g;
}

contact::CycleForces forces(double torque) {
  contact::MeshModel model;
  model.stage = stage();
  model.ring_law.kind = model.pin_law.kind = contact::LawKind::palmgren;
  contact::MeshSolver solver(model);
  const Result<contact::CycleForces> cycle = contact::mesh_cycle(solver, contact::Level::l2, torque, 180);
  EXPECT_TRUE(cycle.ok());
  return *cycle;
}

double viscosity(double celsius) {
  static const double kNu100 = *contact::nu_100_from_index(kNu40, 95);
  return contact::kinematic_viscosity(kNu40, kNu100, celsius + kZeroCelsius);
}
double density(double celsius) { return contact::oil_density(890, celsius + kZeroCelsius); }

losses::OperatingPoint point(double celsius) {
  losses::OperatingPoint p;
  p.input_speed = kSpeed;
  p.oil_temperature = celsius + kZeroCelsius;
  p.nu_40 = kNu40;
  p.nu = viscosity(celsius);
  p.density = density(celsius);
  p.pressure_viscosity = contact::kMineralOil.pressure_viscosity.nominal;
  return p;
}

losses::StageLossModel loss_model() {
  losses::StageDesign design;
  design.ring_bore_radius = 0.004;
  design.pin_bore_radius = 0.005;
  design.eccentric = {0.05, losses::kFullComplement.f0_oil.nominal, losses::kFullComplement.f1.nominal};
  losses::StageLossModel model = losses::prepare(stage(), forces(600), design);
  model.seals = {{0.035, 1},
                 {0.060, 1.0 / 17}};  // the output diameter is not printed; 60 mm gives all three seal figures
  return model;
}

// Tolerance 0.1 W: the last printed digit is 0.1 W and the number of crank angles behind it is not known.
TEST(WorkedReducer, LossesByPlace) {
  struct Row {
    double celsius, ring, pins, eccentric, seals;
  };
  const losses::StageLossModel model = loss_model();
  for (const Row row :
       {Row{60, 127.7, 165.5, 123.1, 37.2}, {80, 175.9, 217.9, 102.9, 30.5}, {111.6, 229.1, 265.7, 89.5, 20.0}}) {
    const losses::StageLosses losses = losses::stage_losses(model, point(row.celsius));
    EXPECT_NEAR(losses.ring_rollers, row.ring, 0.1);
    EXPECT_NEAR(losses.output_pins, row.pins, 0.1);
    EXPECT_NEAR(losses.eccentric_bearings, row.eccentric, 0.1);
    EXPECT_NEAR(losses.seals, row.seals, 0.05);
  }
}

// Efficiency at 60 C with the printed losses of the parts whose data are not given (20.7, 5.4 and 2.1 W): 0.918; with
// needle- mounted rollers and sleeves 0.961.
TEST(WorkedReducer, Efficiency) {
  losses::StageLossModel model = loss_model();
  const double output = 600 * kSpeed / 17, rest = 20.7 + 5.4 + 2.1;
  EXPECT_NEAR(output, 5359, 0.5);
  const double plain = losses::stage_losses(model, point(60)).total() + rest;
  EXPECT_NEAR(output / (output + plain), 0.918, 0.0005);
  model.lobes.mount = model.pins.mount = losses::Mount::needle;
  const double needle = losses::stage_losses(model, point(60)).total() + rest;
  EXPECT_NEAR(output / (output + needle), 0.961, 0.0005);
}

strength::StageLifeModel life_model() {
  strength::RollerBearingGeometry bearing;
  bearing.rollers = 14;
  bearing.roller_diameter = 0.009;
  bearing.roller_length = 0.013;
  bearing.pitch_diameter = 0.05;
  strength::StageLifeModel model;
  model.stage = stage();
  model.eccentric = {strength::RollingElement::roller, strength::roller_rating(bearing), 0.05};
  return model;
}

strength::LifeBlock block(const contact::CycleForces& cycle, double celsius) {
  strength::LifeBlock b;
  b.input_speed = kSpeed;
  b.forces = &cycle;
  b.nu = viscosity(celsius);
  b.oil.dynamic_viscosity = b.nu * density(celsius);
  b.oil.pressure_viscosity = contact::kMineralOil.pressure_viscosity.nominal;
  return b;
}

const strength::PlaceLife& at(const strength::StageLife& life, strength::Place place) {
  return *std::find_if(life.places.begin(), life.places.end(), [&](const auto& p) { return p.place == place; });
}

strength::StageLife life_at(double torque, double celsius, double contamination = 0.5) {
  strength::StageLifeModel model = life_model();
  model.contamination = contamination;
  const contact::CycleForces cycle = forces(torque);
  const std::array<strength::LifeBlock, 1> blocks{block(cycle, celsius)};
  return strength::stage_life(model, blocks);
}

// Modified life of one of the two eccentric bearings.
double modified_each(const strength::StageLife& life) {
  const strength::PlaceLife& bearings = at(life, strength::Place::eccentric_bearings);
  return bearings.modified_hours * std::pow(bearings.count, 1 / strength::kWeibullModified);
}

TEST(WorkedReducer, EccentricBearing) {
  const contact::CycleForces cycle = forces(600);
  EXPECT_NEAR(strength::equivalent_load(cycle.bearing), 8389, 2.5);
  EXPECT_NEAR(*std::max_element(cycle.bearing.begin(), cycle.bearing.end()), 8564, 2.5);
  const strength::StageLife life = life_at(600, 60);
  const strength::PlaceLife& bearings = at(life, strength::Place::eccentric_bearings);
  EXPECT_NEAR(bearings.part_hours, 5749, 5);  // 2.5 N of P are 6 h
  EXPECT_NEAR(bearings.static_safety, 6.9, 0.15);
  EXPECT_FALSE(bearings.overloaded);
  EXPECT_NEAR(life.basic_hours, 3094, 5);
  // Modified lives: 0.1 % of P is 0.4 % of life; the printed figures have four digits.
  EXPECT_NEAR(modified_each(life), 23970, 60);
  EXPECT_NEAR(modified_each(life_at(600, 80)), 14820, 40);
  EXPECT_NEAR(modified_each(life_at(600, 111.6)), 5785, 20);
  EXPECT_NEAR(modified_each(life_at(600, 111.6, 0.2)), 2670, 10);
  EXPECT_NEAR(modified_each(life_at(600, 111.6, 0.8)), 10120, 40);
  EXPECT_NEAR(at(life_at(450, 81), strength::Place::eccentric_bearings).part_hours, 14970, 30);
  EXPECT_NEAR(at(life_at(300, 60), strength::Place::eccentric_bearings).part_hours, 57850, 250);
}

TEST(WorkedReducer, LobesAndPins) {
  const strength::StageLife life = life_at(600, 111.6);
  const strength::PlaceLife& flanks = at(life, strength::Place::disc_flanks);
  const strength::PlaceLife& rollers = at(life, strength::Place::ring_rollers);
  EXPECT_NEAR(flanks.pressure, 1067e6, 0.6e6);
  EXPECT_NEAR(flanks.static_safety, 14, 0.5);
  EXPECT_NEAR(flanks.part_hours, 1.3e6, 0.05e6);
  // Printed for the ring under one disc.
  EXPECT_NEAR(strength::life_of_equal_parts(rollers.part_hours, 18), 1.8e6, 0.05e6);
  EXPECT_TRUE(flanks.outside_model);
  // kappa 0.09 of the lobes is printed without its temperature; at the oil limit of 90 C ours agrees.
  EXPECT_NEAR(at(life_at(600, 90), strength::Place::disc_flanks).kappa, 0.09, 0.005);
}

// "Pins and holes above 2e9 h": ten of each, rigid sine, 300 N m on the disc.
TEST(WorkedReducer, RigidPins) {
  mechanism::StageGeometry rigid = stage();
  rigid.hole_clearance = 0;
  const strength::PinLife life = strength::rigid_output_pin_life(rigid, 300).life;
  for (const double millions : {life.hole, life.sleeve}) {
    const double hours = strength::life_hours(strength::life_of_equal_parts(millions, 10) * 1e6, kSpeed);
    EXPECT_GT(hours, 2e9);
    EXPECT_LT(hours, 2.5e9);
  }
}

}  // namespace
}  // namespace lobewise
