#pragma once
// The works behind the keys in square brackets, from docs/sources.bib.

#include <string>
#include <string_view>
#include <vector>

namespace lobewise::handover {

struct Reference {
  std::string key;
  std::string text;  ///< author: title, where, year
  std::string note;  ///< how it was used: read, quoted, from memory
};

/// Entries of a bibliography in the order of the file; fields are `name = {value}` without inner braces.
[[nodiscard]] std::vector<Reference> read_references(std::string_view bibliography);

/// Those whose key stands in square brackets in one of the texts.
[[nodiscard]] std::vector<Reference> references_in(const std::vector<std::string>& texts);

}  // namespace lobewise::handover
