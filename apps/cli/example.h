#pragma once
// The examples of examples/machines, compiled in.

#include <map>
#include <string>
#include <string_view>

namespace lobewise::cli {

/// Kind of machine -> its enquiry, YAML.
[[nodiscard]] const std::map<std::string, std::string_view>& example_files();

}  // namespace lobewise::cli
