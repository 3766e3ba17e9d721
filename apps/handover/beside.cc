#include "apps/handover/beside.h"

#include <fmt/format.h>

#include "apps/handover/page.h"
#include "apps/handover/proposal.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

std::string text_of(const Json& json, const char* key) {
  return json.contains(key) && json[key].is_string() ? markup(json[key].get<std::string>()) : std::string();
}

/// `1.2 kN (1 to 1.5 kN)`: nominal and range of a figure; a dash when there is none.
std::string figure(const Source& source, const Json& json, const char* key) {
  if (!json.contains(key) || !json[key].is_object()) return "–";
  const Json& f = json[key];
  const std::string nominal = source.shown(f["nominal"]), low = source.shown(f["low"]), high = source.shown(f["high"]);
  if (low == high) return markup(nominal);
  return fmt::format("{}<div class=\"small\">{} to {}</div>", markup(nominal), markup(low), markup(high));
}

std::string quantity(const Source& source, const Json& json, const char* key) {
  return json.contains(key) ? markup(source.shown(json[key])) : std::string("–");
}

/// `4 weeks to 8 weeks`: nobody counts a delivery in hours.
std::string delivery(const Json& axis, const char* key) {
  if (!axis.contains(key) || !axis[key].is_object()) return "–";
  const auto weeks = [&](const char* end) { return axis[key][end]["value"].get<double>() / (7 * 24 * 3600); };
  if (weeks("low") == weeks("high")) return fmt::format("{:.2g} weeks", weeks("nominal"));
  return fmt::format("{:.2g} weeks<div class=\"small\">{:.2g} to {:.2g}</div>", weeks("nominal"), weeks("low"),
                     weeks("high"));
}

std::string axes(const Source& source) {
  Table table{"facts beside", {"Question", "Present", "New", "Better", "Remark"}, {}};
  for (const Json& axis : source.compare["axes"]) {
    const auto shown = [&](const char* key) {
      return axis["id"] == "delivery" ? delivery(axis, key) : figure(source, axis, key);
    };
    table.rows.push_back({text_of(axis, "question"), shown("incumbent"), shown("candidate"),
                          better_word(axis["better"].get<std::string>()),
                          fmt::format("<span class=\"small\">{}</span>", text_of(axis, "remark"))});
  }
  return table.rows.empty() ? "" : table.html();
}

std::string fit(const Source& source) {
  const Json& json = source.compare["fit"];
  Table table{"facts beside", {"Does it fit?", "Present", "New", "", "Work"}, {}};
  for (const Json& line : json["lines"])
    table.rows.push_back({sentence_case(text_of(line, "label")), quantity(source, line, "before"),
                          quantity(source, line, "after"), markup(words(line["verdict"].get<std::string>())),
                          text_of(line, "work")});
  return table.rows.empty() ? "" : table.html();
}

/// The chart of dimensions stands in the finding.
std::string fit_chart(const Source& source) {
  for (const Json& finding : source.prove["findings"])
    if (finding["id"] == "fit") return charts_of(source, finding);
  return "";
}

std::string troubles(const Source& source) {
  std::string out;
  for (const Json& trouble : source.compare["troubles"]) {
    out += fmt::format("<li><strong>{}.</strong> {}", sentence_case(text_of(trouble, "label")),
                       text_of(trouble, "looked_at"));
    if (trouble.contains("explained"))
      out += trouble["explained"].get<bool>() ? " The model explains it" : " The model does not explain it";
    if (trouble.contains("figure") && trouble.contains("limit"))
      out += fmt::format(" ({} against {})", quantity(source, trouble, "figure"), quantity(source, trouble, "limit"));
    if (trouble.contains("explained")) out += ".";
    const std::string ask = text_of(trouble, "ask");
    out += ask.empty() ? "</li>" : fmt::format(" <em>{}</em></li>", ask);
  }
  return out.empty() ? out : "<h3>What has gone wrong so far</h3>\n<ul>" + out + "</ul>\n";
}

std::string missing(const Source& source) {
  std::string out;
  for (const Json& gap : source.compare["missing"]) out += fmt::format("<li>{}</li>", markup(source.shown(gap)));
  return out.empty() ? out : "<p>To judge the rest we would need:</p>\n<ul>" + out + "</ul>\n";
}

/// True for a part that costs nothing; it is named among what nobody said.
bool none(const Json& side, const char* part) { return side[part]["value"].get<double>() == 0; }

