#include "tests/support/source_dir.h"

namespace lobewise::test {
std::string source_dir() { return LOBEWISE_SOURCE_DIR; }
}  // namespace lobewise::test
