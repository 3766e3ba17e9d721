// `lobewise survey`: a plant's list of drives, proved line by line, the ones worth looking at first on top.

#include <fmt/format.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <thread>

#include "apps/cli/commands.h"
#include "apps/cli/exit.h"
#include "apps/cli/interrupt.h"
#include "apps/cli/job.h"
#include "apps/cli/progress.h"
#include "apps/cli/read_file.h"
#include "apps/survey/columns.h"
#include "apps/survey/write.h"
#include "engine/api/registry.h"
#include "engine/api/survey_line.h"
#include "engine/base/checksum.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;
using survey::Mapping;
using survey::Row;

struct SurveyOptions {
  std::string list, out, mapping, sheet, range, units = "si", slice;
  std::vector<std::string> join;
  int threads = 0;
  long line = 0;
  bool propose = false, rigid = false, elastic = false;
};

bool ends_with(const std::string& text, std::string_view end) {
  return text.size() >= end.size() && text.compare(text.size() - end.size(), end.size(), end) == 0;
}

Result<survey::Slice> read_slice(const std::string& text) {
  survey::Slice slice;
  int length = 0;
  if (text.empty()) return slice;
  if (std::sscanf(text.c_str(), "%d/%d%n", &slice.part, &slice.of, &length) != 2 ||
      static_cast<std::size_t>(length) != text.size() || slice.of < 1 || slice.of > 100'000 || slice.part < 1 ||
      slice.part > slice.of)
    return input_error("--slice", text, "K/N with K from 1 to N, e.g. 3/8");
  return slice;
}

/// Where a proposal is kept: beside the result, or beside the list.
std::string mapping_file(const SurveyOptions& options) {
  const std::filesystem::path beside = options.out.empty() ? options.list : options.out;
  return (beside.parent_path() / (beside.stem().string() + ".mapping.yaml")).string();
}

void show_mapping(const Mapping& mapping, const survey::Fields& fields, const Style& style, std::ostream& out) {
  std::vector<std::vector<std::string>> rows{{"column", "heading", "says", "unit", ""}};
  for (const survey::Column& column : mapping.columns) {
    const survey::Field* field = column.field.empty() ? nullptr : fields.find(column.field);
    rows.push_back({survey::letters(column.place), column.heading, field != nullptr ? field->label : "–", column.unit,
                    column.remark});
  }
  out << style.bold(fmt::format("Headings in row {}{}", mapping.header_row,
                                mapping.sheet.empty() ? "" : " of sheet " + mapping.sheet))
      << '\n'
      << table(rows, {}, style);
  for (const auto& [field, value] : mapping.defaults) {
    const survey::Field* known = fields.find(field);
    out << paragraph(fmt::format("{}: {} where the list says nothing", known != nullptr ? known->label : field, value),
                     4, "  –");
  }
  if (mapping.decimal_comma) out << "  – numbers are read with a decimal comma\n";
}

/// A list with its mapping, standing at the row after the headings.
struct OpenList {
  std::unique_ptr<survey::TableReader> reader;
  Mapping mapping;
};

/// Reads the mapping that was given, or proposes one; then opens the list again and goes to its first line.
Result<OpenList> open_list(const SurveyOptions& options, const survey::Fields& fields) {
  OpenList out;
  std::string sheet = options.sheet;
  if (!options.mapping.empty()) {
    const Result<Document> document = read_document(options.mapping);
    if (!document) return document.errors();
    Result<Mapping> mapping = survey::read_mapping(document->json, fields);
    if (!mapping) {
      Errors errors = mapping.errors();
      add_lines(errors, document->lines);
      for (Error& error : errors) error.path = options.mapping + ": " + error.path;
      return errors;
    }
    out.mapping = std::move(*mapping);
    if (sheet.empty()) sheet = out.mapping.sheet;
  } else {
    const Result<std::unique_ptr<survey::TableReader>> reader = survey::open_table(options.list, sheet);
    if (!reader) return reader.errors();
    std::vector<Row> sample;
    Row row;
    while (sample.size() < survey::kSampleRows) {
      const Result<bool> got = (*reader)->next(row);
      if (!got) return got.errors();
      if (!*got) break;
      sample.push_back(row);
    }
    Result<Mapping> mapping = survey::propose(sample, fields, (*reader)->sheet());
    if (!mapping) return mapping.errors();
    out.mapping = std::move(*mapping);
  }
  Result<std::unique_ptr<survey::TableReader>> reader = survey::open_table(options.list, sheet);
  if (!reader) return reader.errors();
  out.reader = std::move(*reader);
  Row row;
  for (;;) {
    const Result<bool> got = out.reader->next(row);
    if (!got) return got.errors();
    if (!*got || row.number > out.mapping.header_row)
      return input_error("header_row", std::to_string(out.mapping.header_row), "this row of the list is empty");
    if (row.number == out.mapping.header_row) break;
  }
  const Errors errors = survey::fit(out.mapping, row);
  if (!errors.empty()) return errors;
  return out;
}

