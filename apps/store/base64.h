#pragma once
// Base64 (RFC 4648, section 4) for bytes inside JSON.

#include <optional>
#include <string>

namespace lobewise::store {

/// Nothing when it is not base64 with its padding.
[[nodiscard]] std::optional<std::string> from_base64(const std::string& text);

}  // namespace lobewise::store
