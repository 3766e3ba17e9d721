#include "engine/motion/motor_curve.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::motion {
namespace {

constexpr MotorCatalogue kMotor{157.08, 49.4, 151.8, 98.8, 79, 128};

MotorCurve curve() { return *MotorCurve::from_catalogue(kMotor); }

TEST(MotorCurve, MeetsEveryPointOfTheCatalogue) {
  const MotorCurve motor = curve();
  EXPECT_DOUBLE_EQ(motor.torque(0), 98.8);
  EXPECT_NEAR(motor.torque(motor.pull_up_speed()), 79, 1e-12);
  EXPECT_NEAR(motor.torque(motor.breakdown_speed()), 128, 1e-12);
  EXPECT_NEAR(motor.torque(151.8), 49.4, 1e-10);
  EXPECT_EQ(motor.torque(157.08), 0);
  EXPECT_NEAR(motor.torque(2 * 157.08 - 151.8), -49.4, 1e-10);
  EXPECT_DOUBLE_EQ(motor.torque(-50), 98.8);
}

TEST(MotorCurve, HasNoStepAndNoKink) {
  const MotorCurve motor = curve();
  for (const double corner : {motor.pull_up_speed(), motor.breakdown_speed()}) {
    const double h = 1e-5;
    EXPECT_NEAR(motor.torque(corner - h), motor.torque(corner + h), 1e-8);
    const double left = (motor.torque(corner) - motor.torque(corner - h)) / h;
    const double right = (motor.torque(corner + h) - motor.torque(corner)) / h;
    EXPECT_NEAR(left, right, 1e-3);
  }
}

TEST(MotorCurve, BreakdownIsTheGreatestTorque) {
  const MotorCurve motor = curve();
  for (int i = 0; i <= 1000; ++i) EXPECT_LE(motor.torque(0.157 * i), 128 + 1e-12);
}

TEST(MotorCurve, SpeedIsTheInverseOfTorqueAboveBreakdown) {
  const MotorCurve motor = curve();
  EXPECT_DOUBLE_EQ(motor.speed_at(0), 157.08);
  EXPECT_NEAR(motor.speed_at(49.4), 151.8, 1e-9);
  EXPECT_NEAR(motor.speed_at(128), motor.breakdown_speed(), 1e-9);
  for (double torque = 1; torque < 128; torque += 1) EXPECT_NEAR(motor.torque(motor.speed_at(torque)), torque, 1e-9);
}

TEST(InverterTorque, KeepsTheSlipAndTheLimit) {
  const MotorCurve motor = curve();
  // At half the frequency the same speed below the field gives the same torque.
  EXPECT_NEAR(inverter_torque(motor, 157.08 / 2, 157.08 / 2 - 5.28, 100), 49.4, 1e-9);
  EXPECT_DOUBLE_EQ(inverter_torque(motor, 157.08, 140, 74.1), 74.1);
  EXPECT_DOUBLE_EQ(inverter_torque(motor, 140, 157.08, 74.1), -74.1);
}

TEST(MotorCurve, RefusesContradictionsAndNamesTheField) {
  const auto path_of = [](MotorCatalogue catalogue) {
    const auto motor = MotorCurve::from_catalogue(catalogue);
    return motor.ok() ? std::string("accepted") : motor.errors()[0].path;
  };
  auto c = kMotor;
  c.rated_speed = 160;
  EXPECT_EQ(path_of(c), "motor.rated_speed");
  c = kMotor;
  c.breakdown_torque = 40;
  EXPECT_EQ(path_of(c), "motor.breakdown_torque");
  c = kMotor;
  c.pull_up_torque = 130;
  EXPECT_EQ(path_of(c), "motor.pull_up_torque");
  c = kMotor;
  c.locked_rotor_torque = -1;
  EXPECT_EQ(path_of(c), "motor.locked_rotor_torque");
  c = kMotor;
  c.rated_speed = 120;  // slip 0.24, breakdown beyond standstill
  EXPECT_EQ(path_of(c), "motor.rated_speed");
  c = kMotor;
  c.pull_up_share = 1;
  EXPECT_EQ(path_of(c), "motor.pull_up_share");
  c = {};
  EXPECT_EQ(MotorCurve::from_catalogue(c).errors().size(), 6u) << "all errors at once";
}

}  // namespace
}  // namespace lobewise::motion
