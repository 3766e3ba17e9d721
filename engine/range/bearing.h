#pragma once
// What the life model needs to know of a bearing of a range: as stated, else from its rolling elements.
#include <string_view>

#include "engine/base/result.h"
#include "engine/range/range.h"
#include "engine/strength/bearing_life.h"

namespace lobewise::range {

/// True for bearings whose elements are balls.
[[nodiscard]] bool has_balls(BearingKind kind);

/// Contact angle of a tapered or cylindrical roller bearing from its limit e = 1.5 tan(alpha); 0 without e [rad].
/// Source: ISO 281, factors of radial roller bearings (from memory).
[[nodiscard]] double contact_angle(const Bearing& bearing);

/// Largest radius at which the rolling elements touch the outer raceway: (D_pw + D)/2, or half the outside diameter
/// when the elements are not known [m].
[[nodiscard]] double outer_raceway_radius(const Bearing& bearing);

/// Ratings for the life model. Stated capacities rule; what is not stated follows from the rolling elements
/// (`strength::roller_rating`). C_u comes from C_0: C_0/8.2 for rollers, C_0/22 for balls, smaller above D_pw = 100 mm
/// (ISO 281 annex B, from memory).
/// Errors (data): a capacity neither stated nor computable; balls need both stated.
[[nodiscard]] Result<strength::RollingBearing> rolling_bearing(const Bearing& bearing,
                                                               std::string_view path = "bearing");

}  // namespace lobewise::range
