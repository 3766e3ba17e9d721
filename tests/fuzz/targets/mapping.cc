// A mapping file that somebody edited.

#include "apps/survey/mapping.h"

#include "apps/cli/read_file.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/table_job.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void mapping(std::string_view bytes) {
  const Result<cli::Document> document = cli::parse_document(std::string(bytes), "mapping");
  if (!document) return;
  Result<survey::Mapping> read = survey::read_mapping(document->json, fields());
  if (!read) return;
  for (survey::Column& column : read->columns) column.remark.clear();  // a comment for people
  const std::string kept = survey::mapping_yaml(*read, fields());
  const Result<cli::Document> again = cli::parse_document(kept, "mapping");
  require(again.ok(), "a mapping that was kept is YAML", kept);
  Result<survey::Mapping> reread = survey::read_mapping(again->json, fields());
  require(reread.ok(), "a mapping that was kept is taken again", kept);
  for (survey::Column& column : reread->columns) column.remark.clear();
  require(survey::mapping_yaml(*reread, fields()) == kept, "a mapping stays as it is", kept);
}

}  // namespace lobewise::fuzz
