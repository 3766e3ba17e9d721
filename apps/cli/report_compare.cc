#include "apps/cli/report_compare.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "apps/cli/report_parts.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

std::string better(const std::string& side, const std::string& unit, const Style& style) {
  if (side == "candidate") return style.verdict("holds", "● candidate");
  if (side == "incumbent") return style.verdict("holds_if", "◆ " + unit);
  if (side == "even") return style.faint("= no difference");
  return style.faint("? not comparable");
}

std::string range_of(const Json& low, const Json& high, const Style& style) {
  if (low["value"] == high["value"]) return "";
  return style.faint(fmt::format("{} … {}", shown(low, style), shown(high, style)));
}

/// Two bars of one quantity, drawn to the larger of both. Temperatures have no zero to start a bar from.
std::string sides(const Json& axis, const std::string& unit, const Style& style) {
  const auto value = [&](const char* side) {
    return axis.contains(side) ? axis[side]["nominal"]["value"].get<double>() : 0.0;
  };
  const double largest = std::max({value("candidate"), value("incumbent"), 1e-300});
  std::string out;
  for (const char* side : {"candidate", "incumbent"}) {
    const std::string name = side == std::string("candidate") ? "candidate" : unit;
    if (!axis.contains(side)) {
      out += style.faint(fmt::format("     {} –\n", pad(name, 22)));
      continue;
    }
    const Json& figure = axis[side];
    const bool bars = figure["nominal"]["quantity"] != "temperature";
    const std::string range = range_of(figure["low"], figure["high"], style);
    out += fmt::format("     {} {} {}{}{}\n", pad(name, 22), pad(bars ? bar(value(side) / largest) : "", 11),
                       pad(shown(figure["nominal"], style), 12, true), range.empty() ? "" : "  ", range);
  }
  return out;
}

std::string axes_report(const Json& result, const Style& style) {
  if (result["axes"].empty()) return "";
  const std::string unit = result["incumbent"]["name"];
  std::string out = heading("Side by side, full load for ever at the warmest surroundings", style);
  for (const Json& axis : result["axes"]) {
    out += fmt::format("  {} {}\n", pad(axis["question"].get<std::string>(), 66), better(axis["better"], unit, style));
    out += sides(axis, unit, style);
    const std::string remark = axis["remark"];
    if (!remark.empty()) out += style.faint(paragraph(remark, 5));
  }
  return out;
}

/// A chart of curves over a share of the load as a table at a few places.
std::string load_table(const Json& chart, const Style& style) {
  std::vector<std::string> head{"load"};
  for (const Json& series : chart["series"]) head.push_back(shown(series["name"], style));
  std::vector<std::vector<std::string>> rows{head};
  for (double load : {0.25, 0.5, 0.75, 1.0, 1.2}) {
    std::vector<std::string> row{percent(load)};
    for (const Json& series : chart["series"]) {
      const std::vector<double> x = series["x"], y = series["y"];
      std::size_t nearest = 0;
      for (std::size_t i = 0; i < x.size(); ++i)
        if (std::abs(x[i] - load) < std::abs(x[nearest] - load)) nearest = i;
      row.push_back(fmt::format("{:.1f} %", 100 * y[nearest]));
    }
    rows.push_back(std::move(row));
  }
  return heading(chart["title"], style) + table(rows, {0, 1, 2}, style);
}

std::string unit_report(const Json& unit, const Style& style) {
  std::string out = heading(fmt::format("What stands there: {}", unit["name"].get<std::string>()), style);
  const auto facts = [&](const Json& list, std::size_t indent) {
    for (const Json& fact : list) {
      std::string line = fmt::format("{}{} {}", std::string(indent, ' '), pad(fact["label"].get<std::string>(), 40),
                                     pad(shown(fact["value"], style), 14, true));
      if (fact.contains("low")) line += "  " + range_of(fact["low"], fact["high"], style);
      out += line + '\n';
    }
  };
  facts(unit["facts"], 2);
  for (const Json& stage : unit["stages"]) {
    out += fmt::format("  {} stage, {:.4g} to 1\n", stage["kind"].get<std::string>(), stage["ratio"].get<double>());
    facts(stage["facts"], 4);
  }
  if (unit.contains("trouble")) out += paragraph(unit["trouble"].get<std::string>(), 12, "  trouble:");
  return out;
}

