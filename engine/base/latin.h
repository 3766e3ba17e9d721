#pragma once
// Letters of Latin scripts without their accents, for telling words of plants apart.

#include <cstddef>
#include <string_view>

namespace lobewise {

/// One character of a UTF-8 text.
struct CodePoint {
  char32_t code = 0;
  std::size_t length = 1;  ///< bytes
};
/// The character at `at`; a byte that begins none stands for itself. Precondition: at < text.size().
[[nodiscard]] CodePoint code_point_at(std::string_view text, std::size_t at);

/// Small letter a … z or digit that a character comes down to (`Ś` -> s); a blank for what parts words; 0 for letters
/// of other scripts.
[[nodiscard]] char base_letter(char32_t code);

}  // namespace lobewise
