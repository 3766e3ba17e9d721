#pragma once
// The invented demo range: an exercise in plausible proportions, nobody's product. Every figure follows from the rules
// at the head of demo_range.cc; range/README.md tells them in words.
#include "engine/range/range.h"

namespace lobewise::range {

/// Derives the demo range: frames `ring-80` to `ring-530`, named after the diameter of their roller pitch circle in
/// millimetres, single-stage ratios 7 to 99 as far as a frame's size allows, and two-stage units. Deterministic.
/// Postcondition (tested): `check` finds nothing.
[[nodiscard]] Range make_demo_range();

/// `make_demo_range()`, made once.
[[nodiscard]] const Range& demo_range();

}  // namespace lobewise::range