std::string cost_table(const Source& source, const Json& one) {
  const Json &keep = one["keep"], &candidate = one["candidate"];
  const std::string currency = text_of(one, "currency");
  Table table{"right",
              {fmt::format("Over {} years, in money of today", one["years"].get<int>()),
               sentence_case(text_of(keep, "name")), "New"},
              {}};
  for (const char* part : {"purchase", "energy", "carbon", "upkeep", "repairs", "standstill", "total"}) {
    if (none(keep, part) && none(candidate, part)) continue;
    const char* name = std::string_view(part) == "purchase" ? "purchase and installation" : part;
    table.rows.push_back({sentence_case(name), quantity(source, keep, part) + " " + currency,
                          quantity(source, candidate, part) + " " + currency});
  }
  table.rows.push_back({"Energy of the first year", quantity(source, keep, "energy_first_year"),
                        quantity(source, candidate, "energy_first_year")});
  if (!none(keep, "carbon_mass") || !none(candidate, "carbon_mass"))
    table.rows.push_back(
        {"Carbon dioxide", quantity(source, keep, "carbon_mass"), quantity(source, candidate, "carbon_mass")});
  table.rows.push_back({"Stoppages expected", fmt::format("{:.2g}", keep["stoppages"].get<double>()),
                        fmt::format("{:.2g}", candidate["stoppages"].get<double>())});
  return table.html();
}

std::string years(const Json& band, const char* key) {
  if (!band.contains(key)) return "not within the years";
  const double value = band[key].get<double>();
  return value < 0.05 ? "at once" : fmt::format("{:.1f} years", value);
}

std::string one_case(const Source& source, const Json& one) {
  const std::string currency = text_of(one, "currency");
  std::string out = fmt::format("<h3>Set against: {}</h3>\n<p class=\"lead\">{}</p>\n", text_of(one, "name"),
                                markup(source.shown(one["answer"])));
  Table spread{"right", {"", "At the likely figures", "5 % stay below", "Half stay below", "95 % stay below"}, {}};
  std::vector<std::string> value{"Present value of the change"};
  for (const char* key : {"nominal", "low", "median", "high"})
    value.push_back(quantity(source, one["value"], key) + " " + currency);
  std::vector<std::string> payback{"Pays back after"};
  const bool asked_first = one["hangs_on_spare"].get<bool>();
  for (const char* key : {"nominal", "low", "median", "high"})
    payback.push_back(asked_first ? "ask for the spare first" : years(one["payback"], key));
  spread.rows = {std::move(value), std::move(payback)};
  out += spread.html();
  const double paying = 100 * one["share_paying"].get<double>();
  const std::string draws = paying > 0 && paying < 0.5      ? "fewer than 1"
                            : paying < 100 && paying > 99.5 ? "more than 99"
                                                            : fmt::format("{:.0f}", paying);
  out += fmt::format("<p>In {} of 100 draws over everything that is uncertain the change pays.</p>\n", draws);
  out += cost_table(source, one) + charts_of(source, one);
  std::string turns;
  for (const Json& turn : one["break_evens"])
    turns += fmt::format("<li>{}</li>", markup(source.shown(turn["sentence"])));
  if (!turns.empty()) out += "<h4>Where it turns</h4>\n<ul>" + turns + "</ul>\n";
  std::string left;
  for (const Json& gap : one["not_counted"]) left += fmt::format("<li>{}</li>", markup(source.shown(gap)));
  if (!left.empty()) out += "<h4>Left at nothing, because nobody said it</h4>\n<ul>" + left + "</ul>\n";
  return out;
}

std::string facts(const Source& source, const Json& list) {
  Table table{"facts", {}, {}};
  for (const Json& fact : list) {
    std::string value = quantity(source, fact, "value");
    if (fact.contains("low"))
      value += fmt::format(" ({} to {})", quantity(source, fact, "low"), quantity(source, fact, "high"));
    table.rows.push_back({text_of(fact, "label"), value, text_of(fact, "source")});
  }
  return table.html();
}

}  // namespace

std::string better_word(const std::string& better) {
  if (better == "candidate") return "new";
  if (better == "incumbent") return "present";
  return better == "even" ? "even" : "open";
}

std::string comparison(const Source& source) {
  std::string out;
  for (const Json& words_of : source.compare["verdict"])
    out += fmt::format("<p>{}</p>\n", markup(source.shown(words_of)));
  return out + axes(source) + charts_of(source, source.compare) + troubles(source) + fit(source) + fit_chart(source) +
         missing(source);
}

std::string business_case(const Source& source) {
  std::string out;
  for (const Json& one : source.compare["cases"]) out += one_case(source, one);
  return out;
}

std::string comparison_working(const Source& source) {
  std::string out;
  const Json& incumbent = source.compare["incumbent"];
  if (incumbent.is_object()) {
    out += fmt::format("<h3>The unit in service, as modelled: {}</h3>\n", text_of(incumbent, "name"));
    out += facts(source, incumbent["facts"]);
    for (const Json& stage : incumbent["stages"])
      out += fmt::format("<h4>Stage: {}</h4>\n", text_of(stage, "kind")) + facts(source, stage["facts"]);
    out += assumption_table(source, incumbent["assumptions"]) + working_table(source, source.compare["working"]);
  }
  for (const Json& one : source.compare["cases"])
    out += fmt::format("<h3>The case against: {}</h3>\n", text_of(one, "name")) +
           assumption_table(source, one["assumptions"]) + working_table(source, one["working"]);
  return out;
}

}  // namespace lobewise::handover
