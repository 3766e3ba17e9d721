#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "apps/handover/beside.h"
#include "apps/handover/page.h"
#include "apps/handover/proposal.h"
#include "apps/handover/references.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

std::string checks_table(const Source& source, const Json& checks) {
  Table table{"right", {"Check", "Figure", "", "Limit", "Margin", "5 to 95 % of what is uncertain"}, {}};
  for (const Json& check : checks) {
    // An end is missing where it has no bound: a change that may never pay back.
    const auto end = [&](const char* key) { return check.contains(key) ? markup(source.shown(check[key])) : ""; };
    const std::string low = end("low"), high = end("high");
    const std::string range = low.empty() && high.empty() ? ""
                              : high.empty()              ? low + " and more"
                              : low.empty()               ? high + " and less"
                                                          : fmt::format("{} to {}", low, high);
    table.rows.push_back({markup(sentence_case(check["name"].get<std::string>())),
                          markup(source.shown(check["figure"])), check["at_most"].get<bool>() ? "≤" : "≥",
                          markup(source.shown(check["limit"])), percent(check["margin"]), range});
  }
  return table.html();
}

/// What its worst margin depends on most.
std::string influences_line(const Json& finding) {
  std::string out;
  for (const Json& influence : finding["influences"]) {
    const double points = 100 * influence["change"].get<double>();
    if (points >= 0.5)
      out += fmt::format("{}{} ({:.0f} points)", out.empty() ? "" : ", ",
                         markup(influence["unknown"].get<std::string>()), points);
  }
  return out.empty() ? out
                     : fmt::format(
                           "<p class=\"small\">What moves its worst margin most, from end to end of what is "
                           "not known: {}.</p>\n",
                           out);
}

std::string working(const Source& source) {
  std::string out = "<h2 id=\"working\" class=\"new-page\">Appendix A: complete working</h2>\n";
  if (source.prove.contains("demand_working") && !source.prove["demand_working"].empty())
    out += "<h3>What the driven machine asks for</h3>\n" + working_table(source, source.prove["demand_working"]);
  for (const Json& finding : source.prove["findings"]) {
    out += fmt::format("<h3>{}</h3>\n", markup(finding["question"].get<std::string>()));
    if (!finding["checks"].empty()) out += checks_table(source, finding["checks"]);
    out += influences_line(finding);
    // The case has its working where the unit in service has: the same lines are not printed twice.
    if (finding["id"] == "cost" && !source.compare.is_null() && !source.compare["cases"].empty())
      out += "<p>Worked out below, after the unit in service.</p>\n";
    else if (!finding["working"].empty())
      out += working_table(source, finding["working"]);
  }
  if (!source.compare.is_null()) out += comparison_working(source);
  return out;
}

/// The line of the build that was proved, with the margins of its proof.
std::vector<std::string> as_proved(const Source& source, const Json& first) {
  std::vector<std::string> row{markup(source.build_name()) + ", as proved", ""};
  for (const Json& margin : first["margins"]) {
    std::string cell;
    for (const Json& finding : source.prove["findings"])
      if (finding["id"] == margin["id"]) {
        cell = verdict_mark(finding["verdict"].get<std::string>(), false);
        if (const Json* check = decisive_check(finding)) cell += fmt::format(" {}", percent_figure((*check)["margin"]));
      }
    row.push_back(cell);
  }
  row.insert(row.end(), {markup(source.shown(source.offer()["mass"])), markup(source.shown(source.offer()["price"]))});
  return row;
}

