#include "apps/cli/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "apps/cli/report_parts.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

const char* mark(const std::string& verdict) {
  if (verdict == "holds") return "●";
  if (verdict == "holds_if") return "◐";
  if (verdict == "does_not_hold") return "✗";
  return "?";
}

std::string words(const std::string& verdict) {
  std::string text = verdict;
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

const Json* worst_check(const Json& finding) {
  const Json* worst = nullptr;
  for (const Json& check : finding["checks"])
    if (worst == nullptr || check["margin"] < (*worst)["margin"]) worst = &check;
  return worst;
}

double used(const Json& check) {
  const double margin = check["margin"];
  return check["at_most"].get<bool>() ? 1 - margin : 1 / std::max(1e-3, 1 + margin);
}

std::string check_line(const Json& check, const Style& style) {
  return fmt::format("{} {} {}", shown(check["figure"], style), check["at_most"].get<bool>() ? "≤" : "≥",
                     shown(check["limit"], style));
}

std::string glance(const Json& finding, const Style& style) {
  const std::string verdict = finding["verdict"];
  std::string line = fmt::format(" {} {}", mark(verdict), pad(finding["id"].get<std::string>(), 12));
  line = style.verdict(verdict, line);
  if (const Json* check = worst_check(finding)) {
    line +=
        fmt::format("{} {:>8}  {}", bar(used(*check)), percent((*check)["margin"]),
                    style.faint(fmt::format("{}: {}", (*check)["name"].get<std::string>(), check_line(*check, style))));
  } else {
    line += style.faint(words(verdict));
  }
  return line + '\n' + paragraph(shown(finding["answer"], style), 15);
}

}  // namespace

std::string finding_report(const Json& finding, const Style& style) {
  const std::string verdict = finding["verdict"];
  std::string out = heading(finding["question"].get<std::string>(), style);
  out += paragraph(shown(finding["answer"], style), 2);
  out += "  " + style.verdict(verdict, fmt::format("{} {}", mark(verdict), words(verdict))) + '\n';
  if (finding.contains("condition")) out += paragraph(shown(finding["condition"], style), 5, "  if");
  if (!finding["checks"].empty()) {
    out += heading("Checks", style);
    std::vector<std::vector<std::string>> rows{{"what", "figure", "", "limit", "margin", "5–95 %"}};
    for (const Json& check : finding["checks"]) {
      // An end is missing where it has no bound: a change that may never pay back.
      const bool low = check.contains("low"), high = check.contains("high");
      const std::string range = low && high ? span(check["low"], check["high"], style)
                                : low       ? shown(check["low"], style) + " and more"
                                : high      ? shown(check["high"], style) + " and less"
                                            : "";
      rows.push_back({check["name"], shown(check["figure"], style), check["at_most"].get<bool>() ? "≤" : "≥",
                      shown(check["limit"], style), percent(check["margin"]), range});
    }
    out += table(rows, {1, 3, 4}, style);
  }
  if (!finding["notes"].empty())
    out += heading("What a colleague would add", style) + sentences(finding["notes"], style, 4, "–");
  if (!finding["influences"].empty()) {
    out += heading("What moves its worst margin most, from end to end of what is not known", style);
    for (const Json& influence : finding["influences"])
      out += fmt::format("    {} {:>5.0f} points\n", pad(influence["unknown"].get<std::string>(), 44),
                         100 * influence["change"].get<double>());
  }
  if (!finding["missing"].empty()) out += heading("Missing", style) + sentences(finding["missing"], style, 4, "–");
  if (!finding["working"].empty()) out += heading("Working", style) + working_report(finding["working"], style);
  if (!finding["left_out"].empty())
    out += heading("What the model leaves out", style) + sentences(finding["left_out"], style, 4, "–");
  if (!finding["cautions"].empty()) {
    out += heading("Cautions", style);
    for (const Json& caution : finding["cautions"])
      out += paragraph(fmt::format("{} ({}, {})", caution["text"].get<std::string>(), caution["who"].get<std::string>(),
                                   caution["when"].get<std::string>()),
                       4, "  !");
  }
  return out;
}

