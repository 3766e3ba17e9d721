#pragma once
// International tolerance grades.

#include "engine/base/result.h"

namespace lobewise::tolerance {

/// Tolerance of a size before the standard rounds it: 7, 10, 16, 25 times the unit for grades 5 … 8. The unit is
/// i = 0.45 D^(1/3) + 0.001 D up to 500 mm, I = 0.004 D + 2.1 above (µm; D in mm, geometric mean of the limits of the
/// step that the size falls in). Source: ISO 286-1 (formulas from memory; tests compare with the standard's table).
/// @param diameter  0 < diameter <= 3.15 [m]; a size on the limit of two steps belongs to the lower
/// @param grade     5 … 8
/// @returns [m]. Errors: size or grade out of range.
[[nodiscard]] Result<double> grade_tolerance(double diameter, int grade);

}  // namespace lobewise::tolerance
