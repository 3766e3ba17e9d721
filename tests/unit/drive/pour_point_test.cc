#include "engine/drive/pour_point.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::drive {
namespace {

range::Lubricant oil(range::BaseOil base, double grade) {
  return {range::LubricantKind::oil, base, grade * 1e-6, std::nullopt, false};
}
double celsius(double kelvin) { return kelvin - kZeroCelsius; }

TEST(PourPoint, IsThatOfTheRangeWhereItStatesOne) {
  range::Lubricant fill = oil(range::BaseOil::mineral, 220);
  fill.pour_point = kZeroCelsius - 21;
  const PourPoint stated = pour_point(fill);
  EXPECT_TRUE(stated.stated);
  EXPECT_NEAR(celsius(stated.at.nominal), -21, 1e-9);
  EXPECT_NEAR(celsius(stated.lowest), -16, 1e-9);  // five kelvins above it
}

TEST(PourPoint, IsTheUsualOneOfKindAndGradeOtherwise) {
  EXPECT_FALSE(pour_point(oil(range::BaseOil::mineral, 220)).stated);
  EXPECT_NEAR(celsius(pour_point(oil(range::BaseOil::mineral, 220)).at.nominal), -15, 1e-9);
  EXPECT_NEAR(celsius(pour_point(oil(range::BaseOil::pao, 460)).at.nominal), -36, 1e-9);
  // Half way on the logarithm, and the end rows beyond them.
  EXPECT_NEAR(celsius(pour_point(oil(range::BaseOil::mineral, std::sqrt(220.0 * 320))).at.nominal), -13.5, 1e-9);
  EXPECT_NEAR(celsius(pour_point(oil(range::BaseOil::mineral, 10)).at.nominal), -24, 1e-9);
  EXPECT_NEAR(celsius(pour_point(oil(range::BaseOil::pag, 3200)).at.nominal), -30, 1e-9);
}

TEST(PourPoint, OfAGreaseIsItsLowerTemperatureOfUse) {
  range::Lubricant grease = oil(range::BaseOil::pao, 220);
  grease.kind = range::LubricantKind::grease;
  EXPECT_NEAR(celsius(pour_point(grease).lowest), -40, 1e-9);
}

}  // namespace
}  // namespace lobewise::drive