namespace {

/// What the machine does beyond torque and speed, and the usual service factors beside the computed duty.
std::string machine_report(const Json& machine, const Style& style) {
  std::string out = heading("What the machine is like", style);
  for (const Json& figure : machine["figures"])
    out += fmt::format("  {} {}{}\n", pad(figure["label"].get<std::string>(), 34),
                       pad(shown(figure["value"], style), 16, true),
                       figure["low"] == figure["high"]
                           ? ""
                           : style.faint(fmt::format("  assumed, {}", span(figure["low"], figure["high"], style))));
  out += paragraph(fmt::format("Its load is {}: {}. {}", machine["shock_class"].get<std::string>(),
                               machine["shock_reason"].get<std::string>(), machine["jam"]["text"].get<std::string>()),
                   4, "  –");
  if (!machine.contains("practice")) return out;
  const Json& practice = machine["practice"];
  std::string words;
  for (const Json& sentence : practice["explanation"])
    words += fmt::format("{}{}", words.empty() ? "" : " ", shown(sentence, style));
  out += paragraph(fmt::format("Beside the usual service factors (common practice, no source): {}", words), 4, "  –");
  return out;
}

}  // namespace

std::string demand_report(const Json& result, const Style& style) {
  std::string out = style.bold("What does the machine ask for, and how was it worked out?") + '\n';
  out += machine_report(result["machine"], style);
  return out + heading("Working", style) + working_report(result["demand_working"], style);
}

std::string evidence_report(const Json& result, const Style& style) {
  std::string out = style.bold(result["title"].get<std::string>()) + '\n';
  if (result.contains("why_none"))
    out += '\n' + style.verdict("does_not_hold", paragraph(shown(result["why_none"], style), 2));
  out += first_cautions(result["cautions"], style);
  out += heading("What is asked", style);
  for (const Json& line : result["requirement"]) {
    const bool assumed = line["assumed"];
    std::string text =
        fmt::format("  {} {}", pad(line["label"].get<std::string>(), 34), pad(shown(line["value"], style), 16, true));
    if (assumed) {
      text += "  assumed";
      if (line.contains("low") && line["low"] != line["high"]) text += ", " + span(line["low"], line["high"], style);
      text = style.faint(text);
    }
    out += text + '\n';
  }
  for (const Json& condition : result["conditions"]) {
    const std::string text =
        fmt::format("  {} {}", pad(condition["label"].get<std::string>(), 34), condition["text"].get<std::string>());
    out += (condition["said"].get<bool>() ? text : style.faint(text + "  assumed")) + '\n';
  }
  if (result.contains("machine")) out += machine_report(result["machine"], style);
  out += heading(fmt::format("{}: {}", result.contains("why_none") ? "What is examined, no offer" : "What is offered",
                             result["build_name"].get<std::string>()),
                 style);
  if (result.contains("chosen_because") && !result.contains("why_none"))
    out += paragraph(shown(result["chosen_because"], style), 4, "  –");
  for (const Json& fact : result["drive"]) {
    const std::string value =
        fact["value"].is_object() ? shown(fact["value"], style) : fact["value"].get<std::string>();
    out += fmt::format("  {} {}\n", pad(fact["label"].get<std::string>(), 34), pad(value, 16, true));
  }
  out += heading("Evidence", style);
  std::map<std::string, int> count;
  for (const Json& finding : result["findings"]) {
    out += glance(finding, style);
    ++count[finding["verdict"].get<std::string>()];
  }
  out += fmt::format(
      "\n  {} hold, {} hold under a condition, {} do not hold, {} cannot be judged. Open one with --why ID.\n",
      count["holds"], count["holds_if"], count["does_not_hold"], count["cannot_be_judged"]);
  if (!result["questions"].empty()) {
    out += heading("Worth asking next: what moves the evidence most (margin with one answer … another)", style);
    for (const Json& question : result["questions"])
      out += paragraph(question.contains("effect") ? fmt::format("{} ({})", question["text"].get<std::string>(),
                                                                 question["effect"].get<std::string>())
                                                   : question["text"].get<std::string>(),
                       4, "  –");
  }
  return out + further_cautions(result["cautions"], style);
}

