#pragma once
// Bars as static SVG: one or two for every name, limits across them.

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace lobewise::handover::chart {

/// SVG of such a chart; empty when it has nothing to show.
[[nodiscard]] std::string bar_chart(const nlohmann::json& chart, const std::string& units, double width);

}  // namespace lobewise::handover::chart
