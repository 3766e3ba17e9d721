// Published examples of motor starting. FOSSEE = github.com/FOSSEE/Python-Textbook-Companions at commit d34b2ae.
// Tolerance: half a unit of the last printed digit unless a line says why not.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/motion/chain.h"
#include "engine/motion/motor_curve.h"
#include "engine/motion/run_up.h"

namespace lobewise::motion {
namespace {

TEST(Published, Kloss_Theraja_34_15) {
  // Theraja, AC & DC Machines, Ex 34.15 (FOSSEE chapter34): rotor 0.02 + j0.15 ohm, 16 poles, 50 Hz, 360 1/min:
  // T/T_max = 0.5505, greatest torque at 325 1/min.
  const double s_b = 0.02 / 0.15;
  const double slip = (375.0 - 360) / 375;
  EXPECT_NEAR(kloss_torque(slip, 1, s_b), 0.5505, 5e-5);
  EXPECT_NEAR(375 * (1 - s_b), 325, 0.1);
}

TEST(Published, Kloss_Theraja_34_22) {
  // Theraja, Ex 34.22 (FOSSEE chapter34): R2 0.12, X2 0.85 ohm, slip 4 %: 52.41 N m, greatest 99.91 N m. The source
  // takes pi = 3.14, which cancels in the ratio; both printed values carry half a unit of the last digit.
  EXPECT_NEAR(kloss_torque(0.04, 99.91, 0.12 / 0.85), 52.41, 0.006);
}

TEST(Published, RunUpConstants_Dubey_6_7) {
  // Dubey, Fundamentals of Electrical Drives, Ex 6.7 (FOSSEE Chapter6_2): t = t_m (1/(4 s_m) + 1.5 s_m),
  // t_m = J w_s/T_max, run-up to s = 0.05; 1.5 stands for (1/2) ln 20 = 1.498, and the small (1 - s^2) is dropped:
  // 0.3 %. For s_m = 0.12/sqrt(0.075^2 + 1) the book's constants give 2.26868, the numerical integral 2.2632021.
  const double s_m = 0.12 / std::hypot(0.075, 1.0);
  EXPECT_NEAR(kloss_run_up_time(1, 1, 1, s_m, 0.05), 2.2632021, 1e-6);
  EXPECT_NEAR(kloss_run_up_time(1, 1, 1, s_m, 0.05), 2.26868, 0.01);
}

TEST(Published, MinimumStartTime_Pillai_5_3) {
  // Pillai, First Course on Electrical Drives, Ex 5.3 (FOSSEE CHAPTER5_2): 400 V, 6 poles, 50 Hz, x = 1 ohm, J = 10:
  // shortest start to s = 0.05 with s_m = sqrt((1 - s^2)/(2 ln 1/s)): 1.676 s.
  const double w_s = 2 * kPi * 1000 / 60;
  const double greatest = 400.0 * 400 / (2 * 1.0 * w_s);  // 3 (U/sqrt 3)^2/(2 w_s x)
  const double best = std::sqrt((1 - 0.05 * 0.05) / (2 * std::log(20)));
  EXPECT_NEAR(kloss_run_up_time(10, w_s, greatest, best, 0.05), 1.676, 0.0005);
  EXPECT_LT(kloss_run_up_time(10, w_s, greatest, best, 0.05), kloss_run_up_time(10, w_s, greatest, 0.9 * best, 0.05));
  EXPECT_LT(kloss_run_up_time(10, w_s, greatest, best, 0.05), kloss_run_up_time(10, w_s, greatest, 1.1 * best, 0.05));
}

TEST(Published, ConstantAcceleration_Wadhwa_4_1) {
  // Wadhwa, Generation, Distribution and Utilization (FOSSEE ch4_1): 150 hp (746 W each), 750 1/min, stored energy
  // 5000 W s per hp, accelerating torque half the full-load torque: 26.81 s.
  const double w = 2 * kPi * 750 / 60;
  const double torque = 150 * 746.0 / w;
  const double inertia = 2 * 150 * 5000 / (w * w);
  EXPECT_NEAR(brake_stop(inertia, w, 0.5 * torque, 0).time, 26.81, 0.005);
}

TEST(Published, ClutchRunUp_Khurmi_10) {
  // Khurmi & Gupta, Theory of Machines, ch 10 (FOSSEE): flywheel 13.5 kg, k 0.15 m, cone clutch mu 0.3, 180 N, 75 mm,
  // 15 deg, 1000 1/min: 4.1 s.
  const double torque = 0.3 * 180 * 0.0375 / std::sin(15 * kPi / 180);
  EXPECT_NEAR(brake_stop(13.5 * 0.15 * 0.15, 2 * kPi * 1000 / 60, torque, 0).time, 4.1, 0.05);
}

TEST(Published, FlywheelEffectFormula_Agrawal_2_5) {
  // K. C. Agrawal, Industrial Power Engineering and Applications Handbook eq (2.5): t = GD2 N/(375 T_a), GD2 = 4 J in
  // kgf m2, T in kgf m, N in 1/min. Half a unit of 375: 0.14 %.
  const double inertia = 2;
  const double torque = 50;
  const double n = 1450;
  const double handbook = 4 * inertia * n / (375 * torque / kGravity);
  EXPECT_NEAR(brake_stop(inertia, 2 * kPi * n / 60, torque, 0).time, handbook, 0.5 / 375 * handbook);
}

TEST(Identity, NoLoadStartLeavesTheKineticEnergyInTheRotor) {
  // Without load the slip energy of a start to slip s is J w_s^2 (1 - s^2)/2 whatever the curve (any text on drives;
  // used in Dubey, Ex 6.7).
  const auto motor = MotorCurve::from_catalogue({157.08, 49.4, 151.8, 98.8, 79, 128});
  ASSERT_TRUE(motor.ok());
  const double end = 150;
  const auto start = run_up(0.05, *motor, {0, 150, 0}, end);
  ASSERT_TRUE(start.ok());
  const double slip = 1 - end / 157.08;
  EXPECT_NEAR(start->rotor_heat, 0.5 * 0.05 * 157.08 * 157.08 * (1 - slip * slip), 1e-7);
}

}  // namespace
}  // namespace lobewise::motion