std::string candidates(const Source& source) {
  std::string out = "<h2 id=\"candidates\">Appendix B: every candidate</h2>\n";
  const Json& all = source.size["candidates"];
  Table table{"matrix", {"Candidate", "Speed error"}, {}};
  constexpr std::size_t kMost = 25;
  std::size_t more = 0;
  std::vector<std::pair<std::string, std::string>> fallen;  // why, and the builds
  for (const Json& candidate : all) {
    const std::string name = markup(candidate["build_name"].get<std::string>());
    if (candidate.contains("fell_out")) {
      const std::string why = markup(sentence_case(source.shown(candidate["fell_out"])));
      const auto group = std::find_if(fallen.begin(), fallen.end(), [&](const auto& g) { return g.first == why; });
      group == fallen.end() ? void(fallen.emplace_back(why, name)) : void(group->second += "; " + name);
      continue;
    }
    if (table.rows.empty()) {
      for (const Json& margin : candidate["margins"]) table.head.push_back(markup(margin["id"].get<std::string>()));
      table.head.insert(table.head.end(), {"Mass", "Price"});
      table.rows.push_back(as_proved(source, candidate));
    }
    if (table.rows.size() > kMost) {
      ++more;
      continue;
    }
    std::vector<std::string> row{name, fmt::format("{:+.1f} %", 100 * candidate["ratio_error"].get<double>())};
    for (const Json& margin : candidate["margins"]) {
      std::string cell = verdict_mark(margin["verdict"].get<std::string>(), false);
      if (margin.contains("margin"))
        cell += fmt::format(" {}{}", margin["estimate"].get<bool>() ? "≈ " : "", percent_figure(margin["margin"]));
      row.push_back(cell);
    }
    row.push_back(markup(source.shown(candidate["mass"])));
    row.push_back(markup(source.shown(candidate["price"])));
    table.rows.push_back(std::move(row));
  }
  out += fmt::format(
      "<p>{} builds of the range were looked at, {} of them closely. Margins in % of each limit, best candidate first. "
      "To find the best one, discs are taken as rigid, which is quick and counts fewer lobes that carry: such margins "
      "are marked ≈. The first line repeats the proof, for which they bend. Sharing and efficiency are measured "
      "against rules of the "
      "trade and decide nothing.</p>\n",
      all.size(), std::max<std::size_t>(1, table.rows.size()) - 1 + more);
  if (!table.rows.empty()) out += table.html();
  if (more > 0) out += fmt::format("<p class=\"small\">And {} more; all of them are in the workbook.</p>\n", more);
  Table reasons{"facts", {"Why it fell out", "Builds"}, {}};
  for (const auto& [why, builds] : fallen)
    if (reasons.rows.size() < kMost) reasons.rows.push_back({why, builds});
  if (!reasons.rows.empty()) out += reasons.html();
  if (fallen.size() > kMost)
    out += fmt::format("<p class=\"small\">And {} more reasons; all of them are in the workbook.</p>\n",
                       fallen.size() - kMost);
  return out;
}

/// Every named source, and every text in which a key may stand.
void collect(const Json& json, std::set<std::string>& sources, std::vector<std::string>& texts) {
  if (json.is_string()) texts.push_back(json.get<std::string>());
  if (json.is_object() && json.contains("source") && json["source"].is_string())
    sources.insert(clean(json["source"].get<std::string>()));
  if (json.is_structured())
    for (const Json& child : json) collect(child, sources, texts);
}

std::string sources(const Source& source) {
  std::set<std::string> all;
  std::vector<std::string> texts;
  for (const Json* json : {&source.prove, &source.dimensions, &source.compare}) collect(*json, all, texts);
  all.erase("");
  std::string out =
      "<h2 id=\"sources\">Appendix C: sources</h2>\n<p>Where formulas, limits and assumed values come from. “From "
      "memory” means that the text was not at hand when the figure was written down; “common practice, no source” "
      "means "
      "trade habit for which no open source was found. Both are for the reader to check before relying on them.</p>\n";
  Table works{"facts", {"Key", "Work", "How it was used"}, {}};
  for (const Reference& reference : references_in(texts))
    works.rows.push_back({markup(reference.key), markup(reference.text), markup(reference.note)});
  if (!works.rows.empty()) out += works.html();
  out += "<h3>As named beside the figures</h3>\n<ul class=\"columns\">";
  for (const std::string& one : all) out += fmt::format("<li>{}</li>", markup(one));
  return out + "</ul>\n<p class=\"small\">Computed with Lobewise " LOBEWISE_VERSION " and the range " +
         markup(source.offer()["range"].value("name", std::string("without a name"))) + ", version " +
         markup(source.offer()["range"].value("version", std::string("–"))) + ".</p>\n";
}

}  // namespace

/// The engine's trees as it sets them; of what was looked up or followed in time, where and what in words.
static std::string set_formula(const Json& step) {
  if (step.contains("mathml")) return fmt::format("<math>{}</math>", step["mathml"].get<std::string>());
  return markup(step["formula"].get<std::string>());
}
static std::string set_symbol(const Json& named) {
  return fmt::format("<math>{}</math>", named["symbol_mathml"].get<std::string>());
}

std::string working_table(const Source& source, const Json& working) {
  Table table{"working", {"What", "Formula, and what is put in", "Result", "Source"}, {}};
  for (const Json& step : working) {
    std::string given;
    for (const Json& input : step["inputs"])
      given += fmt::format("{}<span title=\"{}\">{} = {}</span>", given.empty() ? "" : ", ",
                           markup(input["meaning"].get<std::string>()), set_symbol(input),
                           markup(source.shown(input["value"])));
    table.rows.push_back(
        {markup(sentence_case(step["meaning"].get<std::string>())),
         fmt::format("<div class=\"formula\">{}</div><div class=\"given\">{}</div>", set_formula(step), given),
         fmt::format("{} = {}", set_symbol(step), markup(source.shown(step["value"]))),
         markup(step["source"].get<std::string>())});
  }
  return table.html();
}

std::string appendix(const Source& source) { return working(source) + candidates(source) + sources(source); }

}  // namespace lobewise::handover
