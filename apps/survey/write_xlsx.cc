// The workbook. Rows are written as they come (constant memory); every text is written as text, so nothing in a cell
// can become a formula.

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "apps/survey/columns.h"
#include "apps/survey/write.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kLongestCell = 32'000;  // characters a cell may hold: 32 767
constexpr const char* kVerdicts[] = {"holds", "holds_if", "does_not_hold", "cannot_be_judged"};

/// A sheet that is written row by row.
class Sheet {
 public:
  Sheet(lxw_workbook* book, const char* name, lxw_format* head, std::vector<std::pair<std::string, double>> columns,
        int frozen, std::uint8_t paper)
      : sheet_(workbook_add_worksheet(book, name)), width_(columns.size()) {
    worksheet_set_landscape(sheet_);
    worksheet_set_paper(sheet_, paper);
    worksheet_fit_to_pages(sheet_, 1, 0);
    worksheet_repeat_rows(sheet_, 0, 0);
    worksheet_freeze_panes(sheet_, 1, static_cast<lxw_col_t>(frozen));
    for (std::size_t i = 0; i < columns.size(); ++i)
      worksheet_set_column(sheet_, column(i), column(i), columns[i].second, nullptr);
    for (std::size_t i = 0; i < columns.size(); ++i) text(i, columns[i].first, head);
    end_row();
  }
  void text(std::size_t at, const std::string& text, lxw_format* format = nullptr) {
    if (text.empty()) return;
    std::string cell = clean(text);
    if (cell.size() > kLongestCell) {
      std::size_t cut = kLongestCell;
      while (cut > 0 && (static_cast<unsigned char>(cell[cut]) & 0xC0U) == 0x80U) --cut;
      cell = cell.substr(0, cut) + " …";
    }
    worksheet_write_string(sheet_, row_, column(at), cell.c_str(), format);
  }
  /// As it stands, leading blanks too. Precondition: no control characters.
  void verbatim(std::size_t at, const std::string& text) {
    worksheet_write_string(sheet_, row_, column(at), text.c_str(), nullptr);
  }
  void number(std::size_t at, double value, lxw_format* format = nullptr) {
    worksheet_write_number(sheet_, row_, column(at), value, format);
  }
  void end_row() { ++row_; }
  void filter() {
    if (row_ > 1) worksheet_autofilter(sheet_, 0, 0, row_ - 1, column(width_ - 1));
  }

 private:
  static lxw_col_t column(std::size_t at) { return static_cast<lxw_col_t>(at); }
  lxw_worksheet* sheet_;
  std::size_t width_;
  lxw_row_t row_ = 0;
};

