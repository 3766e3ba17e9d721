#pragma once
// What the machine asks beyond torque and speed, and the usual practice beside it.

#include "engine/api/json_io.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::api {

/// {figures: [{id, label, value, low, high}], shock_class, shock_reason, jam: {text, sudden, angle, slip_torque?},
/// practice?: {low, high, computed, agreement, explanation, working}}; shapes: docs/api.md.
[[nodiscard]] Json machine_json(const enquiry::Requirement& requirement);

}  // namespace lobewise::api
