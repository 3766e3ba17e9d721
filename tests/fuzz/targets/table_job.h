#pragma once
// A list that somebody gave, as far as proving it.

#include "apps/survey/fields.h"

namespace lobewise::fuzz {

[[nodiscard]] const survey::Fields& fields();
/// Reads the file, proposes a mapping, keeps it, takes it again, and makes an enquiry of each of the first rows.
void read_list(const std::string& file);

}  // namespace lobewise::fuzz
