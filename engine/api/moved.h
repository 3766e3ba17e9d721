#pragma once
// Two answers of `prove` beside each other.

#include "engine/api/json_io.h"

namespace lobewise::api {

/// judge::moved of two answers of `prove`, each of whatever version: only `build_name`, `findings[].{id, verdict,
/// checks[].{name, figure, limit, margin}}` and `errors` are read, and what they lack counts as not there.
/// {before: {build?, error?}, after: {build?, error?}, turned: [{finding, before?, after?}], checks: [{finding, check,
/// before?: {figure, limit, margin}, after?: {…}}]}; figures in both systems of units.
[[nodiscard]] Json moved(const Json& before, const Json& after);

}  // namespace lobewise::api
