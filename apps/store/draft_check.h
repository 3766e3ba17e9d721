#pragma once
// Checks of what comes in, from a person or from an export. Functions throw `input`.

#include <string>

#include "apps/store/records.h"

namespace lobewise::store {

/// What lists and searches know of an enquiry.
struct Summary {
  std::string title, customer, search;
};

/// Sizes, soundness and depth of a draft's JSON.
void check_draft(const Draft& draft);
/// @param input  as in a draft, checked
[[nodiscard]] Summary summary_of(const std::string& input);
/// A name is a file's name on any system, without a path; a type is a media type.
void require_document(const std::string& name, const std::string& type);

}  // namespace lobewise::store
