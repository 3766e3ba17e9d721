#include "tests/fuzz/targets/table_job.h"

#include "apps/cli/read_file.h"
#include "apps/survey/line.h"
#include "engine/api/registry.h"
#include "tests/fuzz/target.h"

namespace lobewise::fuzz {

const survey::Fields& fields() {
  static const survey::Fields kFields(*api::Session().registry().run("schema", {{"of", "enquiry"}}));
  return kFields;
}

void read_list(const std::string& file) {
  const Result<std::unique_ptr<survey::TableReader>> reader = survey::open_table(file, "");
  if (!reader) return;
  std::vector<survey::Row> rows;
  survey::Row row;
  while (rows.size() < survey::kSampleRows) {
    const Result<bool> got = (*reader)->next(row);
    if (!got || !*got) break;
    for (const survey::Cell& cell : row.cells) require(survey::is_utf8(cell.text), "the text of a cell is UTF-8");
    rows.push_back(row);
  }
  Result<survey::Mapping> proposed = survey::propose(rows, fields(), (*reader)->sheet());
  if (!proposed) return;
  for (survey::Column& column : proposed->columns) column.remark.clear();  // a comment for people
  const std::string kept = survey::mapping_yaml(*proposed, fields());
  const Result<cli::Document> document = cli::parse_document(kept, "mapping");
  require(document.ok(), "a mapping that was kept is YAML", kept);
  Result<survey::Mapping> mapping = survey::read_mapping(document->json, fields());
  require(mapping.ok(), "a mapping that was kept is taken again", kept);
  for (survey::Column& column : mapping->columns) column.remark.clear();
  require(survey::mapping_yaml(*mapping, fields()) == kept, "a mapping stays as it is", kept);
  for (const survey::Row& each : rows) {
    if (each.number == mapping->header_row)
      require(survey::fit(*mapping, each).empty(), "it fits the list it came from", kept);
    if (each.number <= mapping->header_row) continue;
    const survey::Line line = survey::read_line(each, *mapping, fields());
    const std::string yaml = survey::enquiry_yaml(line);
    const Result<cli::Document> enquiry = cli::parse_document(yaml, "line");
    require(line.enquiry.empty() || enquiry.ok(), "the enquiry of a line is YAML", yaml);
  }
}

}  // namespace lobewise::fuzz
