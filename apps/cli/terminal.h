#pragma once
// Text for a terminal: wrapping, columns, and a little emphasis when somebody watches.

#include <string>
#include <string_view>
#include <vector>

namespace lobewise::cli {

/// How text is dressed. Without colour the words alone carry the meaning.
struct Style {
  bool colour = false;
  std::string units = "si";  ///< `si` or `us`: which text of the results is shown

  [[nodiscard]] std::string bold(std::string_view text) const { return wrap_in("1", text); }
  [[nodiscard]] std::string faint(std::string_view text) const { return wrap_in("2", text); }
  [[nodiscard]] std::string verdict(std::string_view verdict, std::string_view text) const;

 private:
  [[nodiscard]] std::string wrap_in(const char* code, std::string_view text) const;
};

inline constexpr std::size_t kWidth = 100;

/// Columns a text takes on the screen (UTF-8, no wide characters).
[[nodiscard]] std::size_t columns(std::string_view text);
/// Text filled up with blanks on the right (or left) to a number of columns.
[[nodiscard]] std::string pad(std::string_view text, std::size_t width, bool right = false);
/// Text broken into lines of at most `width` columns, the first line after `first`, the others after `indent` blanks.
[[nodiscard]] std::string paragraph(std::string_view text, std::size_t indent, std::string_view first = "",
                                    std::size_t width = kWidth);
/// Rows as aligned columns; the first row is the head. Columns named in `right` are aligned to the right.
[[nodiscard]] std::string table(const std::vector<std::vector<std::string>>& rows,
                                const std::vector<std::size_t>& right, const Style& style);
/// A bar of ten cells: how much of the limit is used (0 empty, 1 full; beyond full it is marked).
[[nodiscard]] std::string bar(double used);

}  // namespace lobewise::cli
