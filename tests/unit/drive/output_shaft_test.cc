// Loads of the output bearings and the force that they allow.
#include "engine/drive/output_shaft.h"

#include <gtest/gtest.h>

#include "engine/contact/cycle_forces.h"
#include "engine/drive/lives.h"
#include "tests/support/one_stage_unit.h"

namespace lobewise::drive {
namespace {

range::OutputShaft shaft_with(range::BearingKind kind, std::optional<double> Y) {
  range::OutputShaft shaft;
  shaft.bearing_inside.kind = kind;
  shaft.bearing_inside.axial_Y = Y;
  shaft.bearing_outside = shaft.bearing_inside;
  shaft.span = 0.129;
  return shaft;
}

// By hand: 12 280 N at 92 mm beyond bearings 129 mm apart. R_A = 12 280 * 92/129 = 8757.8, R_B = 12 280 * 221/129
// = 21 037.8; the outside bearing's thrust 21 037.8/3 = 7012.6 loads both; P_A = 0.4 * 8757.8 + 1.5 * 7012.6 = 14 022.
TEST(OutputLoads, InducedThrustLoadsTheInsideBearing) {
  const OutputLoads at = output_loads(shaft_with(range::BearingKind::tapered, 1.5), 12280, 0.092, 0);
  EXPECT_NEAR(at.radial_inside, 8757.8, 0.05);
  EXPECT_NEAR(at.radial_outside, 21037.8, 0.05);
  EXPECT_NEAR(at.axial_inside, 7012.6, 0.05);
  EXPECT_NEAR(at.axial_outside, 7012.6, 0.05);
  EXPECT_NEAR(at.inside, 14022, 0.5);
  EXPECT_NEAR(at.outside, 21037.8, 0.05);
  // Static: 0.5 * 8757.8 + 0.55 * 1.5 * 7012.6 = 10 164.
  EXPECT_NEAR(at.static_inside, 10164.3, 0.5);
  EXPECT_NEAR(at.static_outside, 21037.8, 0.05);
}

TEST(OutputLoads, OutsideForceGoesWhereTheContactsHoldIt) {
  const range::OutputShaft tapered = shaft_with(range::BearingKind::tapered, 1.5);
  const OutputLoads in = output_loads(tapered, 12280, 0.092, 5000), out = output_loads(tapered, 12280, 0.092, -5000);
  EXPECT_NEAR(in.axial_inside, 12012.6, 0.05);
  EXPECT_NEAR(in.axial_outside, 7012.6, 0.05);
  EXPECT_NEAR(out.axial_inside, 2919.3, 0.05);   // its own 8757.8/3, more than 7012.6 - 5000
  EXPECT_NEAR(out.axial_outside, 7919.3, 0.05);  // 2919.3 + 5000
  // Straight rollers: no thrust of their own, and none that they hold.
  const OutputLoads straight = output_loads(shaft_with(range::BearingKind::cylindrical, std::nullopt), 12280, 0.092, 0);
  EXPECT_EQ(straight.axial_inside, 0);
  EXPECT_NEAR(straight.inside, 8757.8, 0.05);
  // Deep grooves: the outside one holds the shaft; 0.56 * 21 037.8 + 1.5 * 9000 = 25 281 > 21 037.8.
  const OutputLoads ball = output_loads(shaft_with(range::BearingKind::deep_groove, 1.5), 12280, 0.092, 9000);
  EXPECT_NEAR(ball.outside, 25281.2, 0.5);
  EXPECT_NEAR(ball.inside, 8757.8, 0.05);
}

class OnADuty : public ::testing::Test {
 protected:
  OnADuty() : unit_(stage_of_seventeen()) {
    const mechanism::StageGeometry& g = unit_.stage.geometry;
    unit_.table = std::make_shared<const StageTable>(table_of(
        unit_.stage, {{200, contact::equal_stiffness_cycle(g, 100)}, {600, contact::equal_stiffness_cycle(g, 300)}}));
    range::OutputShaft& shaft = unit_.frame.output;
    for (range::Bearing* bearing : {&shaft.bearing_inside, &shaft.bearing_outside}) {
      bearing->kind = range::BearingKind::tapered;
      bearing->axial_Y = 1.5;
      bearing->axial_e = 0.4;
    }
    drive_ = unit_.on({{1, 600, 150.0 / 17}}, 150);
    drive_->requirement.life = 20000 * 3600.0;
    drive_->radial_force = 2000;
    drive_->radial_position = 0.05;
  }
  [[nodiscard]] double share() const { return lives(*drive_, 333, {}).reliability; }
  OneStageUnit unit_;
  std::optional<Drive> drive_;
};

// Back to back, a force out of the unit pushes the inside bearing, which carries less radial load; face to face, the
// outside one. Not knowing either is no better than the worse of both.
TEST_F(OnADuty, DirectionAndArrangementCount) {
  drive_->requirement.axial_force = 4000;
  using enquiry::AxialDirection;
  using strength::Arrangement;
  const auto with = [&](std::optional<Arrangement> arrangement, std::optional<AxialDirection> direction) {
    unit_.frame.output.arrangement = arrangement;
    drive_->requirement.axial_direction = direction;
    return share();
  };
  const double o_out = with(Arrangement::back_to_back, AxialDirection::out_of_unit);
  const double o_in = with(Arrangement::back_to_back, AxialDirection::into_unit);
  EXPECT_EQ(with(Arrangement::face_to_face, AxialDirection::into_unit), o_out);
  EXPECT_EQ(with(Arrangement::face_to_face, AxialDirection::out_of_unit), o_in);
  EXPECT_NE(o_out, o_in);
  EXPECT_EQ(with(std::nullopt, AxialDirection::into_unit), std::min(o_out, o_in));
  EXPECT_EQ(with(Arrangement::back_to_back, std::nullopt), std::min(o_out, o_in));
}

TEST_F(OnADuty, AHardDutyAllowsNothing) {
  drive_->requirement.life = 1e6 * 3600.0;
  const Lives hard = lives(*drive_, 333, {});
  const AllowedForce allowed = output_duty(*drive_, 333, {}, 0.05, drive_->requirement.life)
                                   .allowed(0.9999, hard.hours, hard.log_rest(hard.hours));
  EXPECT_EQ(allowed.force, 0);
  EXPECT_EQ(allowed.limit, ForceLimit::unit_life);
  EXPECT_GT(allowed.by_strength, 0);
}

// A disc that carries 1.2 times the mean: its parts live as those of alike discs at 1.2 times the torque.
TEST_F(OnADuty, EveryDiscIsCountedWithItsOwnTorque) {
  StageTable unlike = *unit_.table;
  unlike.disc_loads = {1.2, 0.8};
  drive_->tables = {std::make_shared<const StageTable>(unlike)};
  const Lives lives_unlike = lives(*drive_, 333, {});
  const auto part = [](const Lives& of, const std::string& id) {
    for (const PartLife& one : of.parts)
      if (one.id == id) return one;
    throw std::runtime_error("no part " + id);
  };
  drive_->tables = {unit_.table};
  for (const auto& [share, id] :
       {std::pair{1.2, "lobes"}, {0.8, "lobes_disc_2"}, {1.2, "holes"}, {0.8, "eccentric_disc_2"}}) {
    Drive alike = *drive_;
    alike.requirement.duty[0].torque = share * 600;
    const std::string kind = std::string(id).substr(0, std::string(id).find('_'));
    const double expected = part(lives(alike, 333, {}), kind).hours_90;
    EXPECT_NEAR(part(lives_unlike, id).hours_90, expected, 1e-9 * expected) << id;
    EXPECT_EQ(part(lives_unlike, id).count * 2, part(lives(alike, 333, {}), kind).count) << id;
  }
}

}  // namespace
}  // namespace lobewise::drive