std::string candidates_report(const Json& result, const Style& style, std::size_t most) {
  std::string out = style.bold(result["title"].get<std::string>()) + '\n';
  if (result["chosen"].get<int>() < 0) {
    out += '\n' + paragraph(shown(result["why_none"], style), 2);
  } else {
    const Json& chosen = result["candidates"][result["chosen"].get<std::size_t>()];
    out += heading(fmt::format("What is offered: {}", chosen["build_name"].get<std::string>()), style);
    out += paragraph(shown(chosen["why"], style), 4, "  –");
  }
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> head{"candidate", "ratio", "speed error"};
  std::vector<std::size_t> right{1, 2};
  std::size_t fallen = 0;
  bool estimated = false;
  std::string reasons;
  for (const Json& candidate : result["candidates"]) {
    if (candidate.contains("fell_out")) {
      ++fallen;
      if (fallen <= most)
        reasons += paragraph(shown(candidate["fell_out"], style), 30,
                             "  " + pad(candidate["build_name"].get<std::string>(), 26));
      continue;
    }
    if (rows.size() > most) continue;
    if (rows.empty()) {
      for (const Json& margin : candidate["margins"]) {
        head.push_back(margin["id"]);
        right.push_back(head.size() - 1);
      }
      head.push_back("mass");
      head.push_back("with motor");
      right.push_back(head.size() - 2);
      right.push_back(head.size() - 1);
      rows.push_back(head);
    }
    std::vector<std::string> row{candidate["build_name"], fmt::format("{:.4g}", candidate["ratio"].get<double>()),
                                 fmt::format("{:+.1f} %", 100 * candidate["ratio_error"].get<double>())};
    for (const Json& margin : candidate["margins"]) {
      const std::string verdict = margin["verdict"];
      const bool estimate = margin["estimate"].get<bool>();
      estimated = estimated || estimate;
      const std::string text =
          margin.contains("margin")
              ? fmt::format("{} {}{:.0f}", mark(verdict), estimate ? "≈" : "", 100 * margin["margin"].get<double>())
              : mark(verdict);
      row.push_back(style.verdict(verdict, text));
    }
    row.push_back(shown(candidate["mass"], style));
    row.push_back(shown(candidate["price_with_motor"], style));
    rows.push_back(std::move(row));
  }
  if (!rows.empty()) {
    out += heading("Candidates, best first (margin left of each limit, %)", style);
    out += table(rows, right, style);
    out += style.faint("  ● holds  ◐ holds under a condition  ✗ does not hold  ? cannot be judged\n");
    if (estimated)
      out += style.faint(paragraph(
          "≈ quick look with rigid discs, which load fewer lobes and those more than discs that bend; `prove`, "
          "for which they bend, gives the figures that count",
          4, " "));
  }
  if (fallen > 0) {
    out += heading("Fell out", style) + reasons;
    if (fallen > most) out += fmt::format("  … and {} more (--all shows them)\n", fallen - most);
  }
  return out;
}

std::string rating_report(const Json& result, const Style& style) {
  std::vector<std::vector<std::string>> rows{{"frame", "ratio", "input speed", "torque", "limited by"}};
  for (const Json& row : result["rows"])
    rows.push_back({row["frame"], fmt::format("{:.4g}", row["ratio"].get<double>()), shown(row["speed"], style),
                    shown(row["torque"], style), row["limited_by"]});
  return table(rows, {1, 2, 3}, style);
}

std::string error_report(const Json& result, const Style& style, const std::string& file) {
  std::string out;
  for (const Json& error : result["errors"]) {
    const int line = error.value("line", 0);
    std::string place = file;
    if (line > 0) place += fmt::format(":{}", line);
    const std::string path = error.value("path", "");
    if (!path.empty()) place += (place.empty() ? "" : ": ") + path;
    out += style.verdict("does_not_hold", place.empty() ? "error" : place) + '\n';
    const std::string offending = error.value("offending", "");
    const std::string message = error["message"];
    out += paragraph(offending.empty() ? message : fmt::format("'{}': {}", offending, message), 4);
  }
  return out;
}

}  // namespace lobewise::cli
