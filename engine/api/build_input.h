#pragma once
// The build that a drawing is asked of, and the geometry of its stages as JSON.

#include <optional>

#include "engine/api/json_io.h"
#include "engine/drive/build.h"

namespace lobewise::api {

/// The build that `build` of a request names, in its own range or in the demo range.
/// @param own  filled when the request brings a range; must outlive the build
/// Errors: as `read_range`; no such frame, ratio or pair.
[[nodiscard]] Result<drive::Build> named_build(const Json& input, std::optional<range::Range>& own);

/// Geometry of a stage with what follows from it: holes, rollers, bore, bearing, pins [m].
[[nodiscard]] Json geometry_json(const range::Stage& stage);

}  // namespace lobewise::api
