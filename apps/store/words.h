#pragma once
// Checks of what people write, and the form in which it is searched.

#include <string>
#include <string_view>

#include "apps/store/outcome.h"

namespace lobewise::store {

/// True for UTF-8 without NUL.
[[nodiscard]] bool sound_text(std::string_view text);
/// Throws `input` unless the text is sound and at most `most` bytes. @param what  in the message: `A note`
void require_text(std::string_view text, std::size_t most, const char* what);
/// Throws `input` unless it is empty or a day of the calendar: `2026-03-09`.
void require_date(const std::string& date);
/// For a line of a list: control characters become blanks, cut to `most` bytes at a character.
[[nodiscard]] std::string line_of(std::string_view text, std::size_t most);
/// Small letters for Latin, Greek and Cyrillic, so that a search finds `MÜLLER` by `müller`.
[[nodiscard]] std::string fold(std::string_view text);
/// A pattern for LIKE … ESCAPE '\' that finds `word` anywhere.
[[nodiscard]] std::string anywhere(std::string_view word);

}  // namespace lobewise::store
