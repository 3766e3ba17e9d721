#pragma once
// Whether something was said or taken.

#include <algorithm>
#include <string_view>

#include "engine/enquiry/requirement.h"

namespace lobewise::enquiry {

/// True when nobody said the field of that path and a value was taken for it.
[[nodiscard]] inline bool assumed(const Requirement& requirement, std::string_view path) {
  return std::any_of(requirement.assumptions.begin(), requirement.assumptions.end(),
                     [&](const Assumption& assumption) { return assumption.path == path; });
}

}  // namespace lobewise::enquiry
