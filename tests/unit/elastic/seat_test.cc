#include "engine/contact/elastic/seat.h"

#include <gtest/gtest.h>

#include "engine/base/constants.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact::elastic;

TEST(SeatedRoller, MeetsTheStudy) {
  // Roller of radius 7, change-over depth 14, plane strain, nu 0.3: values by an independent model; the bonded edge of
  // the seat makes the last one hard to converge (docs/decisions/060).
  const SeatedRoller roller(plane_strain(0.3));
  const double gamma[] = {0, 0.3, 0.6, 0.9, 1.2}, value[] = {0.014, 0.046, 0.116, 0.151, 0.015};
  for (int i = 0; i < 5; ++i) {
    EXPECT_NEAR(roller.constant(gamma[i], 0.5), value[i], i < 4 ? 0.005 : 0.01) << gamma[i];
    EXPECT_EQ(roller.constant(gamma[i], 0.5), roller.constant(-gamma[i], 0.5));
  }
}

TEST(SeatedRoller, DepthEntersAsALogarithm) {
  const PlaneMaterial material = plane_strain(0.3);
  const SeatedRoller roller(material);
  EXPECT_NEAR(roller.constant(0.5, 4) - roller.constant(0.5, 1), 2 * std::log(4) / (kPi * material.modulus), 1e-12);
}

TEST(CoredPin, StiffensWithItsCore) {
  // From the same study: pin of radius 8 with a core of 4, depth 14, plane strain.
  EXPECT_NEAR(cored_pin_constant(plane_strain(0.3), 0.5, 8.0 / 14), -0.5337, 0.002);
  double last = 1e9;
  for (const double core : {0.1, 0.3, 0.5, 0.7, 0.85}) {
    const double value = cored_pin_constant(plane_stress(0.3), core, 1);
    EXPECT_LT(value, last) << core;
    last = value;
  }
}

}  // namespace
