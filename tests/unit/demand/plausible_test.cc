// What a machine cannot be is refused with both fields named; what it stores is named for this machine.
#include <gtest/gtest.h>

#include <set>

#include "engine/api/json_io.h"
#include "engine/base/constants.h"
#include "engine/demand/caution_duty.h"
#include "engine/demand/machines/registry.h"
#include "engine/enquiry/enquiry.h"
#include "tests/support/machines.h"

namespace lobewise::demand {
namespace {

constexpr double kRpm = 2 * kPi / 60, kDegree = kPi / 180;

template <class M>
bool refused(const M& machine, std::string_view first, std::string_view second) {
  const Result<Demand> result = compute(machine);
  if (result.ok()) return false;
  const std::string path = std::string("machine.") + M::kInfo.id + ".";
  for (const Error& error : result.errors())
    if (error.path == path + std::string(first) && error.message.find(path + std::string(second)) != std::string::npos)
      return true;
  return false;
}

ScrewConveyor screw() {
  ScrewConveyor m;
  m.mass_flow = 20 / 3.6;
  m.length = 6;
  m.lift = 1;
  m.diameter = 0.4;
  m.speed = 50 * kRpm;
  return m;
}

TEST(Plausible, FourHundredTonnesAnHourDoNotPassATwentyCentimetreScrew) {
  ScrewConveyor m = screw();
  EXPECT_TRUE(compute(m).ok());
  m.mass_flow = 400 / 3.6;
  m.diameter = 0.2;
  EXPECT_TRUE(refused(m, "mass_flow", "diameter"));
  // At the limit: pi/4 D^2 s n rho, filled to the top.
  m = screw();
  m.density = 1000;
  const double full = 1000 * kPi / 4 * 0.4 * 0.4 * 0.4 * 50.0 / 60;
  m.mass_flow = 1.001 * full;
  EXPECT_TRUE(refused(m, "mass_flow", "diameter"));
  m.mass_flow = 0.999 * full;
  EXPECT_TRUE(compute(m).ok());
  m = screw();
  m.pitch = 1.0;
  EXPECT_TRUE(refused(m, "pitch", "diameter"));
}

TEST(Plausible, Belt) {
  BeltConveyor m;
  m.mass_flow = 120 / 3.6;
  m.speed = 1.3;
  m.length = 46;
  m.lift = 14;
  m.drum_diameter = 0.5;
  m.belt_width = 0.8;
  EXPECT_TRUE(compute(m).ok());
  m.mass_flow = 2000 / 3.6;
  EXPECT_TRUE(refused(m, "mass_flow", "belt_width"));
  m.mass_flow = 120 / 3.6;
  m.friction_force = 3000;
  EXPECT_TRUE(compute(m).ok());
  m.friction = 0.02;
  EXPECT_TRUE(refused(m, "friction_force", "friction"));
  m.friction.reset();
  m.lift = 60;
  EXPECT_TRUE(refused(m, "lift", "length"));
}

TEST(Plausible, ElevatorAndChainBreakUnderTheirOwnLoad) {
  BucketElevator e;
  e.mass_flow = 100 / 3.6;
  e.lift = 30;
  e.speed = 1.6;
  e.head_diameter = 0.8;
  e.strand_mass = 20;
  EXPECT_TRUE(compute(e).ok());
  e.speed = 0.1;
  e.mass_flow = 900;
  EXPECT_TRUE(refused(e, "strand_mass", "mass_flow"));
  ChainConveyor c;
  c.length = 24;
  c.speed = 0.2;
  c.sprocket_diameter = 0.25;
  c.load = 150;
  c.chain_mass = 24;
  EXPECT_TRUE(compute(c).ok());
  c.load = 20000;
  c.length = 400;
  c.chain_mass = 2;
  EXPECT_TRUE(refused(c, "chain_mass", "load"));
}

TEST(Plausible, DrumBelowItsCriticalSpeed) {
  RotaryDrum m;
  m.inner_diameter = 2;
  m.length = 8;
  m.fill = 0.15;
  m.density = 1200;
  m.speed = 4 * kRpm;
  m.shell_mass = 9000;
  EXPECT_TRUE(compute(m).ok());
  // Critical speed sqrt(g/R) of R = 1 m: 3.13 rad/s, the 42.3/sqrt(D) 1/min of every mill book (29.9 1/min).
  m.speed = std::sqrt(kGravity) * 1.001;
  EXPECT_TRUE(refused(m, "speed", "inner_diameter"));
  EXPECT_NEAR(std::sqrt(2 * kGravity / 2) / kRpm, 42.3 / std::sqrt(2.0), 0.05);
  m.speed = 4 * kRpm;
  m.tyre_diameter = 1.5;
  EXPECT_TRUE(refused(m, "tyre_diameter", "inner_diameter"));
  m.tyre_diameter.reset();
  m.dynamic_angle = 40 * kDegree;
  m.start_angle = 30 * kDegree;
  EXPECT_TRUE(refused(m, "start_angle", "dynamic_angle"));
}

TEST(Plausible, Agitator) {
  Agitator m;
  m.diameter = 0.9;
  m.speed = 68 * kRpm;
  EXPECT_TRUE(compute(m).ok());
  m.power_number = 1.4;
  m.blade_width_ratio = 0.25;
  EXPECT_TRUE(refused(m, "blade_width_ratio", "power_number"));
  m.power_number.reset();
  m.impeller = Impeller::propeller;
  EXPECT_TRUE(refused(m, "blade_width_ratio", "impeller"));
  m.blade_width_ratio.reset();
  m.speed = 390;
  EXPECT_TRUE(refused(m, "speed", "diameter"));
  m.speed = 68 * kRpm;
  m.impellers = 1.5;
  EXPECT_FALSE(compute(m).ok());
}

TEST(Plausible, TheOthers) {
  PaddleMixer mixer;
  mixer.volume = 50;
  mixer.speed = 2;
  mixer.rotor_diameter = 0.3;
  mixer.batch = Batch::paste;
  EXPECT_TRUE(refused(mixer, "volume", "rotor_diameter"));

  Hoist hoist;
  hoist.lifts_people = false;
  hoist.load_mass = 2000;
  hoist.speed = 0.25;
  hoist.drum_diameter = 0.4;
  EXPECT_TRUE(compute(hoist).ok());
  hoist.counterweight = 9000;
  const Result<Demand> heavy = compute(hoist);
  ASSERT_TRUE(heavy.ok());
  EXPECT_TRUE(std::any_of(heavy->cautions.begin(), heavy->cautions.end(),
                          [](const Caution& c) { return c.key == "doubt_counterweight"; }));
  hoist.counterweight.reset();
  hoist.start_time = 0.01;
  EXPECT_FALSE(compute(hoist).ok());
  hoist.start_time.reset();
  hoist.falls = 2.5;
  EXPECT_FALSE(compute(hoist).ok());

  TravelDrive travel;
  travel.mass = 20000;
  travel.speed = 1;
  travel.wheel_diameter = 0.4;
  EXPECT_TRUE(compute(travel).ok());
  travel.slope = 0.45;
  travel.adhesion = 0.1;
  EXPECT_TRUE(refused(travel, "slope", "adhesion"));
  travel.slope.reset();
  travel.start_time = 0.1;
  EXPECT_TRUE(refused(travel, "start_time", "adhesion"));

  RollerTable table;
  table.load_mass = 5000;
  table.rollers_mass = 1000;
  table.roller_diameter = 0.3;
  table.speed = 1;
  table.slip_friction = 0.2;
  table.acceleration = 3;
  EXPECT_TRUE(refused(table, "acceleration", "slip_friction"));

  CurveMachine curve;
  curve.kind = CurveKind::fan;
  curve.rated_power = 10e3;
  curve.rated_speed = 100;
  curve.inertia = 3;
  EXPECT_TRUE(compute(curve).ok());
  curve.stored_energy_time = 5;
  EXPECT_TRUE(refused(curve, "stored_energy_time", "inertia"));
}

/// What one machine of each kind asks.
std::vector<Demand> every_machine() {
  std::vector<Demand> list;
  for (const nlohmann::json& machine : test::kMachines) {
    const Result<enquiry::Enquiry> enquiry = api::read<enquiry::Enquiry>(machine, api::Numbers::need_unit);
    EXPECT_TRUE(enquiry.ok()) << machine;
    const Result<Demand> demand = compute(enquiry->machine);
    EXPECT_TRUE(demand.ok()) << demand.errors().front().path << ": " << demand.errors().front().message;
    list.push_back(*demand);
  }
  return list;
}

TEST(Cautions, StoredEnergyIsNamedForEachMachineWithTheStepThatReleasesIt) {
  const std::vector<Demand> machines = every_machine();
  ASSERT_EQ(machines.size(), all_machines().size());
  std::set<std::string> texts;
  for (const Demand& demand : machines) {
    int count = 0;
    for (const Caution& caution : demand.cautions) {
      if (caution.key != "stored_energy") continue;
      ++count;
      texts.insert(caution.text);
      EXPECT_NE(caution.text.find("To release it:"), std::string::npos);
    }
    EXPECT_EQ(count, 1);
  }
  EXPECT_EQ(texts.size(), machines.size());  // no two machines share the words
}

TEST(Cautions, EachHasSomebodyWhoDoesItAndATime) {
  for (const Demand& demand : every_machine())
    for (const Caution& caution : demand.cautions) {
      const CautionDuty* duty = find_duty(caution.key);
      ASSERT_NE(duty, nullptr) << caution.key;
      EXPECT_GT(duty->rank, 0);
      EXPECT_STRNE(duty->who, "");
      EXPECT_STRNE(duty->when, "");
    }
  EXPECT_EQ(find_duty("never_heard_of"), nullptr);
  EXPECT_EQ(find_duty("doubt_of_anything"), find_duty("doubt_"));
}

TEST(Plausible, AScrewPushesBackWithItsPowerOverItsAdvance) {
  // F = P/(s n): 20 t/h over 6 m at lambda 3 and 1 m of lift, pitch 0.4 m, 50 1/min.
  ScrewConveyor m = screw();
  m.progress_resistance = 3;
  const Result<Demand> demand = compute(m);
  ASSERT_TRUE(demand.ok());
  const double expected = kGravity * 20 / 3.6 * (3 * 6 + 1) / (0.4 * 50 / 60);
  int found = 0;
  for (const WorkingStep& step : demand->working) {
    if (step.symbol != "F_a") continue;
    ++found;
    EXPECT_NEAR(step.value, expected, 1e-9 * expected);
  }
  EXPECT_EQ(found, 1);
}

}  // namespace
}  // namespace lobewise::demand
