#include "apps/handover/chart_svg.h"

#include <nlohmann/json.hpp>

#include "apps/handover/bar_chart.h"
#include "apps/handover/line_chart.h"

namespace lobewise::handover {

std::string chart_svg(const nlohmann::json& chart, const std::string& units, double width, double height) {
  return chart["bars"].get<bool>() ? chart::bar_chart(chart, units, width)
                                   : chart::line_chart(chart, units, width, height);
}

}  // namespace lobewise::handover
