#pragma once
#include <string>

namespace lobewise::test {
/// The clone, for tests that read its files. Known to one file only: the others compile alike in every clone.
[[nodiscard]] std::string source_dir();
}  // namespace lobewise::test
