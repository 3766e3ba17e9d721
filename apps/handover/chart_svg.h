#pragma once
// A chart of docs/api.md as static SVG for print: no script, no colour that carries meaning alone, series named at
// their lines, limits dashed.

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace lobewise::handover {

/// @param chart   as in docs/api.md
/// @param units   `si` or `us`
/// @param width   of the drawing [pt], >= 150
/// @param height  [pt], >= 100; charts of bars take what their bars need
[[nodiscard]] std::string chart_svg(const nlohmann::json& chart, const std::string& units, double width, double height);

}  // namespace lobewise::handover
