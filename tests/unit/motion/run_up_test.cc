#include "engine/motion/run_up.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::motion {
namespace {

constexpr MotorCatalogue kMotor{157.08, 49.4, 151.8, 98.8, 79, 128};

TEST(RunUp, KlossPartMeetsItsClosedForm) {
  // From breakdown speed on the curve is pure Kloss: the difference of two run-ups is the difference of closed forms.
  const auto motor = *MotorCurve::from_catalogue(kMotor);
  const double J = 0.05;
  const SpeedLoad none{0, 150, 0};
  const double far = run_up(J, motor, none, 155)->time;
  const double near = run_up(J, motor, none, motor.breakdown_speed())->time;
  const double s_b = motor.breakdown_slip();
  const double exact =
      kloss_run_up_time(J, 157.08, 128, s_b, 1 - 155 / 157.08) - kloss_run_up_time(J, 157.08, 128, s_b, s_b);
  EXPECT_NEAR(far - near, exact, 1e-10);
}

TEST(RunUp, MeetsAFineSumWithALoad) {
  const auto motor = *MotorCurve::from_catalogue(kMotor);
  const SpeedLoad fan{45, 151.8, 2};
  const auto result = run_up(0.08, motor, fan, 150);
  ASSERT_TRUE(result.ok());
  double time = 0;
  double heat = 0;
  constexpr int kParts = 400000;
  for (int i = 0; i < kParts; ++i) {
    const double w = 150.0 * (i + 0.5) / kParts;
    const double dt = 0.08 * 150.0 / kParts / (motor.torque(w) - 45 * std::pow(w / 151.8, 2));
    time += dt;
    heat += dt * motor.torque(w) * (157.08 - w);
  }
  EXPECT_NEAR(result->time, time, 1e-8);
  EXPECT_NEAR(result->rotor_heat, heat, 1e-6 * heat);
}

TEST(RunUp, ReducedTorqueTakesLongerAndWithoutLoadInProportion) {
  const auto motor = *MotorCurve::from_catalogue(kMotor);
  const SpeedLoad none{0, 150, 0};
  EXPECT_NEAR(run_up(0.05, motor, none, 150, 1.0 / 3)->time, 3 * run_up(0.05, motor, none, 150)->time, 1e-9);
}

TEST(RunUp, SaysWhereTheMotorSticks) {
  const auto motor = *MotorCurve::from_catalogue(kMotor);
  const auto stuck = run_up(0.05, motor, {85, 150, 0}, 150);  // above pull-up torque
  ASSERT_FALSE(stuck.ok());
  EXPECT_EQ(stuck.errors()[0].kind, ErrorKind::model);
  EXPECT_EQ(stuck.errors()[0].path, "motor");
  EXPECT_FALSE(run_up(0.05, motor, {49.4, 150, 0}, 156).ok()) << "the final speed lies beyond the balance";
}

TEST(BrakeStop, EnergiesAddUp) {
  const BrakeStop stop = brake_stop(0.05, 150, 60, 15);
  EXPECT_NEAR(stop.time, 0.1, 1e-15);
  EXPECT_NEAR(stop.angle, 7.5, 1e-13);
  EXPECT_NEAR(stop.heat + 15 * stop.angle, 0.5 * 0.05 * 150 * 150, 1e-10);
}

}  // namespace
}  // namespace lobewise::motion
