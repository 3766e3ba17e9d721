// A slice of a survey, made by another machine, joined.

#include "apps/survey/columns.h"
#include "apps/survey/run.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void slice(std::string_view bytes) {
  const MemoryFile file(bytes);
  Result<std::pair<survey::SliceHead, survey::Outcome>> joined = survey::join({file.path()});
  if (!joined) return;
  survey::Report report;
  report.mapping = joined->first.mapping;
  const std::string out = work_folder() + "/out.csv";
  (void)survey::write_result(out, report, joined->second);
}

}  // namespace lobewise::fuzz
