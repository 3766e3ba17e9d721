#include "apps/handover/proposal.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "apps/handover/beside.h"
#include "apps/handover/chart_svg.h"
#include "apps/handover/page.h"
#include "apps/handover/text.h"
#include "apps/handover/unit_drawing.h"

namespace lobewise::handover {
namespace {

struct Section {
  const char* id;
  const char* title;
};

std::string paragraph(const std::string& text) { return fmt::format("<p>{}</p>\n", markup(text)); }

std::string list(const Source& source, const Json& items) {
  std::string out = "<ul>";
  for (const Json& item : items) out += fmt::format("<li>{}</li>", markup(source.shown(item)));
  return out + "</ul>\n";
}

std::string heading(const Section& section, const char* extra = "") {
  return fmt::format("<h2 id=\"{}\" class=\"{}\">{}</h2>\n", section.id, extra, section.title);
}

constexpr Section kAsked{"asked", "What was asked"};
constexpr Section kOffered{"offered", "What is offered"};
constexpr Section kClosest{"offered", "What comes closest"};
constexpr Section kGlance{"glance", "The evidence at a glance"};
constexpr Section kDetail{"evidence", "The evidence, question by question"};
constexpr Section kCompare{"beside", "Beside what is there now"};
constexpr Section kCase{"case", "What it costs and saves over the years"};
constexpr Section kGaps{"gaps", "Assumptions and gaps"};
constexpr Section kCautions{"cautions", "Cautions"};
constexpr Section kNext{"next", "Next steps"};
constexpr Section kPrice{"price", "Price and validity"};
constexpr Section kWorking{"working", "Appendix A: complete working"};
constexpr Section kCandidates{"candidates", "Appendix B: every candidate"};
constexpr Section kSources{"sources", "Appendix C: sources"};

const Section& offered_section(const Source& source) { return source.serves() ? kOffered : kClosest; }

bool has_case(const Source& source) { return source.compare.is_object() && !source.compare["cases"].empty(); }

std::string contents(const Source& source, const std::map<std::string, int>& pages) {
  std::string out = "<nav aria-label=\"Contents\"><ol class=\"contents\">";
  for (const Section& s : {kAsked, offered_section(source), kGlance, kDetail, kCompare, kCase, kGaps, kCautions, kNext,
                           kPrice, kWorking, kCandidates, kSources}) {
    if ((s.id == kCompare.id && source.compare.is_null()) || (s.id == kCase.id && !has_case(source)) ||
        (s.id == kPrice.id && !source.serves()))
      continue;
    const auto page = pages.find(s.id);
    out += fmt::format("<li><a href=\"#{}\">{}<span class=\"page\">{}</span></a></li>", s.id, s.title,
                       page == pages.end() ? "" : std::to_string(page->second));
  }
  return out + "</ol></nav>\n";
}

std::array<int, 4> count_verdicts(const Source& source) {
  constexpr std::array<const char*, 4> kVerdicts{"holds", "holds_if", "does_not_hold", "cannot_be_judged"};
  std::array<int, 4> count{};
  for (const Json& finding : source.prove["findings"])
    for (std::size_t i = 0; i < kVerdicts.size(); ++i) count[i] += finding["verdict"] == kVerdicts[i] ? 1 : 0;
  return count;
}

/// The few figures by which a drive is known, in large.
std::string key_figures(const Source& source) {
  std::string out;
  for (const char* id : {"output_torque", "output_speed", "service_factor", "motor", "mass", "price"})
    for (const Json& fact : source.prove["drive"])
      if (fact["id"] == id && (source.serves() || fact["id"] != "price"))
        out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", markup(fact["label"].get<std::string>()),
                           markup(source.fact(fact)));
  return "<dl class=\"key together\">" + out + "</dl>\n";
}

std::string outline_figure(const Source& source) {
  return fmt::format(
      "<figure class=\"outline\"><figcaption>Outline ({}); the full drawing is a sheet of its "
      "own</figcaption>{}</figure>\n",
      source.units == "us" ? "in" : "mm", unit_picture(source));
}

/// The check that fails by most, in words.
std::string failing(const Source& source, const Json& finding) {
  const Json* check = decisive_check(finding);
  if (check == nullptr) return "";
  return fmt::format("<li>{} {}: {}, {} {} {}.</li>", markup(finding["question"].get<std::string>()),
                     markup(sentence_case((*check)["name"].get<std::string>())),
                     markup(source.shown((*check)["figure"])), (*check)["at_most"].get<bool>() ? "at most" : "at least",
                     markup(source.shown((*check)["limit"])),
                     (*check)["at_most"].get<bool>() ? "is allowed" : "is wanted");
}

/// Where it stands and what else was said in words, in one line.
std::string place_line(const Source& source) {
  std::string words;
  for (const Json& condition : source.prove["conditions"])
    if (condition["said"].get<bool>() && condition["path"].get_ref<const std::string&>().starts_with("supply") == false)
      words += fmt::format("{}{}", words.empty() ? "" : "; ", markup(condition["text"].get<std::string>()));
  return words.empty() ? "" : fmt::format("<p><strong>Where it stands:</strong> {}.</p>\n", words);
}

std::string in_short(const Source& source) {
  const auto [holds, holds_if, fails, unknown] = count_verdicts(source);
  const int all = holds + holds_if + fails + unknown;
  std::string verdicts = fmt::format("Of {} questions asked of it, {} hold", all, holds);
  if (holds_if > 0) verdicts += fmt::format(", {} hold under a condition that is named", holds_if);
  if (fails > 0) verdicts += fmt::format(", {} {} not hold", fails, fails == 1 ? "does" : "do");
  if (unknown > 0) verdicts += fmt::format(", {} cannot be judged for want of data", unknown);
  std::string out;
  if (source.serves())
    out = fmt::format("<p class=\"lead\">We offer {}, running at {} on the driven side. {}. ",
                      markup(source.build_name()), markup(source.shown(source.offer()["output_speed"])), verdicts);
  else
    out = fmt::format("<p class=\"lead\">{} It is examined here so that you see what is missing; it is no offer. {}. ",
                      markup(source.shown(source.prove["why_none"])), verdicts);
  out += "Every figure can be followed line by line in the appendix.</p>\n" + key_figures(source);
  out += place_line(source);
  if (source.serves()) out += outline_figure(source);
  if (fails > 0) {
    std::string named;
    for (const Json& finding : source.prove["findings"])
      if (finding["verdict"] == "does_not_hold") named += failing(source, finding);
    out += fmt::format("<div class=\"alert together\"><strong>{}</strong><ul>{}</ul></div>\n",
                       source.serves() ? "To settle before ordering:" : "What does not hold:", named);
  }
  return out + range_note(source);
}

std::string asked(const Source& source) {
  Table table{"facts", {"", "Value", "Where it comes from"}, {}};
  for (const Json& line : source.prove["requirement"]) {
    std::string origin = "stated, or follows from what was stated";
    if (line["assumed"].get<bool>()) {
      origin = "assumed";
      if (line.contains("low") && source.shown(line["low"]) != source.shown(line["high"]))
        origin += fmt::format(", {} to {}", markup(source.shown(line["low"])), markup(source.shown(line["high"])));
      if (line.contains("source")) origin += fmt::format("; {}", markup(line["source"].get<std::string>()));
    }
    table.rows.push_back({markup(line["label"].get<std::string>()), markup(source.shown(line["value"])), origin});
  }
  for (const Json& condition : source.prove["conditions"])
    table.rows.push_back({markup(condition["label"].get<std::string>()), markup(condition["text"].get<std::string>()),
                          condition["said"].get<bool>() ? "stated" : "not said"});
  std::string out = heading(kAsked, "new-page") + table.html();
  if (source.order.enquiry.contains("note") && source.order.enquiry["note"].is_string())
    out += fmt::format("<p class=\"note\">{}</p>\n", markup(source.order.enquiry["note"].get<std::string>()));
  const Json& machine = source.prove["machine"];
  if (machine.contains("practice")) {
    std::string sentences;
    for (const Json& sentence : machine["practice"]["explanation"]) sentences += ' ' + markup(source.shown(sentence));
    out += fmt::format("<p>Beside the usual service factors (common practice, no source):{}</p>\n", sentences);
  }
  return out;
}

std::string offered(const Source& source) {
  Table table{"facts", {}, {}};
  for (const Json& fact : source.prove["drive"])
    table.rows.push_back({markup(fact["label"].get<std::string>()), markup(source.fact(fact))});
  table.rows.push_back({"Mounting", markup(words(source.dimensions["mounting"].get<std::string>()) + ", " +
                                           said_in_words(source, "mounting.orientation"))});
  return heading(offered_section(source)) + table.html() + (source.serves() ? "" : outline_figure(source));
}

std::string at_a_glance(const Source& source) {
  Table table{"glance", {"Question", "Verdict", "Figure that decides", "Limit used", "Margin"}, {}};
  for (const Json& finding : source.prove["findings"]) {
    std::string figure = "–", bar, margin = "–";
    if (const Json* check = decisive_check(finding)) {
      figure = fmt::format("{}: {}", markup((*check)["name"].get<std::string>()), check_text(source, *check));
      bar = margin_bar((*check)["margin"], (*check)["at_most"]);
      margin = percent((*check)["margin"]);
    }
    table.rows.push_back({markup(finding["question"].get<std::string>()),
                          verdict_mark(finding["verdict"].get<std::string>(), true), figure, bar, margin});
  }
  return "<div class=\"together\">" + heading(kGlance) + table.html() +
         "<p class=\"small\">The bar shows how much of the limit is used; the upright line is the limit. The margin is "
         "what is left of it; of a figure that has to reach its limit, by how much it exceeds it.</p></div>\n";
}

std::string answer_text(const Source& source, const Json& finding) {
  std::string out =
      fmt::format("<p class=\"answer\">{} {}</p>\n", verdict_mark(finding["verdict"].get<std::string>(), true) + ".",
                  markup(source.shown(finding["answer"])));
  if (finding.contains("condition"))
    out += fmt::format("<p><strong>It holds if</strong> {}.</p>\n", markup(source.shown(finding["condition"])));
  return out;
}

std::string finding_text(const Source& source, const Json& finding) {
  std::string out = answer_text(source, finding);
  if (finding["id"] == "life")
    out += paragraph("Lives beyond 1 000 000 h are shown as that: they mean that the part does not limit.");
  for (const Json& note : finding["notes"]) out += paragraph(source.shown(note));
  if (!finding["missing"].empty()) out += "<p><strong>Missing:</strong></p>" + list(source, finding["missing"]);
  return out;
}

/// The section that tells this finding in full; null when this one does.
const Section* told_in(const Source& source, const Json& finding) {
  if (finding["id"] == "fit" && !source.compare.is_null()) return &kCompare;
  if (finding["id"] == "cost" && has_case(source)) return &kCase;
  return nullptr;
}

std::string detail(const Source& source) {
  std::string out = heading(kDetail);
  for (const Json& finding : source.prove["findings"]) {
    const std::string question = markup(finding["question"].get<std::string>());
    if (const Section* section = told_in(source, finding)) {
      out += fmt::format(
          "<section class=\"finding together\"><h3>{}</h3>\n{}<p>More under <a href=\"#{}\">{}</a>.</p></section>\n",
          question, answer_text(source, finding), section->id, section->title);
      continue;
    }
    // Heading, text and a chart stay on one page; more charts may move.
    out += fmt::format("<section class=\"finding{}\"><h3>{}</h3>\n{}{}</section>\n",
                       finding["charts"].size() > 1 ? "" : " together", question, finding_text(source, finding),
                       charts_of(source, finding));
  }
  return out;
}

std::string gaps(const Source& source) {
  std::string out = heading(kGaps);
  out += paragraph(
      "Nobody told us the following. What was taken instead, and how far it may be off, is part of every "
      "figure above; where the verdict hangs on it, the verdict says so.");
  out += source.prove["assumptions"].empty() ? paragraph("Nothing was assumed.")
                                             : assumption_table(source, source.prove["assumptions"]);
  if (!source.prove["influences"].empty()) {
    Table weights{"facts", {"What the result depends on most", "Change of the closest margin over its range"}, {}};
    for (const Json& influence : source.prove["influences"]) {
      if (influence["change"].get<double>() < 0.005) continue;
      weights.rows.push_back({markup(influence["unknown"].get<std::string>()),
                              fmt::format("{:.0f} points", 100 * influence["change"].get<double>())});
    }
    if (!weights.rows.empty()) out += weights.html();
  }
  out += "<h3>What the models leave out</h3>\n<ul>";
  std::set<std::string> said;
  for (const Json& finding : source.prove["findings"])
    for (const Json& gap : finding["left_out"])
      if (said.insert(gap.get<std::string>()).second) out += fmt::format("<li>{}</li>", markup(gap.get<std::string>()));
  return out + "</ul>\n";
}

std::string next_steps(const Source& source) {
  std::string out = heading(kNext) + "<ol class=\"steps\">";
  if (!source.prove["questions"].empty()) {
    out += "<li>Answers that would sharpen this proposal most:<ul>";
    for (const Json& question : source.prove["questions"])
      out += fmt::format("<li>{}{}</li>", markup(question["text"].get<std::string>()),
                         question.contains("effect")
                             ? fmt::format(" <small>{}</small>", markup(question["effect"].get<std::string>()))
                             : std::string());
    out += "</ul></li>";
  }
  if (!source.serves())
    return out +
           "<li>Change what can be changed: what fails is named on the first page, with the limit it fails at. Two "
           "drives "
           "instead of one, a larger range, a slower or lighter machine are the usual ways.</li>"
           "<li>Let the plant’s own engineers follow the working in the appendix, or recompute it with the files "
           "handed "
           "over.</li></ol>\n";
  return out +
         "<li>Check the drawing against the place of installation: feet or flange, shaft end, room for guards and for "
         "changing the lubricant.</li>"
         "<li>Let the plant’s own engineers follow the working in the appendix, or recompute it with the files handed "
         "over.</li>"
         "<li>Confirm the order sheet; commission by the commissioning sheet.</li></ol>\n";
}

std::string price(const Source& source) {
  const std::string currency = source.offer()["currency"];
  Table table{"right", {"Item", "Quantity", fmt::format("Price [{}]", markup(currency))}, {}};
  table.rows.push_back(
      {fmt::format("Reducer {}, {} mounted, filled with the lubricant named", markup(source.build_name()),
                   markup(words(source.dimensions["mounting"].get<std::string>()))),
       "1", markup(source.shown(source.offer()["price"]))});
  if (source.offer().contains("motor"))
    table.rows.push_back({fmt::format("Motor {}, {} poles", markup(source.shown(source.offer()["motor"]["power"])),
                                      source.offer()["motor"]["poles"].get<int>()),
                          "1", "quoted separately"});
  const Json& enquiry = source.order.enquiry;
  if (enquiry.contains("economics") && enquiry["economics"].is_object() &&
      enquiry["economics"].contains("candidate_delivery"))
    table.rows.push_back({"Time of delivery", "", markup(source.shown(enquiry["economics"]["candidate_delivery"]))});
  table.rows.push_back({"Coupling, chain wheel or other link; guards; delivery; taxes", "", "not included"});
  return "<div class=\"together\">" + heading(kPrice) + table.html() +
         fmt::format(
             "<p>Valid until {}, for the duty described here. A different duty asks for a new proof, not only "
             "for a new price.</p>\n<div class=\"sign\"><div>Offered: name, date, signature</div><div>Accepted: "
             "name, date, signature</div></div></div>\n",
             markup(source.order.valid_until));
}

/// Text column of A4 and Letter; half of it for charts side by side [pt].
constexpr double kColumn = 468, kHalf = 224;

/// Bars in groups or with limits or long names want the whole width, and so do many lines, points and what is named
/// inside the drawing.
bool crowded(const Source& source, const Json& chart) {
  const Json& series = chart["series"];
  if (!chart["bars"].get<bool>())
    return series.size() > 3 || std::any_of(series.begin(), series.end(),
                                            [](const Json& s) { return s["x"].size() == 1 || s["band"].get<bool>(); });
  const std::ptrdiff_t limits =
      std::count_if(series.begin(), series.end(), [](const Json& s) { return s["dashed"].get<bool>(); });
  return limits > 1 || std::any_of(series.begin(), series.end(), [&](const Json& s) {
           return (s["x"].size() > 1 && !s["dashed"].get<bool>()) ||
                  s["name"][source.units].get_ref<const std::string&>().size() > 28;
         });
}

}  // namespace

