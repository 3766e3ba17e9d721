#pragma once
// Curves, points and limits as static SVG: every line named at its end, everything else where it stands.

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace lobewise::handover::chart {

/// SVG of such a chart; empty when it has nothing to show.
[[nodiscard]] std::string line_chart(const nlohmann::json& chart, const std::string& units, double width,
                                     double height);

}  // namespace lobewise::handover::chart
