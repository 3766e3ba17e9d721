#pragma once
// What a build is chosen by: its price together with its motor's.

#include "engine/drive/motor_choice.h"
#include "engine/range/range.h"

namespace lobewise::sizing {

/// Mass of a motor [kg]: `drive::typical_mass` of four poles, which the slower ones outweigh because torque makes the
/// size. Factors 1, 1, 1.5, 2.2 for 2, 4, 6, 8 poles; common practice, no source (one and two sizes larger).
[[nodiscard]] double motor_mass(const drive::Motor& motor);

/// Price of a kilogram of motor over that of a kilogram of the range's reducers. Common practice, no source: motors are
/// made in far larger numbers. It decides between builds whose motors differ, nothing is quoted from it.
inline constexpr Coefficient kMotorPriceShare{0.5, 0.3, 0.8, "common practice, no source"};

/// Mean price of a kilogram of the range's single-stage reducers [money/kg]; 0 for a range without any.
[[nodiscard]] double price_of_mass(const range::Range& range);

}  // namespace lobewise::sizing
