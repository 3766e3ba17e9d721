#pragma once
// Charts of `shock`: what each part of the torque path bears beside what may happen.
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

[[nodiscard]] std::vector<Chart> shock_charts(const Context& context);

/// Angle within which a jam brings the shaft a torque; nothing when no jam does, however hard [rad].
[[nodiscard]] std::optional<double> jam_angle_for(const drive::Drive& drive, const Evaluation& e, double torque);

}  // namespace lobewise::evidence
