#pragma once
// Things said that cannot both be true. Nothing is worked out on either of them.

#include <string>

#include "engine/base/result.h"

namespace lobewise::demand {

/// A field with what was said there, as text.
struct Said {
  std::string path;
  std::string value;
};

/// The error stands at the first field and names the second: `contradicts PATH (VALUE): WHY`.
/// @param why  one sentence with what is allowed
[[nodiscard]] Error contradiction(const Said& first, const Said& second, const std::string& why);

}  // namespace lobewise::demand