std::string troubles_report(const Json& troubles, const Style& style) {
  if (troubles.empty()) return "";
  std::string out = heading("What went wrong, and whether its figures speak for it", style);
  for (const Json& trouble : troubles) {
    std::string says = "its figures cannot tell";
    if (trouble.contains("explained"))
      says = trouble["explained"].get<bool>() ? "its figures account for it" : "its figures do not account for it";
    if (trouble.contains("figure"))
      says += fmt::format(" ({} against {})", shown(trouble["figure"], style), shown(trouble["limit"], style));
    out += fmt::format("  {}: {}\n", trouble["label"].get<std::string>(), says);
    out += style.faint(paragraph(trouble["looked_at"].get<std::string>(), 4));
    out += paragraph(trouble["ask"].get<std::string>(), 4, "  ?");
  }
  return out;
}

std::string fit_report(const Json& fit, const Style& style) {
  std::string out = heading("Does it fit where the old one stood?", style);
  std::vector<std::vector<std::string>> rows{{"dimension", "there", "candidate", ""}};
  std::string works;
  for (const Json& line : fit["lines"]) {
    const auto side = [&](const char* key) { return line.contains(key) ? shown(line[key], style) : std::string("–"); };
    const std::string verdict = line["verdict"];
    std::string word = "? not known";
    if (verdict == "fits") word = style.verdict("holds", "● fits");
    if (verdict == "adapter") word = style.verdict("holds_if", "◐ adapter");
    if (verdict == "does_not_fit") word = style.verdict("does_not_hold", "✗ does not fit");
    rows.push_back({line["label"], side("before"), side("after"), word});
    const std::string work = line["work"];
    if (!work.empty() && works.find(work) == std::string::npos)
      works += paragraph(fmt::format("{}: {}", line["label"].get<std::string>(), work), 4, "  –");
  }
  return out + table(rows, {1, 2}, style) + works;
}

/// Years or rates with their range; an end that is open says so.
std::string band(const Json& band, const Style& style, bool rate) {
  const auto one = [&](const char* key) -> std::string {
    if (!band.contains(key)) return rate ? "none" : "never";
    return rate ? percent(band[key].get<double>()) : fmt::format("{:.1f}", band[key].get<double>());
  };
  return fmt::format("{}  {}", pad(one("nominal"), 12, true),
                     style.faint(fmt::format("{} … {}", one("low"), one("high"))));
}

