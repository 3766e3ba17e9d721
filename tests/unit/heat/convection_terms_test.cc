#include "engine/heat/convection_terms.h"

#include <gtest/gtest.h>

#include "engine/base/constants.h"
#include "engine/heat/convection.h"

namespace lobewise::heat {
namespace {

// The formulas of the working against the hot path, in still air and in a stream, low and high, cold and warm.
TEST(ConvectionTerms, AreThoseOfTheHotPath) {
  for (const double speed : {0.0, 0.3, 4.0})
    for (const double altitude : {0.0, 1800.0})
      for (const double rise : {-5.0, 0.0, 40.0}) {
        const double ambient = kZeroCelsius + 20, diameter = 0.3;
        const double h = convection(diameter, ambient + rise, ambient, speed, altitude).combined;
        EXPECT_NEAR(heat_transfer<double>(diameter, ambient + rise, ambient, speed, altitude), h, 1e-9 * h)
            << speed << " " << altitude << " " << rise;
      }
}

TEST(ConvectionTerms, RadiationIsThatOfTheHotPath) {
  const double P = radiation(0.4, 0.9, 340, 300);
  EXPECT_NEAR(radiation_terms<double>(0.9, kStefanBoltzmann, 0.4, 340, 300), P, 1e-9 * P);
}

}  // namespace
}  // namespace lobewise::heat
