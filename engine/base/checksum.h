#pragma once

#include <string>
#include <string_view>

namespace lobewise {

/// FNV-1a, 64 bits, as hexadecimal digits. Source: Fowler, Noll, Vo, draft-eastlake-fnv. It tells mistakes, not malice.
/// @param before  checksum of what comes before the text
[[nodiscard]] std::string checksum(std::string_view text, std::string_view before = "");

}  // namespace lobewise
