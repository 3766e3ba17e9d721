#pragma once
#include <gtest/gtest.h>

#include <string_view>

#include "engine/base/constants.h"
#include "engine/demand/demand.h"

namespace lobewise::demand {

/// The sources take g = 9.81 m/s2; the engine takes 9.80665. Masses are multiplied by this so that weights agree.
inline constexpr double kSourceGravity = 9.81 / kGravity;
inline constexpr double kRpm = 2 * kPi / 60;
inline constexpr double kDegree = kPi / 180;
inline constexpr double kTonnesPerHour = 1000.0 / 3600;
inline constexpr double kHorsepower = 745.6998715822702;
inline constexpr double kFoot = 0.3048, kInch = 0.0254, kPound = 0.45359237;

inline double value_of(const Demand& demand, std::string_view symbol) {
  for (const WorkingStep& step : demand.working)
    if (step.symbol == symbol) return step.value;
  ADD_FAILURE() << "no step " << symbol;
  return 0;
}

inline Demand get(const Result<Demand>& result) {
  if (result) return *result;
  for (const Error& error : result.errors()) ADD_FAILURE() << error.path << ": " << error.message;
  return {};
}

}  // namespace lobewise::demand
