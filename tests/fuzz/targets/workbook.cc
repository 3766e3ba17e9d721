// A plant's list as a workbook: the parts of the input are the parts of the XLSX.

#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/table_job.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void workbook(std::string_view bytes) { read_list(zip_of(parts_of(bytes))); }

}  // namespace lobewise::fuzz
