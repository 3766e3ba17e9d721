#include "engine/base/span.h"

#include <algorithm>
#include <vector>

namespace lobewise {
namespace {

/// The text between separators.
std::vector<std::string> pieces_of(std::string_view text) {
  std::vector<std::string> pieces(1);
  for (std::size_t i = 0; i < text.size();) {
    std::size_t length = 0;
    for (std::string_view separator : {"\u2026", "...", " to ", " - ", " \u2013 "})
      if (text.substr(i, separator.size()) == separator) length = std::max(length, separator.size());
    if (length > 0) {
      pieces.emplace_back();
      i += length;
    } else {
      pieces.back() += text[i++];
    }
  }
  return pieces;
}

/// What stands behind the number; `1/h` comes out as `/h`, which means the same.
std::string unit_behind(const std::string& piece) {
  const std::size_t begin = piece.find_first_not_of("0123456789.,'+- ");
  return begin == std::string::npos ? "" : piece.substr(begin);
}

}  // namespace

Result<Span> parse_span(std::string_view text, Quantity quantity, std::string_view path) {
  if (text.size() > 200) return input_error(std::string(path), std::string(text.substr(0, 80)), "too long for a range");
  const std::vector<std::string> pieces = pieces_of(text);
  if (pieces.size() > 3)
    return input_error(std::string(path), std::string(text),
                       "a range has a low and a high end, at most a likely middle");
  const std::string unit = unit_behind(pieces.back());
  std::vector<double> values;
  for (const std::string& piece : pieces) {
    const bool bare = pieces.size() > 1 && unit_behind(piece).empty();
    const Result<double> value = parse_quantity(bare ? piece + ' ' + unit : piece, quantity, path);
    if (!value) return value.errors();
    values.push_back(*value);
  }
  if (!std::is_sorted(values.begin(), values.end()))
    return input_error(std::string(path), std::string(text),
                       "the low end comes first, then the likely value and the high end");
  if (values.size() == 3) return Span{values[0], values[1], values[2]};
  return Span{values.front(), 0.5 * (values.front() + values.back()), values.back()};
}

}  // namespace lobewise
