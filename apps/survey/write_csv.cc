#include <fmt/format.h>

#include <fstream>

#include "apps/survey/columns.h"
#include "apps/survey/write.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

std::string cell_of(const Value& value, int digits) {
  if (const auto* number = std::get_if<double>(&value)) return format_number(*number, digits);
  if (const auto* text = std::get_if<std::string>(&value)) return csv_cell(*text);
  return "";
}

}  // namespace

std::string csv_cell(std::string_view text) {
  std::string out = clean(text);
  // What a spreadsheet would run: OWASP, CSV injection.
  if (!out.empty() && std::string_view("=+-@|").find(out.front()) != std::string_view::npos)
    out.insert(out.begin(), '\'');
  if (out.find_first_of("\",;\n\t") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + '"';
}

Errors write_csv(const std::string& file, const Report& report, Outcome& outcome) {
  const Result<Ranking> ranking = ranking_of(outcome);
  if (!ranking) return ranking.errors();
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  const std::vector<ResultColumn> columns = ranked_columns(report, ranking->estimated());
  out << "\xEF\xBB\xBF"
      << "Rank";  // the mark makes spreadsheets read UTF-8
  for (const ResultColumn& column : columns) out << ',' << csv_cell(column.heading);
  for (std::size_t i = 0; i < ranking->findings.size(); ++i)
    out << ',' << csv_cell(ranking->findings[i]) << ','
        << csv_cell(ranking->findings[i] + (ranking->estimates[i] ? " margin ≈ [%]" : " margin [%]"));
  out << ",Taken beside the list,Cautions\r\n";
  std::string text;
  for (std::size_t i = 0; i < ranking->order.size() && out; ++i) {
    if (!outcome.records.read(ranking->order[i], text))
      return {input_error("", file, "the temporary file cannot be read")};
    const Json record = Json::parse(text, nullptr, false);
    out << i + 1;
    for (const ResultColumn& column : columns) out << ',' << cell_of(column.value(record), column.digits);
    const Json findings = record.value("findings", Json::array());
    for (const std::string& id : ranking->findings) {
      const Json* found = nullptr;
      for (const Json& finding : findings)
        if (finding["id"] == id) found = &finding;
      out << ',';
      if (found != nullptr) out << csv_cell(verdict_words((*found)["verdict"].get<std::string>()));
      out << ',';
      if (found != nullptr && found->contains("margin"))
        out << format_number(100 * (*found)["margin"].get<double>(), 3);
    }
    out << ',' << csv_cell(list_text(record, "notes")) << ',' << csv_cell(list_text(record, "cautions")) << "\r\n";
  }
  out.close();
  if (!out) return {input_error("", file, "this file cannot be written")};
  return {};
}

}  // namespace lobewise::survey
