#include "apps/cli/report_compare.h"

#include <fmt/format.h>

#include <vector>

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

std::string shown(const Json& both, const Style& style) { return both.value(style.units, std::string("–")); }

/// `nominal (low … high)` of a figure with a range, `–` when there is none.
std::string ranged(const Json& axis, const char* side, const Style& style) {
  if (!axis.contains(side)) return "–";
  const Json& figure = axis[side];
  const std::string nominal = shown(figure["nominal"], style), low = shown(figure["low"], style),
                    high = shown(figure["high"], style);
  return low == high ? nominal : fmt::format("{} ({} … {})", nominal, low, high);
}

std::string heading(const std::string& text, const Style& style) { return '\n' + style.bold(text) + '\n'; }

std::string axes_report(const Json& axes, const Style& style) {
  std::vector<std::vector<std::string>> rows{{"", "offered", "in service", "better"}};
  for (const Json& axis : axes) {
    const std::string better = axis["better"];
    rows.push_back({axis["question"], ranged(axis, "candidate", style), ranged(axis, "incumbent", style),
                    better == "candidate"   ? "offered"
                    : better == "incumbent" ? "in service"
                                            : better});
  }
  return table(rows, {}, style);
}

std::string fit_report(const Json& fit, const Style& style) {
  std::vector<std::vector<std::string>> rows{{"", "old", "new", "", "work that follows"}};
  for (const Json& line : fit["lines"])
    rows.push_back({line["label"], line.contains("before") ? shown(line["before"], style) : "not said",
                    line.contains("after") ? shown(line["after"], style) : "–", line["verdict"], line["work"]});
  return table(rows, {1, 2}, style);
}

}  // namespace

std::string compare_report(const Json& result, const Style& style) {
  std::string out = style.bold(result["title"].get<std::string>()) + '\n';
  if (!result["missing"].empty()) {
    out += heading("Missing", style);
    for (const Json& missing : result["missing"]) out += paragraph(missing.get<std::string>(), 4, "  –");
  }
  if (!result["incumbent"].is_null()) {
    out += heading(fmt::format("{} beside the {} in service", result["build_name"].get<std::string>(),
                               result["incumbent"]["name"].get<std::string>()),
                   style);
    out += axes_report(result["axes"], style);
  }
  if (!result["verdict"].empty()) {
    out += heading("In words", style);
    for (const Json& words : result["verdict"]) out += paragraph(shown(words, style), 4, "  –");
  }
  if (!result["fit"]["lines"].empty()) out += heading("Does it fit?", style) + fit_report(result["fit"], style);
  for (const Json& one : result["cases"]) {
    out += heading(fmt::format("Money over {} years against: {}", one["years"].dump(), one["name"].get<std::string>()),
                   style);
    for (const Json& turn : one["break_evens"]) out += paragraph(shown(turn["sentence"], style), 4, "  –");
  }
  if (!result["cautions"].empty()) {
    out += heading("Cautions", style);
    for (const Json& caution : result["cautions"]) out += paragraph(caution["text"].get<std::string>(), 4, "  !");
  }
  return out;
}

}  // namespace lobewise::cli
