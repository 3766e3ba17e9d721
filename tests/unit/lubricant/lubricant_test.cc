#include "engine/contact/lubricant.h"

#include <gtest/gtest.h>

#include "engine/contact/film.h"

namespace lobewise::contact {
namespace {

TEST(Viscosity, CorrectionBelowTwo) {
  const ViscosityCurve thin = viscosity_curve(5e-6, 1.7e-6);
  EXPECT_LT(kinematic_viscosity(thin, 373.15), 1.7e-6);
  EXPECT_NEAR(kinematic_viscosity(thin, 373.15), 1.7e-6, 0.004e-6);
}

TEST(ViscosityIndex, OutOfReach) {
  EXPECT_FALSE(nu_100_from_index(1.5e-6, 95).ok());
  EXPECT_FALSE(nu_100_from_index(220e-6, -1e6).ok());
}

TEST(Density, FallsWithTemperature) {
  EXPECT_NEAR(oil_density(890, 288.15), 890, 1e-12);
  EXPECT_NEAR(oil_density(890, 388.15), 890 * 0.935, 1e-9);
}

// Film exponents: twice the speed 2^0.7, twice the load 2^-0.13; the pressure of the oil 2^0.54.
TEST(LineFilm, Exponents) {
  const FilmInput base{0.7, 0.005, 226e9, 2e-8, 0.03, 9e4};
  FilmInput changed = base;
  changed.entrainment_speed *= 2;
  EXPECT_NEAR(line_film(changed) / line_film(base), 1.62450, 1e-5);
  changed = base;
  changed.load_per_length *= 2;
  EXPECT_NEAR(line_film(changed) / line_film(base), 0.91383, 1e-5);
  changed = base;
  changed.pressure_viscosity *= 2;
  EXPECT_NEAR(line_film(changed) / line_film(base), 1.45397, 1e-5);
}

}  // namespace
}  // namespace lobewise::contact
