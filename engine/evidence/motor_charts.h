#pragma once
// Charts of the motor: its torque over its speed beside what the machine asks of it, and a start in time.

#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// A start longer than this heats a cage motor badly [s]. Common practice, no source.
inline constexpr double kLongStart = 10;

/// Torque at the motor shaft over its speed, as the simulated start has it (motion/motor_curve.h): the curve of a motor
/// of today with its way of starting, the least that its standard asks, the machine through the reducer at full load.
/// Then the simulated start, where there is one. Empty without a motor.
[[nodiscard]] std::vector<Chart> motor_charts(const Context& context);

}  // namespace lobewise::evidence
