#pragma once
// The scale of points in a mapping file, where people may change it.

#include <nlohmann/json.hpp>
#include <string>

#include "engine/base/result.h"
#include "engine/judge/line.h"

namespace lobewise::survey {

/// The `ranking:` block of a mapping file.
[[nodiscard]] std::string ranking_yaml(const judge::RankingScale& scale);
[[nodiscard]] Result<judge::RankingScale> read_ranking(const nlohmann::json& json);

}  // namespace lobewise::survey
