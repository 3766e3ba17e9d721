#include "apps/cli/report_parts.h"

#include <fmt/format.h>

#include <cmath>

namespace lobewise::cli {
namespace {
using Json = nlohmann::json;
}

std::string shown(const Json& both, const Style& style) { return both.value(style.units, std::string("–")); }

std::string heading(const std::string& text, const Style& style) { return '\n' + style.bold(text) + '\n'; }

std::string sentences(const Json& list, const Style& style, std::size_t indent, const char* bullet) {
  std::string out;
  for (const Json& item : list)
    out += paragraph(item.is_string() ? item.get<std::string>() : shown(item, style), indent,
                     std::string(indent - 2, ' ') + bullet);
  return out;
}

std::string working_report(const Json& working, const Style& style) {
  std::string out;
  std::size_t number = 0;
  for (const Json& step : working) {
    out += fmt::format("  {:>2}. {}\n", ++number, step["meaning"].get<std::string>());
    out += fmt::format("      {}\n", step["formula"].get<std::string>());
    std::string inputs;
    for (const Json& input : step["inputs"])
      inputs += fmt::format("{}{} = {}", inputs.empty() ? "" : ", ", input["symbol"].get<std::string>(),
                            shown(input["value"], style));
    if (!inputs.empty()) out += paragraph(inputs, 11, "      with");
    out += fmt::format("      {} = {}\n", step["symbol"].get<std::string>(), style.bold(shown(step["value"], style)));
    out += style.faint(paragraph(step["source"].get<std::string>(), 14, "      source:"));
  }
  return out;
}

namespace {

constexpr std::size_t kAtTheTop = 3;

std::string caution_line(const Json& caution) {
  return paragraph(fmt::format("{} ({}, {})", caution["text"].get<std::string>(), caution["who"].get<std::string>(),
                               caution["when"].get<std::string>()),
                   4, "  !");
}

}  // namespace

std::string first_cautions(const Json& cautions, const Style& style) {
  if (cautions.empty()) return "";
  std::string out = heading("Before anything else", style);
  for (std::size_t i = 0; i < cautions.size() && i < kAtTheTop; ++i) out += caution_line(cautions[i]);
  return out;
}

std::string further_cautions(const Json& cautions, const Style& style) {
  if (cautions.size() <= kAtTheTop) return "";
  std::string out = heading("Further cautions, the gravest first", style);
  for (std::size_t i = kAtTheTop; i < cautions.size(); ++i) out += caution_line(cautions[i]);
  return out;
}

std::string percent(double share) {
  // A margin just below nothing must not read as -0.
  return std::abs(share) < 0.0095 && share != 0 ? fmt::format("{:.1f} %", 100 * share)
                                                : fmt::format("{:.0f} %", 100 * share);
}

std::string span(const Json& low, const Json& high, const Style& style) {
  // Nothing needs no unit, and none fits beside the other end's (0 mm … 1000 m).
  const bool nothing = low["value"] == 0 && low["quantity"] != "temperature";
  return fmt::format("{} … {}", nothing ? "0" : shown(low, style), shown(high, style));
}

}  // namespace lobewise::cli
