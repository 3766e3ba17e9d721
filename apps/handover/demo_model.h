#pragma once
// A stage as parts for a 3-D printer: ring with rollers, discs, output flange with pins, eccentric, crank. It shows how
// the stage works; it carries nothing.

#include <vector>

#include "apps/handover/solid.h"
#include "apps/handover/source.h"

namespace lobewise::handover {

/// Parts in millimetres, each standing on z = 0, side by side.
/// @param stage      of `mechanism_outline`, asked with the clearance at full size (clearance / scale)
/// @param size       outside diameter of the ring [mm]
/// @param clearance  gap between moving parts of the print [mm]
/// Errors: rollers that would stand free of the ring, parts too small to be printed.
[[nodiscard]] Result<std::vector<Solid>> demo_parts(const Json& stage, double size, double clearance);

/// Scale of the model: model length over real length.
[[nodiscard]] double demo_scale(const Json& geometry, double size);

/// A 3MF package (3MF core specification 1.x): one object a part, all on one plate.
/// Errors: the package cannot be made.
[[nodiscard]] Result<std::string> model_3mf(const std::vector<Solid>& parts, const std::string& title);

}  // namespace lobewise::handover
