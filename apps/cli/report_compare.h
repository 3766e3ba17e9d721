#pragma once
// `compare` as a report in a terminal.

#include <nlohmann/json.hpp>
#include <string>

#include "apps/cli/terminal.h"

namespace lobewise::cli {

/// The drive offered beside the drive in service: figures on the same duty, fit, money, and who is better where.
[[nodiscard]] std::string compare_report(const nlohmann::json& result, const Style& style);

}  // namespace lobewise::cli
