// Worked examples of driven machines. Marks: REPRODUCES = printed answer matched within half a unit of its last digit
// (more where the source rounds on the way, said there); DOES NOT REPRODUCE = printed answer differs, difference
// recorded; QUESTION ONLY = inputs read, printed answer not seen; CONSTRUCTED = inputs invented for the check, formula
// source stated, expected value worked out outside the engine.
#include "engine/demand/machines/registry.h"
#include "tests/reference/demand/support.h"

namespace lobewise::demand {
namespace {

BeltConveyor belt_without_estimates() {
  BeltConveyor belt;
  belt.belt_mass = belt.carrying_idler_mass = belt.return_idler_mass = 0;
  belt.special_resistance = 0;
  belt.length_coefficient = 1;
  return belt;
}

// B1, REPRODUCES. Textbook-type question with published solution, "A conveyor belt is used to transmit rock at 150
// tonnes per hour": 30 degrees, 50 m horizontal, friction 3.5 kN, pulley 400 mm at 65 rpm, wrap 220 degrees, mu 0.35.
TEST(BeltConveyorReference, InclinedBeltWithFrictionForce) {
  BeltConveyor belt = belt_without_estimates();
  const double rise = 50 * std::tan(30 * kDegree);
  EXPECT_NEAR(rise, 28.87, 0.005);
  const double v = 0.4 / 2 * 65 * kRpm;
  EXPECT_NEAR(v, 1.362, 0.0007);  // printed from a rounded pi; 1.3614 recomputed
  belt.mass_flow = 150 * kTonnesPerHour * kSourceGravity;
  belt.speed = v;
  belt.length = std::hypot(50, rise);
  belt.lift = rise;
  belt.drum_diameter = 0.4;
  belt.friction_force = 3500;
  belt.special_resistance.reset();  // both are in the force
  belt.length_coefficient.reset();
  belt.wrap_angle = 220 * kDegree;
  belt.drum_friction = 0.35;
  belt.breakaway_factor = 1;
  const Demand d = get(compute(belt));
  EXPECT_NEAR(value_of(d, "F_St") * v, 11.8e3, 50);
  EXPECT_NEAR(3500 * v, 4.77e3, 6);           // the source multiplies by its rounded 1.362 m/s; 4.765 recomputed
  EXPECT_NEAR(value_of(d, "P"), 16.57e3, 7);  // the source adds its rounded terms; 16.564 recomputed
  EXPECT_NEAR(value_of(d, "P") / 0.85, 19.5e3, 50);
  EXPECT_NEAR(value_of(d, "F_U"), 12.17e3, 5);
  EXPECT_NEAR(std::exp(0.35 * 220 * kDegree), 3.834, 0.0005);
  // Recomputed, not seen in print.
  EXPECT_NEAR(value_of(d, "T_2"), 4293, 1);
  EXPECT_NEAR(value_of(d, "T_2") + value_of(d, "F_U"), 16461, 1);
  EXPECT_NEAR(d.torque.value, 2433, 1);
}

// B2, DOES NOT REPRODUCE. Work sheet on IS 11592:2000 (text based on ISO 5048:1989), public document no. 341965455:
// printed R = 2 717 N; its own formula gives 2 670.7 N with cos 14 degrees and 2 734.4 N with cos = 1. The printed
// value is 1.7 % high (its author notes that cells are not linked); the formula stands. See
// docs/decisions/040-driven-machine-figures.md.
TEST(BeltConveyorReference, MainResistanceOfTheIs11592Sheet) {
  BeltConveyor belt = belt_without_estimates();
  belt.speed = 2.84;
  belt.mass_flow = 93.91 * 2.84 * kSourceGravity;
  belt.length = 100;
  belt.lift = 100 * std::sin(14 * kDegree);
  belt.drum_diameter = 0.5;
  belt.friction = 0.02;
  belt.carrying_idler_mass = 15 * kSourceGravity;
  belt.return_idler_mass = 15 * kSourceGravity;
  belt.belt_mass = 7.729 * kSourceGravity;
  const double sloped = value_of(get(compute(belt)), "F_H");
  EXPECT_NEAR(sloped, 2670.7, 0.05);
  EXPECT_NEAR(2717 / sloped, 1.017, 0.0005);
  belt.lift = 0;
  EXPECT_NEAR(value_of(get(compute(belt)), "F_H"), 2734.4, 0.05);
}

// B2, load per metre, REPRODUCES: same sheet (printed 93.91, a cut-off of 93.90) and public document no. 703103414.
TEST(BeltConveyorReference, LoadPerMetre) {
  struct Row {
    double tonnes_per_hour, speed, printed, tolerance;
  };
  for (const Row& row : {Row{960, 2.84, 93.91, 0.015}, Row{350, 1.1, 88.38, 0.005}, Row{200, 1.0, 55.56, 0.005},
                         Row{150, 0.75, 55.56, 0.005}}) {
    BeltConveyor belt = belt_without_estimates();
    belt.mass_flow = row.tonnes_per_hour * kTonnesPerHour;
    belt.speed = row.speed;
    belt.length = 100;
    belt.lift = 0;
    belt.drum_diameter = 0.5;
    EXPECT_NEAR(value_of(get(compute(belt)), "q_G"), row.printed, row.tolerance);
  }
}

// B3, CONSTRUCTED: ISO 5048:1989 / DIN 22101 structure, length coefficient from memory.
TEST(BeltConveyorReference, CompleteIso5048Case) {
  BeltConveyor belt;
  belt.mass_flow = 400 * kTonnesPerHour * kSourceGravity;
  belt.speed = 1.6;
  belt.length = 120;
  belt.lift = 18;
  belt.friction = 0.022;
  belt.carrying_idler_mass = 9.0 * kSourceGravity;
  belt.return_idler_mass = 4.0 * kSourceGravity;
  belt.belt_mass = 11.0 * kSourceGravity;
  belt.length_coefficient = 1.78;
  belt.special_resistance = 0;
  belt.drum_diameter = 0.63;
  const Demand d = get(compute(belt));
  EXPECT_NEAR(value_of(d, "q_G") / kSourceGravity, 69.444, 0.0005);
  EXPECT_NEAR(value_of(d, "F_H"), 2678.1, 0.05);
  EXPECT_NEAR(value_of(d, "F_N"), 2089.0, 0.1);
  EXPECT_NEAR(value_of(d, "F_St"), 12262, 0.8);
  EXPECT_NEAR(value_of(d, "F_U"), 17030, 1);
  EXPECT_NEAR(value_of(d, "P"), 27.25e3, 5);
  EXPECT_NEAR(value_of(d, "P") / 0.92, 29.62e3, 5);
  EXPECT_NEAR(d.speed.value / kRpm, 48.50, 0.005);
  EXPECT_NEAR(d.torque.value, 5364, 0.6);
  EXPECT_NEAR(value_of(d, "T_b50"), 3112, 0.5);    // half the friction credited
  EXPECT_NEAR(d.holding_torque.value, 3863, 0.5);  // none credited
}

// Length coefficients, ISO 5048, from memory.
TEST(BeltConveyorReference, LengthCoefficients) {
  for (const auto& [length, c] : {std::pair{80.0, 1.92},
                                  {100.0, 1.78},
                                  {150.0, 1.58},
                                  {200.0, 1.45},
                                  {300.0, 1.31},
                                  {400.0, 1.25},
                                  {500.0, 1.20},
                                  {1000.0, 1.09}})
    EXPECT_DOUBLE_EQ(length_coefficient(length), c);
  EXPECT_NEAR(length_coefficient(120), 1.70, 0.01);
}

// B4, REPRODUCES: public notes Gate-2026-AG, Material_Handling/README: 100 t/h, 50 m, f 0.03 -> 408.75 W. A lower
// bound: it leaves out belt, idlers and secondary resistances.
TEST(BeltConveyorReference, SimpleFrictionForm) {
  BeltConveyor belt = belt_without_estimates();
  belt.mass_flow = 100 * kTonnesPerHour * kSourceGravity;
  belt.speed = 1;
  belt.length = 50;
  belt.lift = 0;
  belt.drum_diameter = 0.4;
  belt.friction = 0.03;
  EXPECT_NEAR(value_of(get(compute(belt)), "P"), 408.75, 0.005);
}

// B4, DOES NOT REPRODUCE: the same page prints 0.583 t/h for 0.108 m2, 2 m/s, 0.75 t/m3; at 583.2 t/h this belt carries
// 81 kg/m at 2 m/s. A slip of a thousand in the source; its second example, 86.4 t/h, is right.
TEST(BeltConveyorReference, CapacityExampleOfTheNotesIsAFactorThousandOff) {
  BeltConveyor belt = belt_without_estimates();
  belt.mass_flow = 583.2 * kTonnesPerHour;
  belt.speed = 2;
  belt.length = 50;
  belt.lift = 0;
  belt.drum_diameter = 0.4;
  EXPECT_NEAR(value_of(get(compute(belt)), "q_G"), 0.108 * 750, 1e-9);
}

ScrewConveyor screw_s1() {
  ScrewConveyor screw;
  screw.mass_flow = 20 * kTonnesPerHour;
  screw.length = 12;
  screw.lift = 0;
  screw.diameter = 0.4;
  screw.speed = 45 * kRpm;
  screw.progress_resistance = 4;
  return screw;
}

// S1, S2, CONSTRUCTED inputs; ISO 7119 form read on a public calculation page (241). Its divisor 367 is 3600 / 9.81
// rounded.
TEST(ScrewConveyorReference, Iso7119LevelAndRising) {
  const Demand level = get(compute(screw_s1()));
  EXPECT_NEAR(value_of(level, "P_H"), 2616, 1);
  EXPECT_NEAR(value_of(level, "P_N"), 240, 1e-9);
  EXPECT_NEAR(level.torque.value, 606, 0.5);
  ScrewConveyor rising = screw_s1();
  rising.lift = 3;
  const Demand up = get(compute(rising));
  EXPECT_NEAR(value_of(up, "P_St"), 163, 0.6);
  EXPECT_NEAR(up.torque.value * 45 * kRpm, 3019, 2);
}

// S3, REPRODUCES: same public notes as B4: D 0.15 m, pitch 0.2 m, 60 rpm, fill 0.40 -> 5.09 m3/h; wheat 750 kg/m3 3.82
// t/h.
TEST(ScrewConveyorReference, Capacity) {
  const double flow = 0.40 * screw_volume_flow(0.15, 0.2, 60 * kRpm);
  EXPECT_NEAR(flow * 3600, 5.09, 0.005);
  EXPECT_NEAR(flow * 3600 * 0.75, 3.82, 0.005);
}

// S4, CONSTRUCTED; CEMA 350 form and factors from memory.
TEST(ScrewConveyorReference, UsForm) {
  const UsScrewPower<double> p = us_screw_power(40 * kFoot, 12 * kInch, 45 * kRpm, 600 * kFoot * kFoot * kFoot / 3600,
                                                40 * kPound / (kFoot * kFoot * kFoot), {.material = 0.9});
  EXPECT_NEAR(p.friction / kHorsepower, 0.1683, 0.00005);
  EXPECT_NEAR(p.material / kHorsepower, 0.8640, 0.00005);
  EXPECT_NEAR(p.overload_factor, 2.005, 0.0005);
  EXPECT_NEAR(p.shaft() / 0.88 / kHorsepower, 2.35, 0.005);
  EXPECT_NEAR(p.shaft() / (45 * kRpm) / (kPound * kGravity * kInch), 2898, 1);
}

// E1, REPRODUCES: same public notes: 20 t/h, 15 m, efficiency 0.70 -> 1.17 kW. Capacity example of the page, 2 l, 3 a
// metre, 60 m/min, 750 kg/m3 = 16.2 t/h, is 4.5 kg/m at 1 m/s.
TEST(BucketElevatorReference, LiftOverEfficiency) {
  BucketElevator e;
  e.mass_flow = 20 * kTonnesPerHour * kSourceGravity;
  e.lift = 15;
  e.digging_height = 0;
  e.speed = 1;
  e.head_diameter = 0.5;
  e.losses = 1 / 0.70;
  EXPECT_NEAR(value_of(get(compute(e)), "P"), 1170, 5);
  e.mass_flow = 16.2 * kTonnesPerHour;
  EXPECT_NEAR(value_of(get(compute(e)), "q"), 0.002 * 3 * 750, 1e-9);
}

// E2, CONSTRUCTED: equivalent digging height; numbers invented.
TEST(BucketElevatorReference, DiggingHeight) {
  BucketElevator e;
  e.mass_flow = 100 * kTonnesPerHour * kSourceGravity;
  e.lift = 30;
  e.digging_height = 4.5;
  e.speed = 1.6;
  e.head_diameter = 0.8;
  e.losses = 1.1;
  const Demand d = get(compute(e));
  EXPECT_NEAR(value_of(d, "P") / 1.1, 9400, 2);  // 9.400 kW given, 9.401 recomputed
  EXPECT_NEAR(value_of(d, "P"), 10.34e3, 5);
  EXPECT_NEAR(value_of(d, "P") / 0.85, 12.17e3, 5);
  EXPECT_NEAR(d.speed.value / kRpm, 38.20, 0.005);
  EXPECT_NEAR(d.torque.value, 2585, 0.6);
  EXPECT_NEAR(d.holding_torque.value, 2044, 0.5);
}

Hoist goods_hoist() {
  Hoist h;
  h.lifts_people = false;
  h.dead_mass = 0;
  h.efficiency = 1;
  h.drum_mass = 0;
  h.drum_diameter = 0.4;
  return h;
}

// H1, REPRODUCES: public school example on lift power: (500 + 300) kg, friction 1200 N, 0.2 m/s -> 9 048 N, 1.81 kW.
TEST(HoistReference, LoadAndFriction) {
  Hoist h = goods_hoist();
  h.load_mass = 500 * kSourceGravity;
  h.dead_mass = 300 * kSourceGravity;
  h.guide_friction = 1200;
  h.speed = 0.2;
  const Demand d = get(compute(h));
  EXPECT_NEAR(value_of(d, "F"), 9048, 0.5);
  EXPECT_NEAR(value_of(d, "P_L"), 1810, 5);
}

// H2, REPRODUCES in its own arithmetic: textbook companion FOSSEE/Scilab-TBC-Uploads 2138/CH4 Ex 4.12: load 7.5 t, cage
// 0.5 t, counterweight 3 t, 135 m in 90 s, 1 hp taken as 4500 kgf m/min: up 100 hp, cage alone 50 hp; inputs at 0.80
// with 746 W a horsepower 93.25 and 46.63 kW. The SI check, 73.58 and 91.97 kW, is 1.4 % lower: a metric horsepower is
// 735.5 W.
TEST(HoistReference, CounterweightedGoodsLift) {
  Hoist h = goods_hoist();
  h.load_mass = 7500 * kSourceGravity;
  h.dead_mass = 500 * kSourceGravity;
  h.counterweight = 3000 * kSourceGravity;
  h.speed = 135.0 / 90;
  const double up = value_of(get(compute(h)), "P_L");
  const double metric = 4500.0 / 60 * 9.81;
  EXPECT_NEAR(up / metric, 100, 0.05);
  EXPECT_NEAR(up / metric * 746 / 0.80, 93.25e3, 5);
  EXPECT_NEAR(up, 73.58e3, 5.1);  // 73.575 exactly
  EXPECT_NEAR(up / 0.80, 91.97e3, 5);
  h.load_mass = 1;  // cage alone: the counterweight is the heavier side
  const double down = value_of(get(compute(h)), "P_L");
  EXPECT_NEAR(down / metric, 50, 0.05);
  EXPECT_NEAR(down / metric * 746 / 0.80, 46.63e3, 6);
}

// H3, REPRODUCES: open course in dynamics, power chapter: 300 lb at 0.125 ft/s, motor efficiency 0.4 -> 0.1705 hp.
TEST(HoistReference, UsUnits) {
  Hoist h = goods_hoist();
  h.load_mass = 300 * kPound;
  h.speed = 0.125 * kFoot;
  EXPECT_NEAR(value_of(get(compute(h)), "P_L") / 0.4 / kHorsepower, 0.1705, 0.00005);
}

// H4, QUESTION ONLY (public question bank): 3 kN at 0.5 m/s on an 80 mm drum, gears 30/150, efficiency 0.25.
TEST(HoistReference, WinchWithGears) {
  Hoist h = goods_hoist();
  h.load_mass = 3000 / kGravity;
  h.speed = 0.5;
  h.drum_diameter = 0.08;
  const Demand d = get(compute(h));
  EXPECT_NEAR(d.torque.value, 120, 1e-9);
  EXPECT_NEAR(value_of(d, "P_L"), 1500, 1e-9);
  EXPECT_NEAR(d.speed.value / kRpm, 119.4, 0.05);
  EXPECT_NEAR(value_of(d, "P_L") / 0.25, 6000, 1e-6);
  EXPECT_NEAR(d.speed.value * 150 / 30 / kRpm, 596.8, 0.05);
}

// H5, CONSTRUCTED (mechanics): 2000 kg, 0.25 m/s, drum 0.4 m, ratio 60, efficiency of the train 0.85, 1 s, motor 0.02
// kg m2.
TEST(HoistReference, AccelerationLoweringBrake) {
  Hoist h = goods_hoist();
  h.load_mass = 2000 * kSourceGravity;
  h.speed = 0.25;
  const Demand d = get(compute(h));
  const double ratio = 60, efficiency = 0.85;
  EXPECT_NEAR(value_of(d, "F"), 19620, 1e-6);
  EXPECT_NEAR(d.torque.value, 3924, 1e-6);
  EXPECT_NEAR(d.speed.value / kRpm, 11.94, 0.005);
  EXPECT_NEAR(d.torque.value * d.speed.value / efficiency, 5.77e3, 5);
  const double steady = d.torque.value / ratio / efficiency;
  EXPECT_NEAR(steady, 76.9, 0.05);
  const double load_inertia = d.inertia.value / kSourceGravity / (ratio * ratio * efficiency);
  EXPECT_NEAR(steady + (0.02 + load_inertia) * d.speed.value * ratio, 80.4, 0.05);
  EXPECT_NEAR(d.overhauling_torque.value * efficiency / ratio, 55.6, 0.05);
  EXPECT_NEAR(1.5 * d.holding_torque.value * efficiency / ratio, 83.4, 0.05);
}

// Mechanics of a hoist drive seen from its motor, published: inertia at the motor J0 + a^2 J1 + m (v / w)^2 = 0.40 kg
// m2 and torque a Tl / eta1 + F / eta2 v / w = 117.53 N m; FOSSEE: Dubey, Fundamentals of Electrical Drives, Chapter2_2
// Ex 2.1 p. 16: J0 0.2, a 0.1, J1 10, Tl 10 N m, eta1 0.9, 1000 kg at 1.5 m/s, eta2 0.85, 1420 rpm. The weight is hung
// on a drum that turns with the motor.
TEST(HoistReference, LoadAtTheMotorShaft) {
  Hoist h = goods_hoist();
  h.load_mass = 1000 * kSourceGravity;
  h.speed = 1.5;
  h.drum_diameter = 2 * 1.5 / (1420 * kRpm);
  h.drum_diameter = std::max(0.03, *h.drum_diameter);
  h.efficiency = 0.85;
  const Demand d = get(compute(h));
  const double turn_down = d.speed.value / (1420 * kRpm);
  EXPECT_NEAR(0.2 + 0.01 * 10 + d.inertia.value / kSourceGravity * turn_down * turn_down, 0.40, 0.005);
  EXPECT_NEAR(0.1 * 10 / 0.9 + d.torque.value * turn_down, 117.53, 0.005);
}

ChainConveyor chain_c1() {
  ChainConveyor c;
  c.chain_mass = 2 * 12 * kSourceGravity;
  c.load = 150 * kSourceGravity;
  c.length = 24;
  c.chain_friction = 0.15;
  c.speed = 0.2;
  c.sprocket_diameter = 0.25;
  return c;
}

// C1, C2, CONSTRUCTED (Coulomb friction; coefficient common practice).
TEST(ChainConveyorReference, LevelAndRising) {
  const Demand level = get(compute(chain_c1()));
  EXPECT_NEAR(value_of(level, "F"), 6993, 0.5);
  EXPECT_NEAR(value_of(level, "F") * 0.2, 1399, 0.5);
  EXPECT_NEAR(value_of(level, "F") * 0.2 / 0.9, 1554, 0.5);
  EXPECT_NEAR(level.speed.value / kRpm, 15.28, 0.005);
  EXPECT_NEAR(level.torque.value, 874, 0.5);
  EXPECT_EQ(level.runback_torque.value, 0);
  ChainConveyor rising = chain_c1();
  rising.slope = 10 * kDegree;
  const Demand up = get(compute(rising));
  EXPECT_NEAR(value_of(up, "F"), 13019, 0.5);
  EXPECT_NEAR(value_of(up, "F") * 0.2, 2604, 0.5);
  EXPECT_NEAR(up.torque.value, 1627, 0.5);
  EXPECT_NEAR(value_of(up, "mu_c"), 0.133, 0.0007);  // 0.1336, given cut off
  EXPECT_EQ(up.runback_torque.value, 0);             // just holds itself at 0.15 ...
  EXPECT_TRUE(
      std::any_of(up.cautions.begin(), up.cautions.end(), [](const Caution& c) { return c.key == "backstop"; }));
  rising.chain_friction = 0.13;
  EXPECT_GT(get(compute(rising)).runback_torque.value, 0);  // ... and no longer at 0.13
}

// C3, CONSTRUCTED: 4 pallets of 600 kg, 20 rollers of 6 kg, resistance 0.05, 0.3 m/s, 89 mm; chain loss 1.25, drive
// 0.9.
TEST(RollerConveyorReference, Pallets) {
  RollerConveyor r;
  r.load_mass = 2400 * kSourceGravity;
  r.rollers_mass = 120 * kSourceGravity;
  r.resistance = 0.05;
  r.speed = 0.3;
  r.roller_diameter = 0.089;
  r.drive_loss = 1.25;
  const Demand d = get(compute(r));
  EXPECT_NEAR(value_of(d, "F"), 1236, 0.5);
  EXPECT_NEAR(value_of(d, "F") * 0.3, 371, 0.5);
  EXPECT_NEAR(d.torque.value * d.speed.value / 0.9, 515, 0.5);
  EXPECT_NEAR(d.torque.value / 1.25, 55.0, 0.05);
  EXPECT_NEAR(d.speed.value / kRpm, 64.4, 0.05);
}

// A1, QUESTION ONLY (Handbook of Chemical Engineering Calculations, sec. 12.1, D. S. Dickey, read up to the power
// number): 58 in turbine, four 12 in blades at 45 degrees, 84 rpm, 1150 kg/m3, 12 Pa s; turbulent Np 1.37 at W/D 1/5,
// exponent 1.25.
TEST(AgitatorReference, PitchedTurbineInTransition) {
  Agitator a;
  a.impeller = Impeller::pitched_turbine;
  a.liquid = Liquid::pure;
  a.diameter = 58 * kInch;
  a.blade_width_ratio = 12.0 / 58;
  a.speed = 84 * kRpm;
  a.density = 1150;
  a.viscosity = 12;
  const Demand d = get(compute(a));
  EXPECT_NEAR(value_of(d, "Re"), 291, 0.5);
  const double turbulent = value_of(d, "Np") - 50 / value_of(d, "Re");
  EXPECT_NEAR(turbulent, 1.429, 0.0005);
  EXPECT_NEAR(value_of(d, "P") * turbulent / value_of(d, "Np"), 31.3e3, 50);
  EXPECT_NEAR(d.torque.value * turbulent / value_of(d, "Np"), 3558, 3);
  // The book multiplies by a viscosity factor from a figure that was not seen (about 1.2 here: 37.6 kW); the sum of the
  // asymptotes gives 1.12. Recorded, not fitted.
  EXPECT_NEAR(value_of(d, "P"), 37.6e3, 0.08 * 37.6e3);
}

// A2, QUESTION ONLY (GATE 2016 BT Q20): disc turbine, Np 5, 1000 kg/m3, 300 rpm, 1 m -> 625 kW, 19 894 N m.
TEST(AgitatorReference, DiscTurbine) {
  Agitator a;
  a.impeller = Impeller::disc_turbine;
  a.liquid = Liquid::pure;
  a.power_number = 5;
  a.laminar_constant = 10;
  a.diameter = 1;
  a.speed = 300 * kRpm;
  a.density = 1000;
  a.viscosity = 1e-4;
  const Demand d = get(compute(a));
  EXPECT_NEAR(value_of(d, "P"), 625e3, 500);
  EXPECT_NEAR(d.torque.value, 19894, 0.5);
}

// A3, QUESTION ONLY (public question bank): 3 m tank as deep as wide, D a third, 0.8 kW/m3 -> 16.96 kW, 90.2 rpm with
// Np 5 assumed; pilot of 0.3 m at equal power per volume 16.96 W, 418 rpm. Tolerance: the speeds have three digits,
// power goes with their cube.
TEST(AgitatorReference, ScaleDown) {
  Agitator a;
  a.impeller = Impeller::disc_turbine;
  a.liquid = Liquid::pure;
  a.power_number = 5;
  a.laminar_constant = 10;
  a.viscosity = 1e-4;
  a.density = 1000;
  a.diameter = 1;
  a.speed = 90.2 * kRpm;
  EXPECT_NEAR(value_of(get(compute(a)), "P"), 16.96e3, 30);
  a.diameter = 0.1;
  a.speed = 418 * kRpm;
  EXPECT_NEAR(value_of(get(compute(a)), "P"), 16.96, 0.07);
}

// D1, CONSTRUCTED (mechanics); D2 rule of Perry for rotary dryers, from memory.
TEST(RotaryDrumReference, BedAndTrunnions) {
  RotaryDrum r;
  r.kind = DrumKind::kiln_or_dryer;
  r.inner_diameter = 2;
  r.length = 8;
  r.fill = 0.15;
  r.density = 1200 * kSourceGravity;
  r.speed = 4 * kRpm;
  r.shell_mass = 9000 * kSourceGravity;
  r.dynamic_angle = 35 * kDegree;
  r.tyre_diameter = 2.3;
  r.trunnion_angle = 30 * kDegree;
  r.journal_ratio = 0.12 / 0.35;
  r.bearing_friction = 0.02;
  const double half_angle = bed_half_angle(0.15);
  EXPECT_NEAR(half_angle / kDegree, 54.19, 0.005);
  EXPECT_NEAR(bed_lever(1.0, half_angle, 0.15), 0.7544, 0.00005);
  const Demand d = get(compute(r));
  EXPECT_NEAR(value_of(d, "m") / kSourceGravity, 4524, 0.5);
  EXPECT_NEAR(value_of(d, "T_L"), 19204, 0.5);
  EXPECT_NEAR(value_of(d, "T_R"), 1208, 0.5);
  EXPECT_NEAR(d.torque.value * d.speed.value, 8.55e3, 5);
  EXPECT_NEAR(d.torque.value * d.speed.value / 0.85, 10.06e3, 5);
  const double rule = dryer_rule_power(4 * kRpm, 2.0, 4524.0, 2.3, 13524.0);
  EXPECT_NEAR(rule / kHorsepower, 14.56, 0.005);
  EXPECT_NEAR(rule, 10.86e3, 5);
}

// The machines below have no published example that could be read; inputs invented, values worked out outside the
// engine.

// CONSTRUCTED: 0.5 m3 of paste at 25 kW/m3, 40 rpm.
TEST(PaddleMixerReference, PowerByVolume) {
  PaddleMixer m;
  m.volume = 0.5;
  m.specific_power = 25e3;
  m.speed = 40 * kRpm;
  m.rotor_diameter = 0.9;
  EXPECT_NEAR(get(compute(m)).torque.value, 2984.2, 0.05);
}

// CONSTRUCTED: 20 t on 400 mm wheels, resistance 0.010, two drives, half of the weight on driven wheels, adhesion 0.15,
// 0.5 m/s in 4 s.
TEST(TravelDriveReference, LevelTrack) {
  TravelDrive t;
  t.wheel = Wheel::steel_on_rail;
  t.mass = 20000;
  t.speed = 0.5;
  t.wheel_diameter = 0.4;
  t.rolling_resistance = 0.010;
  t.drives = 2;
  t.driven_share = 0.5;
  t.adhesion = 0.15;
  t.start_time = 4;
  const Demand d = get(compute(t));
  EXPECT_NEAR(d.torque.value, 196.13, 0.005);
  EXPECT_NEAR(d.inertia.value, 400, 1e-9);
  EXPECT_NEAR(value_of(d, "T_a"), 446.13, 0.005);
  EXPECT_NEAR(*d.jam.slip_torque, 1471.0, 0.05);
}

// CONSTRUCTED: 5 t on 2 t of rollers, 300 mm, resistance 0.03, slip 0.3, 1 m/s2.
TEST(RollerTableReference, AccelerationAndSlip) {
  RollerTable t;
  t.load_mass = 5000;
  t.rollers_mass = 2000;
  t.roller_diameter = 0.3;
  t.speed = 1;
  t.resistance = 0.03;
  t.slip_friction = 0.3;
  t.acceleration = 1;
  const Demand d = get(compute(t));
  EXPECT_NEAR(d.torque.value, 308.91, 0.005);
  EXPECT_NEAR(value_of(d, "T_a"), 1208.91, 0.005);
  EXPECT_NEAR(*d.jam.slip_torque, 2294.8, 0.05);
}

// CONSTRUCTED: 200 kN, 300 kN m, 10 kN radial on a 1.5 m track, mu 0.006, wind 5 kN m, ratio 8, two drives, mesh 0.95.
TEST(SlewingDriveReference, FrictionAndWind) {
  EXPECT_NEAR(slewing_friction(2e5, 3e5, 1e4, 1.5, 0.006), 4594.96, 0.005);
  SlewingDrive s;
  s.axial_load = 2e5;
  s.tilting_moment = 3e5;
  s.radial_load = 1e4;
  s.track_diameter = 1.5;
  s.friction = 0.006;
  s.slewing_inertia = 2e5;
  s.slewing_speed = 0.1;
  s.gear_ratio = 8;
  s.mesh_efficiency = 0.95;
  s.wind_moment = 5000;
  s.drives = 2;
  const Demand d = get(compute(s));
  EXPECT_NEAR(d.torque.value, 631.25, 0.005);
  EXPECT_NEAR(d.holding_torque.value, 312.5, 1e-9);
  EXPECT_NEAR(d.inertia.value, 1562.5, 1e-9);
}

// Raceway forces summed numerically: a cosine over the circumference for the tilting moment, over half of it for the
// radial load.
TEST(SlewingDriveReference, RacewayForcesSummedNumerically) {
  constexpr int kSteps = 20000;
  const double diameter = 1.5, moment = 3e5, radial = 1e4, friction = 0.006;
  double moment_force = 0, radial_force = 0, moment_back = 0, radial_back = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double c = std::cos(2 * kPi * (i + 0.5) / kSteps), arc = kPi * diameter / kSteps;
    const double q = 4 * moment / (kPi * diameter * diameter) * c, p = std::max(0.0, 4 * radial / (kPi * diameter) * c);
    moment_force += std::fabs(q) * arc;
    moment_back += q * c * diameter / 2 * arc;
    radial_force += p * arc;
    radial_back += p * c * arc;
  }
  EXPECT_NEAR(moment_back / moment, 1, 1e-6);  // the assumed distributions carry the loads
  EXPECT_NEAR(radial_back / radial, 1, 1e-6);
  const double by_hand = friction * diameter / 2 * std::sqrt(2.0) * (moment_force + radial_force);
  EXPECT_NEAR(slewing_friction(0.0, moment, radial, diameter, friction) / by_hand, 1, 1e-6);
}

// CONSTRUCTED: 1 m wide, 6 m long, opening 3 m, bed 0.5 m, 1400 kg/m3, 0.6 m sprocket, pans 250 kg/m.
TEST(ApronFeederReference, LevelUnderAHopper) {
  ApronFeeder f;
  f.width = 1;
  f.length = 6;
  f.opening_length = 3;
  f.bed_height = 0.5;
  f.density = 1400;
  f.speed = 0.1;
  f.sprocket_diameter = 0.6;
  f.pan_mass = 250;
  f.rolling = 0.08;
  f.pressure_height = 1;
  f.shear = 0.45;
  f.skirt_friction = 0.5;
  f.start_pressure = 2.5;
  const Demand d = get(compute(f));
  EXPECT_NEAR(value_of(d, "V"), 41187.9, 0.05);
  EXPECT_NEAR(value_of(d, "F_1"), 7296.1, 0.05);
  EXPECT_NEAR(value_of(d, "F_2"), 18534.6, 0.05);
  EXPECT_NEAR(value_of(d, "F_3"), 4118.8, 0.05);
  EXPECT_NEAR(d.torque.value, 8984.9, 0.05);
  EXPECT_NEAR(d.starting_torque.value, 18808.2, 0.05);
}

// CONSTRUCTED, affinity laws: a fan of 15 kW at 1480 rpm slowed to 1000 rpm.
TEST(CurveMachineReference, FanSlowedDown) {
  CurveMachine m;
  m.kind = CurveKind::fan;
  m.rated_power = 15e3;
  m.rated_speed = 1480 * kRpm;
  m.speed = 1000 * kRpm;
  EXPECT_NEAR(get(compute(m)).torque.value, 44.185, 0.0005);
}

// CONSTRUCTED: 7.5 kW, 1455 rpm, 15.1 A, cos phi 0.83, 88.7 % motor through a train of 90 % to 30 rpm: 12 A; and 6 kW
// electric.
TEST(MeasuredDriveReference, AmpsAndKilowatts) {
  MeasuredDrive m;
  m.rated_power = 7500;
  m.rated_speed = 1455 * kRpm;
  m.rated_current = 15.1;
  m.power_factor = 0.83;
  m.efficiency = 0.887;
  m.train_efficiency = 0.9;
  m.speed = 30 * kRpm;
  m.measured_current = 12;
  Demand d = get(compute(m));
  EXPECT_NEAR(value_of(d, "T_m"), 36.170, 0.0005);
  EXPECT_NEAR(d.torque.value, 1578.8, 0.05);
  m.measured_current.reset();
  m.measured_power = 6000;
  d = get(compute(m));
  EXPECT_NEAR(value_of(d, "T_m"), 34.971, 0.0005);
}

// Side force on an agitator shaft: M [lb in] = 19 000 hp L f / (n D) (handbook of industrial mixing, from memory) is
// 0.3 T L f / D.
TEST(AgitatorReference, SideForceIsTheUsRule) {
  Agitator a;
  a.impeller = Impeller::disc_turbine;
  a.liquid = Liquid::pure;
  a.diameter = 30 * kInch;
  a.speed = 90 * kRpm;
  a.viscosity = 0.001;
  a.shaft_length = 80 * kInch;
  a.hydraulic_factor = 1.5;
  const Demand d = get(compute(a));
  const double rule = 19000 * value_of(d, "P") / kHorsepower * 80 * 1.5 / (90 * 30) * kPound * kGravity * kInch;
  EXPECT_NEAR(d.radial_load.value * d.radial_position / rule, 1, 0.006);
}

}  // namespace
}  // namespace lobewise::demand
