// What a warm housing does to skin, what dust and a warm motor do to its temperature.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/heat/hot_surface.h"
#include "engine/heat/housing.h"
#include "engine/heat/steady.h"

namespace lobewise::heat {
namespace {

TEST(HotSurface, SixtyThreeDegreesBurnWhoLeansOnIt) {
  // ISO 13732-1, bare metal (from memory): 65 degC a touch, 56 ten seconds, 51 a minute.
  EXPECT_EQ(burns_within(kZeroCelsius + 66)->contact, 1);
  EXPECT_EQ(burns_within(kZeroCelsius + 63)->contact, 10);
  EXPECT_EQ(burns_within(kZeroCelsius + 56)->contact, 10);
  EXPECT_EQ(burns_within(kZeroCelsius + 55.9)->contact, 60);
  EXPECT_EQ(burns_within(kZeroCelsius + 51)->contact, 60);
  EXPECT_EQ(burns_within(kZeroCelsius + 49)->contact, 600);
  EXPECT_EQ(burns_within(kZeroCelsius + 42), nullptr);
}

TEST(HotSurface, LongerContactBurnsAtLessHeat) {
  for (std::size_t i = 1; i < kBurnThresholds.size(); ++i) {
    EXPECT_GT(kBurnThresholds[i].contact, kBurnThresholds[i - 1].contact);
    EXPECT_LT(kBurnThresholds[i].temperature, kBurnThresholds[i - 1].temperature);
  }
}

Housing housing() {
  Housing h;
  h.diameter = 0.3;
  h.area = 0.4;
  h.ambient_temperature = kZeroCelsius + 40;
  h.air_speed = 1.5;
  h.oil_conductance = 57;
  h.flange_conductance = 7.4;
  return h;
}

double oil_of(const Housing& h) {
  const auto state = steady_state(h, [](double) { return 350.0; });
  EXPECT_TRUE(state.has_value());
  return state ? state->oil_temperature : 0;
}

TEST(Flange, OneTemperatureStandsForBaseAndMotor) {
  // G_b (T_s - T_a) + G_m (T_s - T_m) = G (T_s - T_f) for any housing temperature.
  const double ambient = 313.15, share = 0.5, rise = 40, losses = 0.8, G = 7.4;
  const double counterpart = counterpart_temperature(ambient, share, rise, losses);
  EXPECT_DOUBLE_EQ(counterpart, ambient + 16);
  for (const double surface : {320.0, 350.0, 300.0}) {
    const double two = G * (1 - share) * (surface - ambient) + G * share * (surface - (ambient + rise * losses));
    EXPECT_NEAR(two, G * (surface - counterpart), 1e-9);
  }
}

TEST(Flange, AWarmMotorWarmsTheReducer) {
  Housing cold = housing(), warm = housing();
  warm.flange_temperature = cold.ambient_temperature + 20;
  EXPECT_GT(oil_of(warm), oil_of(cold));
  // By its part of all the conductances at most.
  EXPECT_LT(oil_of(warm) - oil_of(cold), 20);
}

TEST(Dust, StandsInSeriesWithTheAir) {
  Housing h = housing();
  h.dust_resistance = 0.03;
  const double surface = kZeroCelsius + 70;
  const HeatFlow flow = heat_flow(h, surface);
  // The layer passes what its own outside sheds: that outside, without a layer, sheds the same.
  const double outside = surface - h.dust_resistance * (flow.convection + flow.radiation) / h.area;
  Housing bare = h;
  bare.dust_resistance = 0;
  const HeatFlow shed = heat_flow(bare, outside);
  EXPECT_NEAR(shed.convection, flow.convection, 1e-6 * flow.convection);
  EXPECT_NEAR(shed.radiation, flow.radiation, 1e-6 * flow.radiation);
  EXPECT_LT(outside, surface);
  EXPECT_GT(outside, h.ambient_temperature);
}

TEST(Dust, WarmsTheOilTheThickerItLies) {
  double last = oil_of(housing());
  for (const double resistance : {0.001, 0.01, 0.03, 0.1}) {
    Housing h = housing();
    h.dust_resistance = resistance;
    const double now = oil_of(h);
    EXPECT_GT(now, last);
    last = now;
  }
}

}  // namespace
}  // namespace lobewise::heat
