#pragma once

#include <string>
#include <string_view>

namespace lobewise::store {

/// `text` with every `what` replaced.
[[nodiscard]] inline std::string replace_all(std::string text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
  return text;
}

}  // namespace lobewise::store
