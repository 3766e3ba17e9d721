// Truths that hold whatever the housing: balance, and more of what cools is never hotter.
#include "engine/heat/steady.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace lobewise::heat {
namespace {

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

Housing any_housing() {
  Housing housing;
  housing.diameter = within(0.05, 0.8);
  housing.area = within(0.01, 2);
  housing.emissivity = within(0.1, 1);
  housing.ambient_temperature = kZeroCelsius + within(-30, 50);
  housing.air_speed = within(0, 5);
  housing.altitude = within(0, 3000);
  housing.oil_conductance = within(10, 100);
  housing.flange_conductance = within(0, 10);
  housing.fin_factor = within(1, 2);
  housing.sun_power = within(0, 50);
  return housing;
}

RC_GTEST_PROP(HeatProperty, WhatIsLostIsShed, ()) {
  const Housing housing = any_housing();
  const double cold = within(10, 500);
  const double fall = within(0, 100);
  const auto loss = [&](double t) {
    return cold * (0.3 + 0.7 * std::exp(-(t - housing.ambient_temperature) / (5 + fall)));
  };
  const auto state = steady_state(housing, loss);
  RC_PRE(state.has_value());
  RC_ASSERT(std::abs(state->flow.net() - state->loss) < 1e-6 * (1 + state->loss));
  RC_ASSERT(std::abs(state->oil_temperature - state->housing_temperature - state->loss / housing.oil_conductance) <
            1e-9);
}

RC_GTEST_PROP(HeatProperty, MoreCoolingIsNeverHotter, ()) {
  const Housing housing = any_housing();
  const double power = within(10, 500);
  const auto loss = [&](double) { return power; };
  const auto before = steady_state(housing, loss);
  RC_PRE(before.has_value());
  Housing better = housing;
  const int change = *rc::gen::inRange(0, 6);
  if (change == 0) better.air_speed += 1;
  if (change == 1) better.emissivity = 1;
  if (change == 2) better.oil_conductance *= 1.5;
  if (change == 3) better.fin_factor += 0.3;
  if (change == 4) better.sun_power = 0;
  if (change == 5) better.altitude = 0;
  const auto after = steady_state(better, loss);
  RC_ASSERT(after.has_value());
  RC_ASSERT(after->oil_temperature <= before->oil_temperature + 1e-8);
}

}  // namespace
}  // namespace lobewise::heat
