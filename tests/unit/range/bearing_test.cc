#include "engine/range/bearing.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/range/demo_stage.h"

namespace {
using namespace lobewise;
using namespace lobewise::range;

Bearing counted() {
  Bearing bearing;
  bearing.kind = BearingKind::full_complement;
  bearing.elements = 14;
  bearing.element_diameter = 0.009;
  bearing.element_length = 0.013;
  bearing.pitch_diameter = 0.050;
  return bearing;
}

TEST(RangeBearing, CountsItsElementsWhereNothingIsStated) {
  // 14 rollers 9 x 13 mm on 50 mm: C 55.1 kN, C_0 59.1 kN, C_u 7.2 kN (worked example of the independent model).
  const auto found = rolling_bearing(counted());
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->rating.C, 55.1e3, 50);
  EXPECT_NEAR(found->rating.C_0, 59.1e3, 50);
  EXPECT_NEAR(found->rating.C_u, 7.2e3, 50);
  EXPECT_EQ(found->element, strength::RollingElement::roller);
}

TEST(RangeBearing, StatedCapacitiesRule) {
  Bearing bearing = counted();
  bearing.static_capacity = 41e3;
  const auto found = rolling_bearing(bearing);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->rating.C, 55.1e3, 50);
  EXPECT_EQ(found->rating.C_0, 41e3);
  EXPECT_DOUBLE_EQ(found->rating.C_u, 41e3 / 8.2);
  bearing.elements = 0;
  EXPECT_FALSE(rolling_bearing(bearing).ok());
  bearing.dynamic_capacity = 50e3;
  EXPECT_EQ(rolling_bearing(bearing)->rating.C, 50e3);
}

TEST(RangeBearing, BallsNeedBothStated) {
  Bearing bearing = counted();
  bearing.kind = BearingKind::deep_groove;
  const auto refused = rolling_bearing(bearing, "input_bearing");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.errors()[0].path, "input_bearing.dynamic_capacity");
  bearing.dynamic_capacity = 19.5e3;
  bearing.static_capacity = 11.2e3;
  bearing.pitch_diameter = 0.4;
  const auto found = rolling_bearing(bearing);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->element, strength::RollingElement::ball);
  EXPECT_DOUBLE_EQ(found->rating.C_u, 11.2e3 / 22 / 2);  // (100/400)^0.5
}

TEST(RangeBearing, TaperFollowsFromTheLimitE) {
  Bearing bearing = counted();
  bearing.kind = BearingKind::tapered;
  bearing.axial_e = 0.4;
  EXPECT_NEAR(std::tan(contact_angle(bearing)), 0.4 / 1.5, 1e-15);
  EXPECT_LT(rolling_bearing(bearing)->rating.C, rolling_bearing(counted())->rating.C);
}

TEST(RangeBearing, SeriesTwoRatesAboutAsUsual) {
  // Dynamic ratings that cylindrical and tapered bearings of dimension series 02 usually have, middle of what is on
  // offer, from memory; the formula must come within 15 %.
  const struct {
    BearingKind kind;
    double bore, usual;
  } rows[] = {{BearingKind::cylindrical, 25, 29e3},  {BearingKind::cylindrical, 50, 66e3},
              {BearingKind::cylindrical, 80, 139e3}, {BearingKind::tapered, 30, 42e3},
              {BearingKind::tapered, 50, 77e3},      {BearingKind::tapered, 80, 150e3}};
  for (const auto& row : rows) {
    const auto rating = rolling_bearing(demo::bearing_of(row.kind, bearing_from(Series::two, row.bore)));
    ASSERT_TRUE(rating.ok());
    EXPECT_NEAR(rating->rating.C, row.usual, 0.15 * row.usual) << row.bore;
  }
}

}  // namespace