/// What was found, in a few lines.
Result<std::string> summary(survey::Outcome& outcome, const survey::Report& report, const Style& style) {
  const Result<survey::Ranking> ranking = survey::ranking_of(outcome);
  if (!ranking) return ranking.errors();
  std::map<std::string, long> count;
  std::size_t problems = 0;
  std::vector<std::vector<std::string>> rows{{"", "row", "drive", "points", "result", "reducer"}};
  std::string reasons, text;
  constexpr std::size_t kShown = 8;
  for (std::size_t i = 0; i < ranking->order.size(); ++i) {
    if (!outcome.records.read(ranking->order[i], text)) continue;
    const Json record = Json::parse(text, nullptr, false);
    ++count[record.value("status", "")];
    problems += record.value("problems", Json::array()).size();
    if (i >= kShown) continue;
    const std::string name =
        record.value("tag", "") + (record.value("tag", "").empty() ? "" : " ") + record.value("title", "");
    rows.push_back({fmt::format("{}.", i + 1), fmt::format("{}", record.value("row", 0L)), name,
                    format_number(record.value("total", 0.0), 3), record.value("status", ""),
                    record.value("build_name", "")});
    reasons += paragraph(survey::in_units(record.value("why", Json("")), report), 6, fmt::format("  {:>2}.", i + 1));
  }
  std::string out = '\n' + style.bold("Worth looking at first") + '\n' + table(rows, {1, 3}, style) + reasons + '\n';
  std::string totals;
  for (const auto& [status, n] : count) totals += fmt::format("{}{} {}", totals.empty() ? "" : ", ", n, status);
  out += fmt::format("  {} lines: {}. {} cell{} in question.\n", ranking->order.size(), totals, problems,
                     problems == 1 ? "" : "s");
  return out;
}

