#pragma once
// Case files of the mesh calculation: one stage (`params` and lists) or two stages in series. They are written in mm,
// N, MPa, rad and N mm, and answered in the layout they were asked in (docs/theory/mesh.md, `tests/oracle/cases`).
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "engine/base/result.h"

namespace lobewise::api {

/// Finds the case of a stage by its name, for two-stage cases.
using StageLookup = std::function<Result<nlohmann::json>(const std::string& name)>;

/// Answers a case. Only the inputs are read: `params` and in each list `t`, `phi`, `T`; the names of an answer's own
/// members are taken for an old result and ignored, any other name is refused. Lists that are not asked for are not
/// answered. A two-stage request has `stage1`, `stage2` (names), `T2`, `phis`, optional `te1`, `te2`; its stages come
/// from its own member `stages` ({name: params or case}) or else from `lookup`, which may be empty. Errors: every
/// missing or wrong input with its path; geometry that cannot exist; loads without an equilibrium.
Result<nlohmann::json> mesh_case(const nlohmann::json& request, const StageLookup& lookup = {});

}  // namespace lobewise::api
