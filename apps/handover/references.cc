#include "apps/handover/references.h"

#include <fmt/format.h>

#include <algorithm>

#include "apps/handover/sources_bib.h"

namespace lobewise::handover {
namespace {

std::string field(std::string_view entry, std::string_view name) {
  const std::string head = fmt::format(" {} = {{", name);
  const std::size_t from = entry.find(head);
  if (from == std::string_view::npos) return "";
  const std::size_t start = from + head.size();
  return std::string(entry.substr(start, entry.find('}', start) - start));
}

}  // namespace

std::vector<Reference> read_references(std::string_view bibliography) {
  std::vector<Reference> all;
  std::size_t at = bibliography.find("\n@");
  while (at != std::string_view::npos) {
    const std::size_t next = bibliography.find("\n@", at + 1);
    const std::string_view entry = bibliography.substr(at, next == std::string_view::npos ? next : next - at);
    const std::size_t open = entry.find('{'), comma = entry.find(',');
    at = next;
    if (open == std::string_view::npos || comma == std::string_view::npos || comma < open) continue;
    Reference reference;
    reference.key = std::string(entry.substr(open + 1, comma - open - 1));
    const std::string author = field(entry, "author");
    reference.text = author.empty() ? field(entry, "title") : fmt::format("{}: {}", author, field(entry, "title"));
    for (const char* name : {"journal", "publisher", "volume", "year"})
      if (const std::string value = field(entry, name); !value.empty()) reference.text += fmt::format(", {}", value);
    reference.note = field(entry, "note");
    all.push_back(std::move(reference));
  }
  return all;
}

std::vector<Reference> references_in(const std::vector<std::string>& texts) {
  std::vector<Reference> found;
  for (Reference& reference : read_references(kSourcesBib)) {
    const std::string mark = fmt::format("[{}]", reference.key);
    if (std::any_of(texts.begin(), texts.end(), [&](const std::string& t) { return t.find(mark) != t.npos; }))
      found.push_back(std::move(reference));
  }
  return found;
}

}  // namespace lobewise::handover
