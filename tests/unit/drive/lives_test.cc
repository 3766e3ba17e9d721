// Lives of everything that rolls in a unit, over a duty.
#include "engine/drive/lives.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/contact/cycle_forces.h"
#include "tests/support/one_stage_unit.h"

namespace lobewise::drive {
namespace {

constexpr double kSpeed = 150, kWarm = 333.15;
constexpr double kOut = kSpeed / 17;

/// Equally stiff contacts, 200 N m and 600 N m on two discs.
std::unique_ptr<OneStageUnit> unit() {
  auto unit = std::make_unique<OneStageUnit>(stage_of_seventeen());
  unit->stage.pin_lever_near = 0.02;
  unit->stage.pin_lever_far = 0.04;  // the input bearings take a fifth of the couple
  const mechanism::StageGeometry& g = unit->stage.geometry;
  unit->table = std::make_shared<const StageTable>(table_of(
      unit->stage, {{200, contact::equal_stiffness_cycle(g, 100)}, {600, contact::equal_stiffness_cycle(g, 300)}}));
  return unit;
}

Lives lives_of(const std::vector<enquiry::Block>& duty) {
  const auto on = unit();
  Drive drive = on->on(duty, kSpeed);
  drive.radial_force = 3000;
  drive.radial_position = 0.06;
  return lives(drive, kWarm, {});
}

// Palmgren and Miner: each part's life on the duty from its lives on the blocks alone. Radial loads follow the torque
// over that at full load, which is the first block's here and must stay that of the whole duty.
TEST(Lives, BlocksAddUpTheirDamage) {
  const Lives duty = lives_of({{0.6, 600, kOut}, {0.4, 200, kOut}});
  const Lives heavy = lives_of({{1, 600, kOut}});
  const Lives light = lives_of({{0, 600, kOut}, {1, 200, kOut}});
  ASSERT_EQ(duty.parts.size(), 8u);
  for (std::size_t i = 0; i < duty.parts.size(); ++i) {
    const auto miner = [](double a, double b) { return 1 / (0.6 / a + 0.4 / b); };
    const double basic = miner(heavy.parts[i].basic_hours, light.parts[i].basic_hours);
    const double modified = miner(heavy.parts[i].modified_hours, light.parts[i].modified_hours);
    EXPECT_GT(light.parts[i].basic_hours, heavy.parts[i].basic_hours) << duty.parts[i].id;
    EXPECT_NEAR(duty.parts[i].basic_hours, basic, 1e-9 * basic) << duty.parts[i].id;
    EXPECT_NEAR(duty.parts[i].modified_hours, modified, 1e-9 * modified) << duty.parts[i].id;
    EXPECT_LE(duty.hours_of(0.9), duty.parts[i].hours_90) << duty.parts[i].id;  // worse than its worst part
  }
}

// Twice the speed is twice the revolutions in an hour; basic lives do not know the oil.
TEST(Lives, SpeedCountsRevolutions) {
  const auto on = unit();
  const Lives slow = lives(on->on({{1, 600, kOut / 2}}, kSpeed / 2), kWarm, {});
  const Lives fast = lives(on->on({{1, 600, kOut}}, kSpeed), kWarm, {});
  for (std::size_t i = 0; i < slow.parts.size(); ++i) {
    if (std::isinf(fast.parts[i].basic_hours)) continue;
    EXPECT_NEAR(slow.parts[i].basic_hours, 2 * fast.parts[i].basic_hours, 1e-9 * slow.parts[i].basic_hours);
  }
}

TEST(Lives, NoTorqueNoDamage) {
  const auto on = unit();
  Drive drive = on->on({{1, 600, kOut}}, kSpeed);
  drive.requirement.duty = {{1, 0, kOut}};
  const Lives none = lives(drive, kWarm, {});
  for (const PartLife& part : none.parts) EXPECT_TRUE(std::isinf(part.basic_hours)) << part.id;
  EXPECT_TRUE(std::isinf(none.hours_of(0.9)));
}

}  // namespace
}  // namespace lobewise::drive