int run_survey(const SurveyOptions& options) {
  const auto no = [&](const Errors& errors) { return refuse(errors, options.list, false); };
  const bool joining = !options.join.empty();
  if (!joining && options.list.empty()) return no({input_error("LIST", "", "name the list, XLSX or CSV")});
  const bool slicing = !options.slice.empty();
  if (!options.out.empty() && slicing == (ends_with(options.out, ".xlsx") || ends_with(options.out, ".csv")))
    return no({input_error("--out", options.out,
                           slicing ? "a slice is joined later: give it a name that ends in neither .xlsx nor .csv"
                                   : "a name that ends in .xlsx or .csv")});
  if (options.out.empty() && !options.propose && options.line == 0)
    return no({input_error("--out", "", "name the result, .xlsx or .csv")});

  const Result<Json> schema = api::Session().registry().run("schema", Json{{"of", "enquiry"}});
  if (!schema) return no(schema.errors());
  const survey::Fields fields(*schema);
  survey::Report report{std::filesystem::path(options.list).filename().string(), "",
                        options.units == "us" ? UnitSystem::us : UnitSystem::si, LOBEWISE_VERSION, fields.machines()};
  const Style style = style_for(STDOUT_FILENO, options.units);

  if (joining) {
    Result<std::pair<survey::SliceHead, survey::Outcome>> joined = survey::join(options.join);
    if (!joined) return refuse(joined.errors(), "", false);
    report.list = joined->first.list_name;
    report.mapping = joined->first.mapping;
    const Errors errors = survey::write_result(options.out, report, joined->second);
    if (!errors.empty()) return refuse(errors, "", false);
    const Result<std::string> words = summary(joined->second, report, style);
    std::cout << (words ? *words : "") << "  Written: " << options.out << '\n';
    return kAnswered;
  }

  const Result<survey::Slice> slice = read_slice(options.slice);
  if (!slice) return no(slice.errors());
  Result<OpenList> list = open_list(options, fields);
  if (!list) return no(list.errors());
  report.mapping = survey::mapping_yaml(list->mapping, fields);
  if (options.line > 0) {
    Row row;
    for (;;) {
      const Result<bool> got = list->reader->next(row);
      if (!got) return no(got.errors());
      if (!*got || row.number > options.line)
        return no({input_error("--line", std::to_string(options.line), "the list has nothing in this row")});
      if (row.number == options.line) break;
    }
    const survey::Line line = survey::read_line(row, list->mapping, fields);
    if (line.refused) return no({input_error("--line", std::to_string(options.line), line.obstacle)});
    for (const survey::Problem& problem : line.problems)
      std::cerr << fmt::format("{}{} '{}': {} ({})\n", problem.column, line.row, problem.cell, problem.message,
                               problem.done);
    std::cout << survey::enquiry_yaml(line);
    if (line.obstacle.empty()) return kAnswered;
    std::cerr << line.obstacle << '\n';
    return kInputError;
  }
  show_mapping(list->mapping, fields, style, std::cout);
  if (options.mapping.empty()) {
    const std::string file = mapping_file(options);
    std::ifstream there(file);
    const std::string old{std::istreambuf_iterator<char>(there), std::istreambuf_iterator<char>()};
    if (!old.empty() && old != report.mapping) {
      std::cout << paragraph(fmt::format("{} is there already and says something else; it was left alone and not used. "
                                         "Give it with --mapping to use it.",
                                         file),
                             2);
    } else {
      std::ofstream(file, std::ios::binary | std::ios::trunc) << report.mapping;
      std::cout << paragraph(fmt::format("Kept in {}: edit it and give it back with --mapping.", file), 2);
    }
  }
  if (options.propose) return kAnswered;

  Json range;
  if (!options.range.empty()) {
    const Result<Json> read = read_json(options.range);
    if (!read) return refuse(read.errors(), options.range, false);
    range = *read;
  }
  const api::LineMesh mesh = options.rigid ? api::LineMesh::rigid : api::LineMesh::elastic;
  if (const Result<api::LineProver> first = api::LineProver::open(range, mesh); !first)
    return refuse(first.errors(), options.range, false);

  const int cores = static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
  survey::Work work;
  work.mapping = &list->mapping;
  work.fields = &fields;
  work.threads = options.threads > 0 ? options.threads : cores;
  work.slice = *slice;
  work.make_prover = [&range, mesh, shelf = cli::shelf()]() -> survey::Prover {
    Result<api::LineProver> opened = api::LineProver::open(range, mesh, shelf);
    const auto prover = std::make_shared<Result<api::LineProver>>(std::move(opened));
    return [prover](const Json& enquiry) -> Result<Json> {
      if (!*prover) return prover->errors();
      return (**prover).prove(enquiry);
    };
  };
  const Interrupt interrupt;
  work.cancelled = [] { return Interrupt::asked(); };
  Result<survey::Outcome> outcome = [&] {
    ProgressLine progress;
    work.progress = [&](const survey::Progress& p) { progress.show(p.share, fmt::format("{} lines", p.lines)); };
    return survey::run(*list->reader, work);
  }();
  if (!outcome) return no(outcome.errors());

  Errors errors;
  if (slicing) {
    const Result<std::string> list_sum = survey::checksum_of_file(options.list);
    if (!list_sum) return no(list_sum.errors());
    const survey::SliceHead head{
        report.list,      *list_sum, report.mapping, !options.rigid, range.is_null() ? "" : checksum(range.dump()),
        LOBEWISE_VERSION, *slice};
    errors = survey::write_slice(options.out, head, *outcome);
  } else {
    errors = survey::write_result(options.out, report, *outcome);
  }
  if (!errors.empty()) return no(errors);
  const Result<std::string> words = summary(*outcome, report, style);
  std::cout << (words ? *words : "") << "  Written: " << options.out << '\n';
  if (!outcome->complete) {
    std::cerr << fmt::format("stopped after {} lines: {}. What was done is in {}.\n", outcome->records.size(),
                             outcome->stopped, options.out);
    return outcome->stopped == survey::kCancelledWord ? kCancelled : kInputError;
  }
  return kAnswered;
}

}  // namespace

void add_survey(CLI::App& app, int& code) {
  CLI::App* command = app.add_subcommand(
      "survey", "A plant's list of drives: every line sized and proved, the ones worth looking at first on top");
  const auto options = std::make_shared<SurveyOptions>();
  command->add_option("list", options->list, "list of drives, XLSX or CSV");
  command->add_option("--out", options->out, "result, .xlsx or .csv; with --slice any other name");
  command->add_option("--mapping", options->mapping, "which column says what, YAML; proposed and kept when left out");
  command->add_flag("--propose", options->propose, "only propose a mapping");
  command->add_option("--sheet", options->sheet, "sheet of the workbook, the first when left out");
  command->add_option("--line", options->line, "print the enquiry of this row, for `prove` and the workspace");
  command->add_option("--range", options->range, "range, JSON; the invented demo range when left out");
  command->add_flag("--rigid", options->rigid, "a quick look with rigid discs, which load single lobes more");
  command->add_flag("--elastic", options->elastic, "with discs that bend, as `prove` does: what is done anyway")
      ->excludes("--rigid");
  command->add_option("--slice", options->slice,
                      "K/N: only every N-th line beginning with the K-th, to be joined later");
  command->add_option("--join", options->join, "put slices together");
  command->add_option("--threads", options->threads, "threads, one a core when left out")->check(CLI::Range(1, 1024));
  command->add_option("--units", options->units, "si or us")->check(CLI::IsMember({"si", "us"}));
  command->callback([options, &code] { code = run_survey(*options); });
}

}  // namespace lobewise::cli