double rounded(double value, int digits) {
  if (value == 0 || !std::isfinite(value)) return value;
  const double scale = std::pow(10.0, digits - 1 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

struct Formats {
  lxw_format* head;
  lxw_format *verdicts[4], *estimates[4];

  explicit Formats(lxw_workbook* book) : head(workbook_add_format(book)) {
    format_set_bold(head);
    format_set_text_wrap(head);
    format_set_align(head, LXW_ALIGN_VERTICAL_TOP);
    format_set_bottom(head, LXW_BORDER_THIN);
    // Word and shape carry the verdict, colour only helps.
    constexpr const char* kShapes[] = {"\"● \"0%", "\"◐ \"0%", "\"✗ \"0%", "\"? \"0%"};
    constexpr const char* kAbout[] = {"\"● ≈ \"0%", "\"◐ ≈ \"0%", "\"✗ ≈ \"0%", "\"? ≈ \"0%"};
    constexpr lxw_color_t kColours[] = {0x1F6F43, 0x8A5A00, 0xA3162A, 0x555555};
    for (std::size_t i = 0; i < 4; ++i) {
      for (const auto& [format, shape] : {std::pair{&verdicts[i], kShapes[i]}, {&estimates[i], kAbout[i]}}) {
        *format = workbook_add_format(book);
        format_set_num_format(*format, shape);
        format_set_font_color(*format, kColours[i]);
        format_set_align(*format, LXW_ALIGN_RIGHT);
      }
    }
  }
};

std::size_t verdict_of(const Json& finding) {
  const std::string& word = finding["verdict"].get_ref<const std::string&>();
  return static_cast<std::size_t>(std::find(std::begin(kVerdicts), std::end(kVerdicts) - 1, word) -
                                  std::begin(kVerdicts));
}

/// How often a caution is given, and where first.
struct Warned {
  long lines = 0;
  std::string rows;
};

}  // namespace

Errors write_xlsx(const std::string& file, const Report& report, Outcome& outcome) {
  const Result<Ranking> ranking = ranking_of(outcome);
  if (!ranking) return ranking.errors();
  lxw_workbook_options options{};
  options.constant_memory = 1;
  options.use_zip64 = 1;
  lxw_workbook* book = workbook_new_opt(file.c_str(), &options);
  if (book == nullptr) return {input_error("", file, "this file cannot be written")};
  const Formats formats(book);
  const std::uint8_t paper = report.units == UnitSystem::us ? 1 : 9;  // Letter, A4

  const std::vector<ResultColumn> columns = ranked_columns(report, ranking->estimated());
  std::vector<std::pair<std::string, double>> heads{{"Rank", 6}};
  for (const ResultColumn& column : columns) heads.emplace_back(column.heading, column.width);
  Sheet ranked(book, "Ranked", formats.head, heads, 4, paper);
  heads = {{"Rank", 6}, {"Row", 6}, {"Tag", 12}, {"Drive", 28}, {"Reducer", 18}};
  for (std::size_t i = 0; i < ranking->findings.size(); ++i)
    heads.emplace_back(ranking->findings[i] + (ranking->estimates[i] ? " (margin left, ≈)" : " (margin left)"), 12);
  heads.emplace_back("What decides, in words", 100);
  Sheet findings(book, "Findings", formats.head, heads, 4, paper);
  Sheet problems(book, "Problems", formats.head,
                 {{"Row", 6},
                  {"Tag", 12},
                  {"Drive", 28},
                  {"Column", 8},
                  {"Heading", 22},
                  {"Cell", 22},
                  {"What is wrong", 70},
                  {"What was done", 24}},
                 3, paper);
  Sheet mapping(book, "Mapping", formats.head,
                {{"The mapping file: copy it into a text file to give it back with --mapping", 120}}, 0, paper);
  Sheet assumptions(book, "Assumptions", formats.head,
                    {{"Row", 6},
                     {"Tag", 12},
                     {"Field", 34},
                     {"What was taken", 60},
                     {"Value", 14},
                     {"From", 14},
                     {"To", 14},
                     {"Source", 40}},
                    2, paper);
  Sheet cautions(book, "Cautions", formats.head, {{"Caution", 120}, {"Lines", 8}, {"Rows", 40}}, 0, paper);

  std::map<std::string, Warned> warned;
  std::string text;
  Errors errors;
  for (std::size_t i = 0; i < ranking->order.size() && errors.empty(); ++i) {
    if (!outcome.records.read(ranking->order[i], text)) {
      errors.push_back(input_error("", file, "the temporary file cannot be read"));
      break;
    }
    const Json record = Json::parse(text, nullptr, false);
    const double row = record["row"];
    const std::string tag = record.value("tag", ""), title = record.value("title", "");
    ranked.number(0, static_cast<double>(i + 1));
    for (std::size_t c = 0; c < columns.size(); ++c) {
      const Value value = columns[c].value(record);
      if (const auto* number = std::get_if<double>(&value))
        ranked.number(c + 1, rounded(*number, columns[c].digits));
      else if (const auto* words = std::get_if<std::string>(&value))
        ranked.text(c + 1, *words);
    }
    ranked.end_row();

    findings.number(0, static_cast<double>(i + 1));
    findings.number(1, row);
    findings.text(2, tag);
    findings.text(3, title);
    findings.text(4, record.value("build_name", ""));
    const Json* decides = nullptr;
    for (const Json& finding : record.value("findings", Json::array())) {
      const auto at = static_cast<std::size_t>(
          std::find(ranking->findings.begin(), ranking->findings.end(), finding["id"].get_ref<const std::string&>()) -
          ranking->findings.begin());
      const std::size_t verdict = verdict_of(finding);
      if (finding.contains("margin"))
        findings.number(5 + at, rounded(finding["margin"], 3),
                        (finding.value("estimate", false) ? formats.estimates : formats.verdicts)[verdict]);
      else
        findings.text(5 + at, verdict_words(kVerdicts[verdict]), formats.verdicts[verdict]);
    }
    const Json& list = record.contains("findings") ? record["findings"] : Json::array();
    for (const Json& finding : list)
      if (finding.contains("margin") && (decides == nullptr || finding["margin"] < (*decides)["margin"]))
        decides = &finding;
    if (!record.value("reason", "").empty())
      findings.text(5 + ranking->findings.size(), "not proved: " + record["reason"].get<std::string>());
    else if (record.contains("why_none"))
      findings.text(5 + ranking->findings.size(), in_units(record["why_none"], report));
    else if (decides != nullptr)
      findings.text(5 + ranking->findings.size(), (decides->value("estimate", false) ? "with rigid discs ≈ " : "") +
                                                      in_units((*decides)["answer"], report));
    findings.end_row();

    const auto problem_row = [&](const Json& problem) {
      problems.number(0, row);
      problems.text(1, tag);
      problems.text(2, title);
      const char* keys[] = {"column", "heading", "cell", "message", "done"};
      for (std::size_t k = 0; k < 5; ++k) problems.text(3 + k, problem.value(keys[k], ""));
      problems.end_row();
    };
    for (const Json& problem : record.value("problems", Json::array())) problem_row(problem);
    if (!record.value("reason", "").empty())
      problem_row(Json{{"message", record["reason"]}, {"done", "the line is not proved"}});

    const auto assumption_row = [&](const std::string& path, const std::string& words, const Json& assumption) {
      assumptions.number(0, row);
      assumptions.text(1, tag);
      assumptions.text(2, path);
      assumptions.text(3, words);
      const char* keys[] = {"value", "low", "high"};
      for (std::size_t k = 0; k < 3; ++k)
        if (assumption.contains(keys[k])) assumptions.text(4 + k, in_units(assumption[keys[k]], report));
      assumptions.text(7, assumption.value("source", ""));
      assumptions.end_row();
    };
    for (const Json& note : record.value("notes", Json::array()))
      assumption_row("", note.get<std::string>(), Json::object());
    for (const Json& assumption : record.value("assumptions", Json::array()))
      assumption_row(assumption.value("path", ""), assumption.value("text", ""), assumption);
    for (const Json& caution : record.value("cautions", Json::array())) {
      Warned& w = warned[caution.get<std::string>()];
      ++w.lines;
      if (w.lines <= 20) w.rows += (w.rows.empty() ? "" : ", ") + format_number(row, 7);
      if (w.lines == 21) w.rows += ", …";
    }
  }
  for (std::size_t at = 0; at < report.mapping.size();) {
    const std::size_t end = std::min(report.mapping.find('\n', at), report.mapping.size());
    if (end > at) mapping.verbatim(0, report.mapping.substr(at, end - at));
    mapping.end_row();
    at = end + 1;
  }
  for (const auto& [caution, w] : warned) {
    cautions.text(0, caution);
    cautions.number(1, static_cast<double>(w.lines));
    cautions.text(2, w.rows);
    cautions.end_row();
  }
  for (Sheet* sheet : {&ranked, &findings, &problems, &assumptions}) sheet->filter();
  lxw_doc_properties properties{};
  std::string title = "Survey of " + clean(report.list), comment = "Engineering estimates by lobewise " +
                                                                   report.version +
                                                                   ". Local codes and a licensed engineer decide.";
  properties.title = title.data();
  properties.comments = comment.data();
  workbook_set_properties(book, &properties);
  const lxw_error code = workbook_close(book);
  if (code != LXW_NO_ERROR && errors.empty())
    errors.push_back(input_error("", file, fmt::format("this file cannot be written: {}", lxw_strerror(code))));
  return errors;
}

}  // namespace lobewise::survey
