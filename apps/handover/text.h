#pragma once
// Text of others made safe for the language it is put into. Everything that a person may have written goes through
// one of these.

#include <string>
#include <string_view>

namespace lobewise::handover {

/// UTF-8 without control characters (line breaks become blanks), broken bytes and non-characters become U+FFFD.
[[nodiscard]] std::string clean(std::string_view text);
/// For HTML, SVG and XML, element content and quoted attributes alike.
[[nodiscard]] std::string markup(std::string_view text);
/// Quoted content of a CSS string; everything but plain letters and digits is written as an escape.
[[nodiscard]] std::string css_string(std::string_view text);
/// As a printer sets it: raised powers in units, a true minus, `°` for `deg`, no break between a figure and `%` or `°`.
/// @param whole  a single quantity, which is not broken anywhere
[[nodiscard]] std::string typeset(std::string_view text, bool whole);
/// Words of an identifier: `does_not_hold` -> `does not hold`.
[[nodiscard]] std::string words(std::string_view identifier);
/// First letter in upper case, if it is an ASCII letter.
[[nodiscard]] std::string sentence_case(std::string text);
/// At most `most` characters, an ellipsis at the end when some are missing.
[[nodiscard]] std::string shortened(std::string_view text, std::size_t most);
/// Code points, one by one; precondition: text went through `clean`.
[[nodiscard]] std::u32string code_points(std::string_view text);

}  // namespace lobewise::handover
