#pragma once
// Two answers of `prove` beside each other.

#include "engine/api/json_io.h"

namespace lobewise::api {

/// judge::moved of two answers of `prove`, each of whatever version: build name, errors, and of findings their id,
/// verdict and checks (name, figure, limit, margin) are read; what an answer lacks counts as not there.
/// {before: {build?, error?}, after: {build?, error?}, turned: [{finding, before?, after?}], checks: [{finding, check,
/// before?: {figure, limit, margin}, after?: {…}}]}; figures in both systems of units.
[[nodiscard]] Json moved(const Json& before, const Json& after);

}  // namespace lobewise::api
