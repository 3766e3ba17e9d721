#pragma once
// `offsets` of a case: one unit as it was made.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "engine/base/result.h"
#include "engine/contact/part_offsets.h"

namespace lobewise::api {

/// Reads `offsets` of a case file [mm], see `contact::PartOffsets`. A list that is not there stands for zeros. Errors:
/// an unknown name, lists of the wrong length, values that are no numbers or too large; each with its path.
Result<contact::PartOffsets> read_offsets(const nlohmann::json& offsets, const std::string& path,
                                          const mechanism::StageGeometry& stage);

}  // namespace lobewise::api
