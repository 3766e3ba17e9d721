#pragma once
// `compare` as a report in a terminal.

#include <nlohmann/json.hpp>
#include <string>

#include "apps/cli/terminal.h"

namespace lobewise::cli {

/// The candidate beside the drive in service: figures on the same axes, fit, case, who is better at what.
/// @param all  also the derivations and what was taken because nobody said it
[[nodiscard]] std::string compare_report(const nlohmann::json& result, const Style& style, bool all);

}  // namespace lobewise::cli