std::string charts_of(const Source& source, const Json& result) {
  const Json& charts = result["charts"];
  // Two neighbours that are not crowded stand side by side; any other takes the whole width.
  std::vector<bool> half(charts.size(), false);
  for (std::size_t i = charts.size(); i-- > 1;)
    if (!crowded(source, charts[i]) && !crowded(source, charts[i - 1])) {
      half[i] = half[i - 1] = true;
      --i;
    }
  std::string out;
  for (std::size_t i = 0; i < charts.size(); ++i) {
    const std::string svg = chart_svg(charts[i], source.units, half[i] ? kHalf : kColumn, half[i] ? 150 : 170);
    if (!svg.empty())
      out += fmt::format("<figure><figcaption>{}</figcaption>{}</figure>\n",
                         markup(charts[i]["title"].get<std::string>()), svg);
  }
  return out.empty() ? out : "<div class=\"charts\">" + out + "</div>\n";
}

std::string assumption_table(const Source& source, const Json& assumptions) {
  std::set<std::pair<std::string, std::string>> said;
  Table table{"facts", {"Taken, because it was not said", "Value", "Range", "Source"}, {}};
  for (const Json& a : assumptions) {
    const std::string value = source.shown(a["value"]), low = source.shown(a["low"]), high = source.shown(a["high"]);
    // The machine and its duty may both have had to take the same field.
    if (!said.emplace(a["path"].get<std::string>(), value).second) continue;
    table.rows.push_back({markup(a["text"].get<std::string>()), markup(value),
                          low == high ? "–" : fmt::format("{} to {}", markup(low), markup(high)),
                          markup(a["source"].get<std::string>())});
  }
  return table.rows.empty() ? "" : table.html();
}

std::string proposal(const Source& source, const std::map<std::string, int>& pages) {
  const char* kind = source.serves() ? "Proposal" : "Examination without an offer";
  std::string body = masthead(source, kind) + in_short(source) + first_cautions(source) + contents(source, pages) +
                     asked(source) + offered(source) + at_a_glance(source) + detail(source);
  if (!source.compare.is_null()) body += heading(kCompare, "new-page") + comparison(source);
  if (has_case(source)) body += heading(kCase) + business_case(source);
  body += gaps(source) + heading(kCautions) +
          paragraph("The three that weigh most stand on the first page; the others follow, the gravest first.") +
          further_cautions(source) + next_steps(source);
  if (source.serves()) body += price(source);
  return html_page(source, kind, body + appendix(source));
}

}  // namespace lobewise::handover
