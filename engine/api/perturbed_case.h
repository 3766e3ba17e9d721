#pragma once
// One stage whose parts stand where they were made: gaps, play and forces of a single unit.
#include <nlohmann/json_fwd.hpp>

#include "engine/base/result.h"

namespace lobewise::api {

/// Reads `params` as in mesh cases, `offsets` (see `read_offsets`), `phi` (crank angles) and `T` (on the output, all
/// discs together); mm, N, rad, N mm. Answers `rows`, one a crank angle: `unloaded` by disc (`gap` in the ideal pose;
/// `beta_minus`, `beta_plus`: rotation of that disc alone, clockwise and counter-clockwise, to the first touch; signs
/// turn where it starts pressed), `beta_o`, `discs` (`F`, `Q`, `torque`) at level l2. Errors: every missing, wrong or
/// unknown input with its path; loads without an equilibrium.
Result<nlohmann::json> perturbed_case(const nlohmann::json& request);

}  // namespace lobewise::api
