#pragma once
// Play between lobes and rollers of a build when it runs: the disc as warm as the oil that washes it, the ring as its
// housing. Theory: docs/theory/mesh.md.

#include <vector>

#include "engine/contact/thermal_play.h"
#include "engine/drive/drive.h"
#include "engine/heat/quick_warm_up.h"

namespace lobewise::drive {

struct BodyTemperatures {
  double disc = 0;  ///< and rollers and eccentric [K]
  double ring = 0;  ///< [K]
};

/// dR of a stage at these temperatures [m].
[[nodiscard]] double radius_offset_at(const range::Stage& stage, const BodyTemperatures& at, const Coefficients& c);
/// Least play of the stages of a build [m].
[[nodiscard]] double least_play(const Build& build, const BodyTemperatures& at, const Coefficients& c);
/// The stage in which it is least, counted from the input.
[[nodiscard]] std::size_t tightest_stage(const Build& build, const BodyTemperatures& at, const Coefficients& c);

/// Temperatures of a disc and its ring with the oil and the housing at these [K].
[[nodiscard]] BodyTemperatures bodies(double oil, double housing, const Coefficients& c);

/// From the coldest surroundings with full load, until it settles. The motor cannot lose more in the unit than it gives
/// at most.
/// @param hottest  up to where losses are asked for at least [K]
[[nodiscard]] std::vector<heat::WarmUpPoint> cold_warm_up(const Drive& drive, double hottest, const Coefficients& c);

}  // namespace lobewise::drive