std::string case_report(const Json& one, const Style& style, bool all) {
  const std::string currency = one["currency"];
  std::string out = heading(fmt::format("The case against the {}, {} years{}", one["name"].get<std::string>(),
                                        one["years"].get<int>(), currency.empty() ? "" : ", in " + currency),
                            style);
  out += paragraph(shown(one["answer"], style), 2);
  const Json& value = one["value"];
  out += fmt::format("  {} {}  {}\n", pad("Present value of the change", 34),
                     pad(shown(value["nominal"], style), 12, true), range_of(value["low"], value["high"], style));
  out += fmt::format("  {} {}\n", pad("Years until it has paid back", 34), band(one["payback"], style, false));
  out += fmt::format("  {} {}\n", pad("Return a year", 34), band(one["return_rate"], style, true));
  if (one.contains("value_with_spare"))
    out += fmt::format("  {} {}\n", pad("… with a spare of it on the shelf", 34),
                       pad(shown(one["value_with_spare"], style), 12, true));
  out += style.faint("  Ranges: 5 to 95 % over everything that is not known exactly.\n");

  std::vector<std::vector<std::string>> rows{{"cost in money of today", one["name"], "candidate", "", ""}};
  const double largest =
      std::max({one["keep"]["total"]["value"].get<double>(), one["candidate"]["total"]["value"].get<double>(), 1e-300});
  for (const char* part : {"purchase", "energy", "carbon", "upkeep", "repairs", "standstill", "total"}) {
    const Json& keep = one["keep"][part];
    const Json& candidate = one["candidate"][part];
    if (keep["value"] == 0.0 && candidate["value"] == 0.0) continue;
    rows.push_back({part, shown(keep, style), shown(candidate, style), bar(keep["value"].get<double>() / largest),
                    bar(candidate["value"].get<double>() / largest)});
  }
  rows.push_back({"stoppages", fmt::format("{:.1f}", one["keep"]["stoppages"].get<double>()),
                  fmt::format("{:.1f}", one["candidate"]["stoppages"].get<double>()), "", ""});
  out += '\n' + table(rows, {1, 2}, style);
  Json turns = Json::array();
  for (const Json& turn : one["break_evens"]) turns.push_back(turn["sentence"]);
  out += "\n" + sentences(turns, style, 4, "–");

  if (!one["matters"].empty()) {
    out += style.faint("\n  What matters most: the present value when one figure alone runs through its range\n");
    const auto swing = [](const Json& m) {
      return std::abs(m["value_at_high"]["value"].get<double>() - m["value_at_low"]["value"].get<double>());
    };
    const double most = swing(one["matters"][0]);
    std::size_t shown_rows = 0;
    for (const Json& m : one["matters"]) {
      if (++shown_rows > 6 && !all) break;
      out += fmt::format("  {} {} … {}\n", bar(swing(m) / most), shown(m["value_at_low"], style),
                         shown(m["value_at_high"], style));
      out += paragraph(
          fmt::format("{}, {} … {}", m["label"].get<std::string>(), shown(m["low"], style), shown(m["high"], style)),
          14);
    }
  }
  for (const Json& what : one["not_counted"])
    out += paragraph(fmt::format("Not counted, because nobody said it: {}.", what.get<std::string>()), 4, "  –");
  if (all) {
    for (const Json& assumption : one["assumptions"])
      out += paragraph(fmt::format("{}: {}, {} … {} ({})", assumption["text"].get<std::string>(),
                                   shown(assumption["value"], style), shown(assumption["low"], style),
                                   shown(assumption["high"], style), assumption["source"].get<std::string>()),
                       4, "  –");
    out += heading("Working", style) + working_report(one["working"], style);
  }
  return out;
}

}  // namespace

std::string compare_report(const Json& result, const Style& style, bool all) {
  std::string out = style.bold(result["title"].get<std::string>()) + '\n';
  out += fmt::format("  {} beside what stands there\n", result["build_name"].get<std::string>());
  if (result.contains("why_none")) out += paragraph(shown(result["why_none"], style), 2);
  out += first_cautions(result["cautions"], style);
  if (!result["verdict"].empty()) out += heading("In short", style) + sentences(result["verdict"], style, 4, "–");
  if (!result["incumbent"].is_null()) out += unit_report(result["incumbent"], style);
  out += axes_report(result, style);
  for (const Json& chart : result["charts"])
    if (chart["id"] == "efficiency_beside") out += load_table(chart, style);
  out += troubles_report(result["troubles"], style);
  out += fit_report(result["fit"], style);
  for (const Json& one : result["cases"]) out += case_report(one, style, all);
  if (all && !result["working"].empty())
    out += heading("Working of the unit in service", style) + working_report(result["working"], style);
  Json missing = result["missing"];
  for (const Json& one : result["fit"]["missing"]) missing.push_back(one);
  if (!missing.empty()) out += heading("Missing", style) + sentences(missing, style, 4, "–");
  return out + further_cautions(result["cautions"], style);
}

}  // namespace lobewise::cli
