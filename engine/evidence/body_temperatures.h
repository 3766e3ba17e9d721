#pragma once
// Temperatures of disc and ring between which a unit on this machine works.

#include "engine/drive/running_play.h"
#include "engine/evidence/evaluation.h"

namespace lobewise::evidence {

/// Settled at the warmest surroundings. Where heat finds no balance, at the lubricant's limit with the losses there.
[[nodiscard]] drive::BodyTemperatures warm_bodies(const drive::Drive& drive, const Evaluation& e);
/// At the coldest surroundings before a start.
[[nodiscard]] drive::BodyTemperatures cold_bodies(const drive::Drive& drive, const drive::Coefficients& c);

}  // namespace lobewise::evidence
