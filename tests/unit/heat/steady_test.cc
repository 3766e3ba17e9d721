#include "engine/heat/steady.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/heat/convection.h"
#include "engine/heat/transient.h"

namespace lobewise::heat {
namespace {

Housing reducer() {
  Housing housing;
  housing.diameter = 0.23;
  housing.area = 0.221;
  housing.ambient_temperature = kZeroCelsius + 20;
  housing.air_speed = 1.5;
  housing.oil_capacity = 6000;
  housing.housing_capacity = 14000;
  return housing;
}

Housing conduction_only() {
  Housing housing = reducer();
  housing.area = 0;
  housing.oil_conductance = 25;
  housing.flange_conductance = 6;
  return housing;
}

TEST(Convection, StillAirHasNoForcedPartAndColderSurfacesTakeHeat) {
  const Convection still = convection(0.2, 343.15, 293.15, 0, 0);
  EXPECT_EQ(still.forced, 0);
  EXPECT_DOUBLE_EQ(still.combined, still.natural);
  Housing housing = reducer();
  const HeatFlow flow = heat_flow(housing, housing.ambient_temperature - 10);
  EXPECT_LT(flow.convection, 0);
  EXPECT_LT(flow.radiation, 0);
  EXPECT_LT(flow.flange, 0);
}

TEST(Convection, AltitudeThinsTheAir) {
  // Natural convection follows rho^(1/2..2/3), forced rho^(0.5..0.8), conductivity does not change.
  const Convection low = convection(0.2, 343.15, 293.15, 2, 0);
  const Convection high = convection(0.2, 343.15, 293.15, 2, 2000);
  const double ratio = std::pow(1 - 2.25577e-5 * 2000, 5.25588);
  EXPECT_GT(high.natural, low.natural * std::pow(ratio, 0.67));
  EXPECT_LT(high.natural, low.natural * std::pow(ratio, 0.45));
  EXPECT_GT(high.forced, low.forced * std::pow(ratio, 0.8));
  EXPECT_LT(high.forced, low.forced * std::pow(ratio, 0.5));
}

TEST(Steady, ConstantLossThroughConductionIsTheSumOfResistances) {
  const auto state = steady_state(conduction_only(), [](double) { return 300.0; });
  ASSERT_TRUE(state);
  EXPECT_NEAR(state->oil_temperature, kZeroCelsius + 20 + 300.0 / 25 + 300.0 / 6, 1e-9);
  EXPECT_NEAR(state->housing_temperature, kZeroCelsius + 20 + 300.0 / 6, 1e-9);
}

TEST(Steady, LinearLossMeetsItsClosedForm) {
  const double resistance = 1.0 / 25 + 1.0 / 6;
  for (const double slope : {-3.0, 0.0, 2.0}) {
    const auto state = steady_state(conduction_only(), [&](double t) { return 300 + slope * (t - kZeroCelsius - 20); });
    ASSERT_TRUE(state);
    EXPECT_NEAR(state->oil_temperature, kZeroCelsius + 20 + 300 * resistance / (1 - slope * resistance), 1e-8);
  }
}

TEST(Steady, RadiationAloneGivesTheFourthRoot) {
  Housing housing = reducer();
  housing.fin_factor = 0;
  housing.flange_conductance = 0;
  const auto state = steady_state(housing, [](double) { return 100.0; });
  ASSERT_TRUE(state);
  const double fourth = 100 / (0.9 * kStefanBoltzmann * 0.221) + std::pow(housing.ambient_temperature, 4);
  EXPECT_NEAR(state->housing_temperature, std::pow(fourth, 0.25), 1e-8);
}

TEST(Steady, HotMotorFlangeAndSunHeatAReducerThatLosesNothing) {
  Housing housing = reducer();
  housing.flange_temperature = kZeroCelsius + 70;
  housing.sun_power = 40;
  const auto state = steady_state(housing, [](double) { return 0.0; });
  ASSERT_TRUE(state);
  EXPECT_GT(state->housing_temperature, housing.ambient_temperature + 5);
  EXPECT_LT(state->flow.flange, 0);
  EXPECT_NEAR(state->flow.net(), 0, 1e-7);
}

TEST(Steady, ThickColdOilDoesNotUpsetTheSearch) {
  // 3 kW at -10 C would put the housing below absolute zero if the balance were taken literally.
  Housing housing = reducer();
  housing.ambient_temperature = kZeroCelsius - 10;
  const auto state = steady_state(housing, [](double t) { return 3000 * std::exp(-(t - 263.15) / 20) + 300; });
  ASSERT_TRUE(state);
  EXPECT_NEAR(state->flow.net(), state->loss, 1e-6);
  EXPECT_GT(state->oil_temperature, kZeroCelsius + 20);
}

TEST(Steady, TakesTheLowestOfSeveralEquilibria) {
  // Loss rises steeply above 120 C: a stable state near 60 C, an unstable one above it.
  const auto runaway = [](double t) { return 300 + 40 * std::exp((t - kZeroCelsius - 120) / 10); };
  const auto state = steady_state(conduction_only(), runaway);
  ASSERT_TRUE(state);
  EXPECT_NEAR(state->oil_temperature, kZeroCelsius + 82.2, 1);
  const auto excess = [&](double t) {
    const double p = runaway(t);
    return heat_flow(conduction_only(), t - p / 25).net() - p;
  };
  EXPECT_LT(excess(state->oil_temperature - 0.1), 0);
  EXPECT_GT(excess(state->oil_temperature + 0.1), 0);
  EXPECT_LT(excess(kZeroCelsius + 160), 0) << "beyond the upper crossing the loss wins again";
}

TEST(Steady, ReportsRunawayAsNoState) {
  EXPECT_FALSE(steady_state(conduction_only(), [](double t) { return 500 + 10 * (t - 293.15); }));
}

TEST(ThermalTorque, JustMeetsTheLimit) {
  const Housing housing = reducer();
  const auto loss = [](double torque, double t) { return 80 + 0.8 * torque + 0.5 * (kLimitOil - t); };
  const auto limit = thermal_torque(housing, loss, kLimitOil, 1000);
  ASSERT_TRUE(limit);
  EXPECT_TRUE(limit->limited);
  EXPECT_NEAR(limit->state.oil_temperature, kLimitOil, 1e-3);
  EXPECT_FALSE(steady_state(
      housing, [&](double t) { return loss(limit->torque + 0.01, t); }, kLimitOil));
  const auto strong = thermal_torque(housing, loss, kLimitOil, 10);
  ASSERT_TRUE(strong);
  EXPECT_FALSE(strong->limited);
  EXPECT_EQ(strong->torque, 10);
  EXPECT_FALSE(thermal_torque(
      housing, [](double, double) { return 5000.0; }, kLimitOil, 10));
}

}  // namespace
}  // namespace lobewise::heat
