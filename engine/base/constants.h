#pragma once
// Physical constants, each with its source.
#include <numbers>

namespace lobewise {

inline constexpr double kPi = std::numbers::pi;
/// Standard acceleration of gravity [m/s2]; defined value, 3rd CGPM 1901.
inline constexpr double kGravity = 9.80665;
/// Stefan-Boltzmann constant [W/(m2 K4)]; CODATA 2018 (exact after the 2019 SI).
inline constexpr double kStefanBoltzmann = 5.670374419e-8;
/// 0 degC in kelvin; definition of the Celsius temperature.
inline constexpr double kZeroCelsius = 273.15;

}  // namespace lobewise
