#include <gtest/gtest.h>

#include <cmath>
#include <cstring>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/drive/motor_choice.h"
#include "engine/drive/stage_table.h"
#include "engine/drive/table_bytes.h"
#include "engine/range/demo_range.h"

namespace lobewise::drive {
namespace {

const range::Stage& stage_of(const char* frame, int lobes) {
  for (const range::Frame& f : range::demo_range().frames)
    if (f.name == frame)
      for (const range::Stage& s : f.stages)
        if (s.geometry.lobes == lobes) return s;
  throw std::runtime_error("no such stage");
}

TEST(StageTable, TransmitsTheTorqueAtEveryLevel) {
  // Sum over the rollers of F e N sin... is what the solver balances; independent of it, the mean lobe force of an
  // equally stiff, clearance-free stage is a closed form that a stage with little clearance must come near at high
  // torque.
  range::Stage stage = stage_of("ring-224", 17);
  stage.geometry.roller_offset = stage.geometry.radius_offset = stage.geometry.flank_relief = 0;
  stage.geometry.hole_clearance = 0;
  const auto level = rigid_level(stage, 1000);
  ASSERT_TRUE(level.ok());
  const auto closed = contact::equal_stiffness_cycle(stage.geometry, 1000.0 / stage.geometry.discs, 24);
  double mean_closed = 0, mean = 0;
  for (double f : closed.flank) mean_closed += f / static_cast<double>(closed.flank.size());
  for (double f : level->forces.flank) mean += f / static_cast<double>(level->forces.flank.size());
  EXPECT_NEAR(mean, mean_closed, 0.06 * mean_closed);
}

TEST(StageTable, InterpolatesItsOwnLevelsExactly) {
  const auto table = rigid_stage_table(stage_of("ring-160", 31));
  ASSERT_TRUE(table.ok());
  for (const MeshLevel& level : table->levels) {
    EXPECT_NEAR(table->at(level.torque, &MeshLevel::lobe_force), level.lobe_force, 1e-9 * level.lobe_force);
    EXPECT_NEAR(table->pressure_at(level.torque, &MeshLevel::lobe_pressure), level.lobe_pressure,
                1e-9 * level.lobe_pressure);
    EXPECT_NEAR(table->life_at(level.torque, &MeshLevel::lobe_life), level.lobe_life, 1e-9 * level.lobe_life);
  }
}

TEST(StageTable, ABendingDiscIsSofterAndSharesMore) {
  // Findings of the finite-element comparison (docs/theory/elastic.md): rotation of rigid discs is far too small, and
  // with a few micrometres of clearance more lobes carry than rigid discs say.
  const range::Stage& stage = stage_of("ring-224", 17);
  const auto rigid = rigid_stage_table(stage);
  const auto disc = elastic_disc_of(stage);
  ASSERT_TRUE(rigid.ok());
  ASSERT_TRUE(disc.ok());
  const auto elastic = elastic_stage_table(stage, *disc);
  ASSERT_TRUE(elastic.ok());
  EXPECT_TRUE(elastic->elastic);
  EXPECT_GT(elastic->at(1000, &MeshLevel::rotation), 1.1 * rigid->at(1000, &MeshLevel::rotation));
  EXPECT_GT(elastic->at(1000, &MeshLevel::loaded_mean), rigid->at(1000, &MeshLevel::loaded_mean));
}

TEST(StageTable, ComesBackFromItsBytesToTheLastBit) {
  const range::Stage& stage = stage_of("ring-80", 7);
  const auto table = elastic_stage_table(stage, *elastic_disc_of(stage));
  ASSERT_TRUE(table.ok());
  const std::string bytes = bytes_of(*table);
  const std::optional<StageTable> back = table_of_bytes(bytes);
  ASSERT_TRUE(back);
  EXPECT_EQ(bytes_of(*back), bytes);
  EXPECT_EQ(back->model, table->model);
  EXPECT_TRUE(back->elastic);
  EXPECT_EQ(back->levels.size(), table->levels.size());
  EXPECT_EQ(back->lost_motion(100), table->lost_motion(100));
  EXPECT_EQ(back->levels.back().at_largest.ring.bent, table->levels.back().at_largest.ring.bent);
}

TEST(StageTable, BytesOfSomethingElseAreRefused) {
  const range::Stage& stage = stage_of("ring-80", 7);
  const std::string bytes = bytes_of(*rough_stage_table(stage));
  ASSERT_TRUE(table_of_bytes(bytes));
  EXPECT_FALSE(table_of_bytes(""));
  EXPECT_FALSE(table_of_bytes(bytes + "x"));
  for (std::size_t end = 0; end < bytes.size(); end += 97) EXPECT_FALSE(table_of_bytes(bytes.substr(0, end))) << end;
  // Counts of anything, where they stand: nothing more is allocated than the bytes fill.
  for (std::size_t at = 0; at + 8 <= bytes.size(); at += 8)
    for (const double count : {1e18, -1.0, std::nan("")}) {
      std::string wrong = bytes;
      std::memcpy(wrong.data() + at, &count, sizeof count);
      (void)table_of_bytes(wrong);
    }
}

TEST(StageTable, DiscsShareLessAlikeTheHarderTheyArePressed) {
  const range::Stage& stage = stage_of("ring-224", 17);
  const auto table = rigid_stage_table(stage);
  ASSERT_TRUE(table.ok());
  const double little = shared_at(stage, *table, 0.05 * table->reference_torque)->hardest_disc(),
               much = shared_at(stage, *table, table->reference_torque)->hardest_disc();
  EXPECT_GT(little, 1);
  EXPECT_GT(much, little);
  EXPECT_LT(little, table->hardest_disc());
  EXPECT_LT(table->hardest_disc(), much);
}

TEST(StageTable, LosesTheSameEitherWayRoundOnReversal) {
  // Of every solved level of reversals to the bit, and straight between them.
  const auto table = rigid_stage_table(stage_of("ring-160", 31));
  ASSERT_TRUE(table.ok());
  for (const Reversal& r : table->reversals) {
    EXPECT_NEAR(table->turned(r.torque), r.forward, 1e-12);
    EXPECT_NEAR(table->turned(-r.torque), r.backward, 1e-12);
    EXPECT_GT(r.forward, r.backward);
  }
  const Reversal &a = table->reversals[2], &b = table->reversals[3];
  EXPECT_NEAR(table->lost_motion((a.torque + b.torque) / 2 / kLostMotionShare),
              ((a.forward + b.forward) - (a.backward + b.backward)) / 2, 1e-12);
}

TEST(Motor, FollowsItsNameplate) {
  const auto motor = drive::motor(7500, 50, 4, MotorClass::ie3, std::nullopt);
  ASSERT_TRUE(motor.ok());
  EXPECT_NEAR(motor->synchronous_speed, 1500 * 2 * kPi / 60, 1e-9);  // 60 f / pole pairs
  EXPECT_NEAR(motor->rated_torque * motor->rated_speed, 7500, 1e-6);
  EXPECT_NEAR(motor->efficiency, 0.904,
              0.0005);  // IE3, 4 poles, 7.5 kW: Reg (EU) 2019/1781 Annex I, from memory in data/
  EXPECT_NEAR(part_load_efficiency(*motor, 1.0), motor->efficiency, 1e-12);
  EXPECT_FALSE(drive::motor(7500, 50, 5, MotorClass::ie3, std::nullopt).ok());
  EXPECT_FALSE(drive::motor(7500, 55, 4, MotorClass::ie3, std::nullopt).ok());
  EXPECT_FALSE(drive::motor(7500, 50, 4, MotorClass::ie3, 200.0).ok());  // above synchronous
}

TEST(Motor, DeratesAboveReferenceConditionsOnly) {
  EXPECT_EQ(derating(kZeroCelsius + 40, 1000), 1);
  EXPECT_NEAR(derating(kZeroCelsius + 50, 1000), 0.9, 1e-12);
  EXPECT_NEAR(derating(kZeroCelsius + 20, 2000), 0.9, 1e-12);
}

TEST(Motor, SmallestMotorReachesPowerAndStart) {
  const auto any = [](const drive::Motor&) { return true; };
  const auto strong = [](const drive::Motor& motor) {
    return least_start_torque(motor, enquiry::Starting::direct, 1.3, 1) >= 200;
  };
  const auto by_power = smallest_motor(6000, any, 50, 4, MotorClass::ie3, kZeroCelsius + 40, 0);
  ASSERT_TRUE(by_power.ok());
  EXPECT_EQ(by_power->rated_power, 7500);
  const auto by_start = smallest_motor(6000, strong, 50, 4, MotorClass::ie3, kZeroCelsius + 40, 0);
  ASSERT_TRUE(by_start.ok());
  EXPECT_GT(by_start->rated_power, 7500);
  EXPECT_FALSE(smallest_motor(5e6, any, 50, 4, MotorClass::ie3, kZeroCelsius + 40, 0).ok());
}

}  // namespace
}  // namespace lobewise::drive
