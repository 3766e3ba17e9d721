#pragma once
// The outline of a build as simple bodies, for the STEP writer.

#include "apps/handover/source.h"

namespace lobewise::handover {

/// {name, date, parts: [{name, add: [shape], cut: [shape]}]}, millimetres; a shape is {box: {low, high}} or
/// {cylinder: {from, direction, radius, length}}. x runs from the shoulder of the output shaft to the motor, z up.
[[nodiscard]] Json step_plan(const Source& source);

}  // namespace lobewise::handover
