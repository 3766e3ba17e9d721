#pragma once
// Case files of the elastic disc (docs/theory/elastic.md, `tests/oracle/elastic`): mm, N, MPa, rad, N mm; answered in
// the layout they are asked in.
#include <nlohmann/json_fwd.hpp>

#include "engine/base/result.h"

namespace lobewise::api {

/// Answers a case. Read are `params` (as in mesh cases), `config` (`rb` bore radius, `holes`, `bore` glued | mean |
/// bearing, `pins` whether the output pins take the torque, `rc` rigid core of the pins or null, `brg` {nb, r, phase,
/// cl}, `plane` stress | strain, `h`, lists `f` and `T`) and of each of `points` name, kind (flank | hole | bore) and
/// parameter (t; j and angle; angle); `roller_C_times_E.gamma` if it is there, `offsets` of one unit as made (see
/// `mesh.perturbed`; holes of one disc). The names of an answer's own members are taken for an old result and ignored,
/// any other name is refused. Solved for one disc (T is per disc), each contact for itself, without interpolation.
/// Errors: every missing or wrong input with its path; geometry that cannot exist; loads without an equilibrium.
Result<nlohmann::json> elastic_case(const nlohmann::json& request);

}  // namespace lobewise::api
