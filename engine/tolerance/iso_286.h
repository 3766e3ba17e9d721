#pragma once
// International tolerance grades.

#include "engine/base/result.h"

namespace lobewise::tolerance {

/// Tolerance of a size before the standard rounds it: multiple of the unit i = 0.45 D^(1/3) + 0.001 D (i in µm, D in
/// mm, geometric mean of the limits of the step that the size falls in; 7, 10, 16, 25 i for grades 5 … 8). Source: ISO
/// 286-1 (formula from memory; tests compare with the standard's table).
/// @param diameter  0 < diameter <= 0.5 [m]; a size on the limit of two steps belongs to the lower
/// @param grade     5 … 8
/// @returns [m]. Errors: size or grade out of range.
[[nodiscard]] Result<double> grade_tolerance(double diameter, int grade);

}  // namespace lobewise::tolerance
