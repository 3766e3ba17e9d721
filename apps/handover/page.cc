#include "apps/handover/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "apps/handover/style.h"
#include "apps/handover/text.h"

namespace lobewise::handover {

std::string html_page(const Source& source, const std::string& kind, const std::string& body, bool landscape) {
  const std::string paper = source.order.paper == "letter" ? "letter" : "A4";
  const std::string page = fmt::format(
      "@page{{size:{} {};@bottom-left{{content:\"{}\"}}@bottom-right{{content:counter(page) \" / \" counter(pages)}}}}",
      paper, landscape ? "landscape" : "portrait",
      css_string(fmt::format("{} · {} · {}", shortened(source.title(), 60), source.build_name(), source.order.date)));
  return fmt::format(
      "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
      "<title>{}: {}</title>\n<style>{}{}</style></head>\n<body class=\"{}\">\n{}</body></html>\n",
      markup(kind), markup(source.title()), kStyle, page, landscape ? "landscape" : "portrait", body);
}

/// Characters of a title that stands in large letters.
constexpr std::size_t kLongTitle = 80;

std::string masthead(const Source& source, const std::string& kind) {
  std::string out = fmt::format("<header class=\"masthead\"><p class=\"kind\">{}</p><h1{}>{}</h1><dl>", markup(kind),
                                code_points(clean(source.title())).size() > kLongTitle ? " class=\"long\"" : "",
                                markup(source.title()));
  const auto line = [&](const char* label, const std::string& value) {
    if (!value.empty()) out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>", label, markup(value));
  };
  line("For", source.customer());
  line(source.offered_as().c_str(), source.build_name());
  line("Date", source.order.date);
  return out + "</dl></header>\n";
}

std::string Table::html() const {
  std::string out = fmt::format("<table class=\"{}\">", css_class);
  if (!head.empty()) {
    out += "<thead><tr>";
    for (const std::string& cell : head) out += fmt::format("<th scope=\"col\">{}</th>", cell);
    out += "</tr></thead>";
  }
  out += "<tbody>";
  for (const auto& row : rows) {
    out += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i)
      out += i == 0 ? fmt::format("<th scope=\"row\">{}</th>", row[i]) : fmt::format("<td>{}</td>", row[i]);
    out += "</tr>\n";
  }
  return out + "</tbody></table>\n";
}

std::string verdict_mark(const std::string& verdict, bool with_word) {
  const char* shape = "<path d=\"M4 3.2a2.2 2.2 0 1 1 3 2.4q-1 .5-1 1.6M6 9v.6\" class=\"stroke\"/>";
  std::string name = "unknown";
  if (verdict == "holds") {
    shape = "<circle cx=\"6\" cy=\"6\" r=\"4.6\" class=\"fill\"/>";
    name = verdict;
  } else if (verdict == "holds_if") {
    shape =
        "<circle cx=\"6\" cy=\"6\" r=\"4.3\" class=\"stroke\"/><path d=\"M6 1.7a4.3 4.3 0 0 0 0 8.6z\" "
        "class=\"fill\"/>";
    name = verdict;
  } else if (verdict == "does_not_hold") {
    shape = "<path d=\"M2 2l8 8M10 2l-8 8\" class=\"stroke heavy\"/>";
    name = verdict;
  }
  return fmt::format(
      "<span class=\"verdict {}\"><svg viewBox=\"0 0 12 12\" width=\"9pt\" height=\"9pt\" aria-hidden=\"true\">{}</svg>"
      "{}{}</span>",
      name, shape, with_word ? " " : "", with_word ? markup(words(verdict)) : "");
}

std::string margin_bar(double margin, bool at_most) {
  const double used = at_most ? 1 - margin : 1 / std::max(1e-3, 1 + margin);
  constexpr double kFull = 60, kOver = 12;  // [pt]: room to the limit, and beyond it
  const double length = std::clamp(used * kFull, 1.0, kFull + kOver);
  return fmt::format(
      "<svg class=\"margin\" viewBox=\"0 0 74 8\" width=\"74pt\" height=\"8pt\" aria-hidden=\"true\">"
      "<rect x=\"0\" y=\"1.5\" width=\"60\" height=\"5\" class=\"room\"/>"
      "<rect x=\"0\" y=\"1.5\" width=\"{:.1f}\" height=\"5\" class=\"{}\"/><path d=\"M60 0v8\" class=\"end\"/></svg>",
      length, used > 1 ? "over" : "used");
}

const Json* decisive_check(const Json& finding) {
  const Json* worst = nullptr;
  for (const Json& check : finding["checks"])
    if (worst == nullptr || check["margin"].get<double>() < (*worst)["margin"].get<double>()) worst = &check;
  return worst;
}

std::string percent_figure(double share) {
  const double value = 100 * share;
  const std::string text = fmt::format("{:.{}f}", std::abs(value), std::abs(value) < 0.95 && value != 0 ? 1 : 0);
  return fmt::format("{}{}", value < 0 && text != "0.0" ? "−" : "", text);
}

std::string percent(double share) { return fmt::format("{}\u00a0%", percent_figure(share)); }

std::string check_text(const Source& source, const Json& check) {
  return fmt::format("{} {}\u00a0{}", markup(source.shown(check["figure"])), check["at_most"].get<bool>() ? "≤" : "≥",
                     markup(source.shown(check["limit"])));
}

std::string range_note(const Source& source) {
  const Json& range = source.offer()["range"];
  const std::string note = range.value("note", std::string());
  if (note.empty()) return "";
  return fmt::format("<p class=\"note\"><strong>{}, version {}.</strong> {}</p>\n",
                     markup(range.value("name", std::string())), markup(range.value("version", std::string())),
                     markup(note));
}

namespace {

std::string cautions_of(const Source& source, std::size_t from, std::size_t to) {
  const Json& all = source.prove["cautions"];
  std::string out = "<ul class=\"cautions\">";
  for (std::size_t i = from; i < std::min(to, all.size()); ++i)
    out +=
        fmt::format("<li>{} <em>{}, {}.</em></li>", markup(all[i]["text"].get<std::string>()),
                    markup(sentence_case(all[i]["who"].get<std::string>())), markup(all[i]["when"].get<std::string>()));
  return out + "</ul>\n";
}

}  // namespace

std::string said_in_words(const Source& source, std::string_view path) {
  for (const Json& one : source.prove["conditions"])
    if (one["path"] == path) return one["text"].get<std::string>();
  return "";
}

std::string first_cautions(const Source& source) {
  return "<div class=\"together\"><h2>Before anything else</h2>" + cautions_of(source, 0, kCautionsAtTheTop) +
         "</div>\n";
}

std::string further_cautions(const Source& source) {
  return cautions_of(source, kCautionsAtTheTop, source.prove["cautions"].size());
}

std::string refusal(const Source& source) {
  if (source.serves()) return "";
  return fmt::format("<div class=\"alert together\"><strong>No offer.</strong> {}</div>\n",
                     markup(source.shown(source.prove["why_none"])));
}

}  // namespace lobewise::handover
