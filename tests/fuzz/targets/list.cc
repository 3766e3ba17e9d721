// A plant's list as a file: CSV in any encoding, or whatever else somebody sends.

#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/table_job.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void list(std::string_view bytes) { read_list(MemoryFile(bytes).path()); }

}  // namespace lobewise::fuzz
