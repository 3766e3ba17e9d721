#include "engine/heat/transient.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "engine/heat/quick_warm_up.h"

namespace lobewise::heat {
namespace {

constexpr double kAmbient = kZeroCelsius + 20;

Housing linear_housing() {
  Housing housing;
  housing.diameter = 0.2;
  housing.area = 0;
  housing.ambient_temperature = kAmbient;
  housing.oil_conductance = 25;
  housing.flange_conductance = 6;
  housing.oil_capacity = 4000;
  housing.housing_capacity = 14000;
  return housing;
}

Housing real_housing() {
  Housing housing = linear_housing();
  housing.diameter = 0.23;
  housing.area = 0.221;
  return housing;
}

TEST(OneNode, RisesFromNothingToItsEnd) {
  EXPECT_EQ(one_node_rise(300, 6, 18000, 0), 0);
  EXPECT_NEAR(one_node_rise(300, 6, 18000, 3000), 50 * (1 - std::exp(-1.0)), 1e-12);
  EXPECT_NEAR(one_node_rise(300, 6, 18000, 1e7), 50, 1e-12);
}

TEST(OneNode, IntermittentRiseIsPeriodic) {
  const auto rise = intermittent_one_node(300, 6, 18000, 600, 900);
  // Load from the trough must end at the peak.
  const double tau = 3000;
  EXPECT_NEAR(50 + (rise.trough - 50) * std::exp(-600 / tau), rise.peak, 1e-12);
  EXPECT_NEAR(rise.peak * std::exp(-900 / tau), rise.trough, 1e-12);
  const auto always = intermittent_one_node(300, 6, 18000, 600, 0);
  EXPECT_NEAR(always.peak, 50, 1e-10);
}

TEST(TwoNodes, ClosedFormStartsAtRestWithTheHeatInTheOil) {
  const auto start = two_node_linear(300, 25, 6, 4000, 14000, 0);
  EXPECT_NEAR(start.oil, 0, 1e-12);
  EXPECT_NEAR(start.housing, 0, 1e-12);
  const auto soon = two_node_linear(300, 25, 6, 4000, 14000, 1e-2);
  EXPECT_NEAR(soon.oil, 300.0 / 4000 * 1e-2, 1e-7);
  const auto end = two_node_linear(300, 25, 6, 4000, 14000, 1e6);
  EXPECT_NEAR(end.housing, 50, 1e-12);
  EXPECT_NEAR(end.oil, 62, 1e-12);
}

TEST(TwoNodes, WarmUpMeetsTheClosedForm) {
  const std::array<double, 5> times{0, 60, 600, 600, 7200};
  const auto nodes = warm_up(
      linear_housing(), [](double) { return 300.0; }, {kAmbient, kAmbient}, times);
  ASSERT_EQ(nodes.size(), times.size());
  for (std::size_t i = 0; i < times.size(); ++i) {
    const auto exact = two_node_linear(300, 25, 6, 4000, 14000, times[i]);
    EXPECT_NEAR(nodes[i].oil - kAmbient, exact.oil, 2e-6) << times[i];
    EXPECT_NEAR(nodes[i].housing - kAmbient, exact.housing, 2e-6) << times[i];
  }
}

TEST(TwoNodes, WarmUpEndsInTheSteadyState) {
  const auto loss = [](double t) { return 500 - 1.5 * (t - kAmbient); };
  const auto steady = steady_state(real_housing(), loss);
  ASSERT_TRUE(steady);
  const std::array<double, 1> times{2e5};
  const auto end = warm_up(real_housing(), loss, {kAmbient, kAmbient}, times);
  EXPECT_NEAR(end[0].oil, steady->oil_temperature, 1e-4);
  EXPECT_NEAR(end[0].housing, steady->housing_temperature, 1e-4);
}

TEST(QuickWarmUp, FindsTheLargestDifferenceOfTheFullOne) {
  // Losses that thin with the oil: by half every 8 K, and a part that stays.
  for (const double cold : {-25.0, 0.0, 30.0})
    for (const double thick : {200.0, 900.0}) {
      Housing housing = real_housing();
      housing.ambient_temperature = kZeroCelsius + cold;
      const auto loss = [&](double oil) { return 150 + thick * std::exp2((kZeroCelsius + 20 - oil) / 8); };
      std::vector<double> times;
      for (int i = 1; i < 3000; ++i) times.push_back(5.0 * i);
      double exact = 0;
      for (const NodeTemperatures& at :
           warm_up(housing, loss, {housing.ambient_temperature, housing.ambient_temperature}, times))
        exact = std::max(exact, at.oil - at.housing);
      double quick = 0;
      const double hot = kZeroCelsius + 70;
      const std::vector<WarmUpPoint> points = quick_warm_up(housing, LossCurve(loss, housing.ambient_temperature, hot));
      for (const WarmUpPoint& point : points) quick = std::max(quick, point.oil - point.housing);
      EXPECT_LE(quick, 1.05 * exact) << cold << " " << thick;
      EXPECT_GE(quick, 0.98 * exact) << cold << " " << thick;
      EXPECT_NEAR(points.back().oil, steady_state(housing, loss)->oil_temperature, 2) << cold << " " << thick;
    }
}

TEST(TimeToLimit, IsWhereTheWarmUpCrosses) {
  const auto loss = [](double) { return 600.0; };
  const NodeTemperatures cold{kAmbient, kAmbient};
  const auto time = time_to_limit(real_housing(), loss, cold, kLimitOil, 1e5);
  ASSERT_TRUE(time);
  const std::array<double, 1> times{*time};
  EXPECT_NEAR(warm_up(real_housing(), loss, cold, times)[0].oil, kLimitOil, 1e-4);
  EXPECT_FALSE(time_to_limit(
      real_housing(), [](double) { return 100.0; }, cold, kLimitOil, 1e6));
  EXPECT_EQ(time_to_limit(real_housing(), loss, {kLimitOil, kAmbient}, kLimitOil, 1e5), 0.0);
}

TEST(PeriodicDuty, OneNodeClosedForm) {
  // Oil tied to the housing by a very good conductance is one node of both capacities.
  Housing housing = linear_housing();
  housing.oil_conductance = 2e4;
  const std::array<DutyPhase, 2> phases{{{600, 0}, {900, 0}}};
  const auto duty = periodic_duty(housing, phases, [](std::size_t phase, double) { return phase == 0 ? 300.0 : 0.0; });
  ASSERT_TRUE(duty);
  const auto exact = intermittent_one_node(300, 6, 18000, 600, 900);
  EXPECT_NEAR(duty->housing_peak - kAmbient, exact.peak, 0.02);
  EXPECT_NEAR(duty->oil_trough - kAmbient, exact.trough, 0.02);
}

TEST(PeriodicDuty, AgreesWithRunningManyCycles) {
  Housing housing = real_housing();
  const std::array<DutyPhase, 3> phases{{{300, 1.5}, {200, 0}, {100, 1.5}}};
  const auto loss = [](std::size_t phase, double t) {
    return phase == 0 ? 900 - 2 * (t - kAmbient) : phase == 1 ? 0.0 : 1500 - 4 * (t - kAmbient);
  };
  const auto duty = periodic_duty(housing, phases, loss);
  ASSERT_TRUE(duty);
  NodeTemperatures state{kAmbient, kAmbient};
  double peak = 0;
  for (int cycle = 0; cycle < 400; ++cycle) {
    peak = 0;
    for (std::size_t i = 0; i < phases.size(); ++i) {
      Housing now = housing;
      now.air_speed = phases[i].air_speed;
      const std::array<double, 1> end{phases[i].duration};
      state = warm_up(
          now, [&](double t) { return loss(i, t); }, state, end)[0];
      peak = std::max(peak, state.oil);
    }
  }
  EXPECT_NEAR(duty->cycle_start.oil, state.oil, 1e-4);
  EXPECT_NEAR(duty->cycle_start.housing, state.housing, 1e-4);
  EXPECT_NEAR(duty->oil_peak, peak, 1e-3);
}

TEST(PeriodicDuty, ReportsRunaway) {
  const std::array<DutyPhase, 1> phases{{{600, 0}}};
  EXPECT_FALSE(
      periodic_duty(linear_housing(), phases, [](std::size_t, double t) { return 500 + 10 * (t - kAmbient); }));
}

}  // namespace
}  // namespace lobewise::heat
