#pragma once
// Charts of the speed at the driven shaft: what the ratios of this frame would give, and how it moves with the load.

#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// Speeds that this motor gives with the ratios of this frame, beside the speed asked for and its tolerance; then the
/// speed over the load by the motor's own curve (motion/motor_curve.h), where there is a motor.
[[nodiscard]] std::vector<Chart> speed_charts(const drive::Drive& drive, const Evaluation& e);

}  // namespace lobewise::evidence
