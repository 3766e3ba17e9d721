#pragma once
// Results of the engine as a report in a terminal.

#include <nlohmann/json.hpp>
#include <string>

#include "apps/cli/terminal.h"

namespace lobewise::cli {

/// `prove`: drive, requirement, findings at a glance, gaps, cautions.
[[nodiscard]] std::string evidence_report(const nlohmann::json& result, const Style& style);
/// One finding opened: answer, checks, notes, working with numbers put in, sources, what is left out.
[[nodiscard]] std::string finding_report(const nlohmann::json& finding, const Style& style);
/// What the machine asks for: its figures, the working, and the usual service factors beside it.
[[nodiscard]] std::string demand_report(const nlohmann::json& result, const Style& style);
/// `size`: the candidates as a matrix of margins, and why the others fell out.
[[nodiscard]] std::string candidates_report(const nlohmann::json& result, const Style& style, std::size_t most);
/// `rate`
[[nodiscard]] std::string rating_report(const nlohmann::json& result, const Style& style);
/// Errors of any call, one block each.
[[nodiscard]] std::string error_report(const nlohmann::json& result, const Style& style, const std::string& file);

}  // namespace lobewise::cli
