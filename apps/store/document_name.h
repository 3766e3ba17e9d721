#pragma once
#include <string>

namespace lobewise::store {

/// Throws `input` unless it is a file's name on any system, without a path.
void require_document_name(const std::string& name);

}  // namespace lobewise::store
