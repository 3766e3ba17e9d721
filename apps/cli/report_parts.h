#pragma once
// What the reports of several results share.

#include <nlohmann/json.hpp>
#include <string>

#include "apps/cli/terminal.h"

namespace lobewise::cli {

/// Text of a quantity or a sentence in the chosen units.
[[nodiscard]] std::string shown(const nlohmann::json& both, const Style& style);
[[nodiscard]] std::string heading(const std::string& text, const Style& style);
/// Sentences or texts, each behind a bullet.
[[nodiscard]] std::string sentences(const nlohmann::json& list, const Style& style, std::size_t indent,
                                    const char* bullet);
/// Numbered steps with numbers put in and sources.
[[nodiscard]] std::string working_report(const nlohmann::json& working, const Style& style);
/// The gravest three cautions, for the top; who acts on each and when stands behind it.
[[nodiscard]] std::string first_cautions(const nlohmann::json& cautions, const Style& style);
/// The cautions that `first_cautions` did not print.
[[nodiscard]] std::string further_cautions(const nlohmann::json& cautions, const Style& style);
/// `94 %`, near nothing `-0.3 %`
[[nodiscard]] std::string percent(double share);
/// `0 … 1000 m`
[[nodiscard]] std::string span(const nlohmann::json& low, const nlohmann::json& high, const Style& style);

}  // namespace lobewise::cli
