#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/drive/coarse_table.h"
#include "engine/drive/motor_choice.h"
#include "engine/drive/stage_table.h"
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
  const auto table = rigid_stage_table(stage, 1000 / 1.2);  // which is solved at 1000
  ASSERT_TRUE(table.ok());
  const auto closed = contact::equal_stiffness_cycle(stage.geometry, 1000.0 / stage.geometry.discs, 24);
  double mean_closed = 0, mean = 0;
  for (double f : closed.flank) mean_closed += f / static_cast<double>(closed.flank.size());
  for (const MeshLevel& level : table->levels)
    if (std::abs(level.torque - 1000) < 1e-9)
      for (double f : level.forces.flank) mean += f / static_cast<double>(level.forces.flank.size());
  EXPECT_NEAR(mean, mean_closed, 0.06 * mean_closed);
}

TEST(StageTable, InterpolatesItsOwnLevelsExactly) {
  const auto table = rigid_stage_table(stage_of("ring-160", 31), 400);
  ASSERT_TRUE(table.ok());
  for (const MeshLevel& level : table->levels) {
    EXPECT_NEAR(table->at(level.torque, &MeshLevel::lobe_force), level.lobe_force, 1e-9 * level.lobe_force);
    EXPECT_NEAR(table->pressure_at(level.torque, &MeshLevel::lobe_pressure), level.lobe_pressure,
                1e-9 * level.lobe_pressure);
    EXPECT_NEAR(table->life_at(level.torque, &MeshLevel::lobe_life), level.lobe_life, 1e-9 * level.lobe_life);
  }
}

TEST(StageTable, ACoarseBendingDiscLosesWhatAFineOneLoses) {
  for (const auto& [frame, lobes] : {std::pair{"ring-80", 7}, {"ring-224", 31}, {"ring-160", 79}}) {
    const range::Stage& stage = stage_of(frame, lobes);
    const auto coarse = coarse_bending_table(stage, 500);
    const auto disc = elastic_disc_of(stage);
    const auto fine = elastic_stage_table(stage, *disc, 500), rigid = rigid_stage_table(stage, 500);
    ASSERT_TRUE(coarse.ok() && fine.ok() && rigid.ok());
    const auto sliding = [](const StageTable& table, losses::SlidingSums MeshLevel::*sums) {
      const StageTable::Between b = table.between(500);
      return (1 - b.share) * (b.below->*sums).total + b.share * (b.above->*sums).total;
    };
    EXPECT_NEAR(sliding(*coarse, &MeshLevel::lobe_sliding) / sliding(*fine, &MeshLevel::lobe_sliding), 1, 0.02);
    EXPECT_NEAR(sliding(*coarse, &MeshLevel::pin_sliding) / sliding(*fine, &MeshLevel::pin_sliding), 1, 0.02);
    EXPECT_NEAR(coarse->at(500, &MeshLevel::bearing_equivalent) / fine->at(500, &MeshLevel::bearing_equivalent), 1,
                0.02);
    // Rigid discs miss it by far.
    EXPECT_GT(sliding(*fine, &MeshLevel::lobe_sliding) / sliding(*rigid, &MeshLevel::lobe_sliding), 1.05) << frame;
  }
}

TEST(StageTable, ABendingDiscIsSofterAndSharesMore) {
  // Findings of the finite-element comparison (docs/theory/elastic.md): rotation of rigid discs is far too small, and
  // with a few micrometres of clearance more lobes carry than rigid discs say.
  const range::Stage& stage = stage_of("ring-224", 17);
  const auto rigid = rigid_stage_table(stage, 1000);
  const auto disc = elastic_disc_of(stage);
  ASSERT_TRUE(rigid.ok());
  ASSERT_TRUE(disc.ok());
  const auto elastic = elastic_stage_table(stage, *disc, 1000);
  ASSERT_TRUE(elastic.ok());
  EXPECT_TRUE(elastic->elastic);
  EXPECT_GT(elastic->at(1000, &MeshLevel::rotation), 1.1 * rigid->at(1000, &MeshLevel::rotation));
  EXPECT_GT(elastic->at(1000, &MeshLevel::loaded_mean), rigid->at(1000, &MeshLevel::loaded_mean));
}

TEST(TableTorque, IsASeriesOfPreferredNumbers) {
  // R20: 20 steps a decade (ISO 3).
  EXPECT_NEAR(table_torque(1000), 1000, 1e-9);
  EXPECT_EQ(table_torque(1010), table_torque(990));
  for (double torque : {3.0, 77.0, 812.0, 15000.0})
    EXPECT_NEAR(std::log10(table_torque(torque) / torque), 0, 0.025 + 1e-12);
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
