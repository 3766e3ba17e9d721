// Cold oil against the outside world: shear of a film that heats itself, slip energy of printed starts.

#include "engine/losses/cold.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/lubricant.h"
#include "engine/drive/motor_starts.h"

namespace lobewise::losses {
namespace {

// J. Gavis, R. L. Laurence, Ind. Eng. Chem. Fundamentals 7 (1968) 232, from memory; figures by quadrature elsewhere.
TEST(Cold, ShearOfAFilmThatHeatsItself) {
  EXPECT_NEAR(couette_heating(0.1), 0.991749, 5e-7);
  EXPECT_NEAR(couette_heating(1.0), 0.924196, 5e-7);
  EXPECT_NEAR(couette_heating(10.0), 0.573879, 5e-7);
  EXPECT_NEAR(couette_heating(100.0), 0.152069, 5e-7);
  EXPECT_NEAR(couette_heating(1000.0), 0.0247755, 5e-8);
  // The series meets the closed form, and without heat nothing is taken off.
  EXPECT_NEAR(couette_heating(0.999e-6), couette_heating(1.001e-6), 1e-9);
  EXPECT_EQ(couette_heating(0.0), 1);
}

/// Energy equation k T'' + tau^2 / eta(T) = 0 with both walls at T_0, by its first integral: with theta = b (T - T_0)
/// the hottest in the middle at theta_m, theta' = sqrt(2 A (e^theta_m - e^theta)), A = tau^2 b / (k eta_0).
struct Film {
  double nahme, left;
};
Film film_by_quadrature(double theta_m) {
  // A = 1, eta_0 = k = b = 1: then tau = 1. theta = theta_m - v^2 takes the singularity of the middle away.
  constexpr int kSteps = 20000;
  const double top = std::sqrt(theta_m);
  double half_gap = 0, half_speed = 0;
  for (int i = 0; i < kSteps; ++i) {
    const double v = (i + 0.5) * top / kSteps, theta = theta_m - v * v;
    const double dy = 2 * v / std::sqrt(2 * std::exp(theta) * std::expm1(v * v)) * top / kSteps;
    half_gap += dy;
    half_speed += std::exp(theta) * dy;
  }
  return {4 * half_speed * half_speed, half_gap / half_speed};
}

TEST(Cold, ShearOfAFilmByItsEnergyEquation) {
  for (const double hottest : {0.01, 0.1, 0.5, 1.0, 2.0, 4.0, 8.0}) {
    const Film film = film_by_quadrature(hottest);
    EXPECT_NEAR(couette_heating(film.nahme), film.left, 1e-6 * film.left) << hottest;
  }
}

TEST(Cold, FallOfViscosityIsTheSlopeOfItsCurve) {
  const contact::ViscosityCurve curve = contact::viscosity_curve(220e-6, 19e-6);
  for (const double celsius : {-40.0, -10.0, 20.0, 60.0, 100.0}) {
    const double t = kZeroCelsius + celsius, h = 0.01;
    const double slope =
        std::log(contact::kinematic_viscosity(curve, t - h) / contact::kinematic_viscosity(curve, t + h));
    EXPECT_NEAR(contact::viscosity_fall(curve, t), slope / (2 * h), 1e-6 * slope / (2 * h)) << celsius;
  }
}

// G. K. Dubey, Fundamentals of Electrical Drives, Ex 6.7 (p. 176 of its worked solutions): 6 poles at 50 Hz,
// R_s 0.075, R_r 0.12 ohm, J 100 kg m2, no load: 891 kJ. Gupta and Singhal, Electric Drives and Control, ch. 6: 8
// poles, r_1 = r_2, J 10: 61.69 kJ.
TEST(Cold, HeatOfAnUnloadedStart) {
  EXPECT_NEAR(drive::heat_of_start(0.075 / 0.12, 0.0, 100.0, 2 * kPi * 50 / 3, 1.0), 891e3, 0.5e3);
  EXPECT_NEAR(drive::heat_of_start(1.0, 10.0, 0.0, 2 * kPi * 50 / 4, 1.0), 61.69e3, 0.005e3);
}

/// Slip energy of a run-up at constant torques, summed.
TEST(Cold, HeatOfALoadedStartIsItsSlipEnergy) {
  const double J = 0.3, synchronous = 157, motor = 140, load = 60;
  double heat = 0;
  constexpr int kSteps = 1000;
  for (int i = 0; i < kSteps; ++i) {
    const double speed = (i + 0.5) * synchronous / kSteps;
    heat += motor * (synchronous - speed) * J / (motor - load) * synchronous / kSteps;
  }
  EXPECT_NEAR(drive::heat_of_start(0.0, J, 0.0, synchronous, 1 - load / motor), heat, 1e-6 * heat);
}

}  // namespace
}  // namespace lobewise::losses
