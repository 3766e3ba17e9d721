#include "apps/cli/terminal.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace lobewise::cli {

std::string Style::wrap_in(const char* code, std::string_view text) const {
  return colour ? fmt::format("\x1b[{}m{}\x1b[0m", code, text) : std::string(text);
}

std::string Style::verdict(std::string_view verdict, std::string_view text) const {
  if (verdict == "holds") return wrap_in("32", text);
  if (verdict == "holds_if") return wrap_in("33", text);
  if (verdict == "does_not_hold") return wrap_in("31;1", text);
  return wrap_in("2", text);
}

std::size_t columns(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    if (c == 0x1b) {  // an escape sequence takes no room
      while (i < text.size() && text[i] != 'm') ++i;
      continue;
    }
    if ((c & 0xC0U) != 0x80U) ++count;
  }
  return count;
}

std::string pad(std::string_view text, std::size_t width, bool right) {
  const std::size_t have = columns(text);
  const std::string blanks(have < width ? width - have : 0, ' ');
  return right ? blanks + std::string(text) : std::string(text) + blanks;
}

std::string paragraph(std::string_view text, std::size_t indent, std::string_view first, std::size_t width) {
  std::string out = pad(first, indent);
  std::size_t at = std::max(columns(first), indent);
  bool fresh = true;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t end = std::min(text.find(' ', i), text.size());
    const std::string_view word = text.substr(i, end - i);
    if (!fresh && at + 1 + columns(word) > width) {
      out += '\n' + std::string(indent, ' ');
      at = indent;
      fresh = true;
    }
    if (!fresh) {
      out += ' ';
      ++at;
    }
    out += word;
    at += columns(word);
    fresh = false;
    i = end + 1;
  }
  return out + '\n';
}

std::string table(const std::vector<std::vector<std::string>>& rows, const std::vector<std::size_t>& right,
                  const Style& style) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i >= widths.size()) widths.push_back(0);
      widths[i] = std::max(widths[i], columns(row[i]));
    }
  std::string out;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    std::string line = "  ";
    for (std::size_t i = 0; i < rows[r].size(); ++i)
      line += pad(rows[r][i], widths[i], std::find(right.begin(), right.end(), i) != right.end()) + "  ";
    while (!line.empty() && line.back() == ' ') line.pop_back();
    out += (r == 0 ? style.faint(line) : line) + '\n';
  }
  return out;
}

std::string bar(double used) {
  constexpr int kCells = 10;
  const int full = std::clamp(static_cast<int>(std::lround(used * kCells)), 0, kCells);
  std::string out;
  for (int i = 0; i < kCells; ++i) out += i < full ? "█" : "░";
  return out + (used > 1 ? "▶" : " ");
}

}  // namespace lobewise::cli
