#include "apps/survey/table.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <fstream>

namespace lobewise::survey {
namespace {

void append_utf8(std::string& out, std::uint32_t c) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0 | c >> 6);
    put(0x80 | (c & 0x3F));
  } else {
    put(0xE0 | c >> 12);
    put(0x80 | (c >> 6 & 0x3F));
    put(0x80 | (c & 0x3F));
  }
}

/// Windows-1252 from 0x80 to 0x9F; 0 where it has no character. Source: WHATWG Encoding Standard, index windows-1252.
constexpr std::array<std::uint16_t, 32> kWindows1252{0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                     0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                     0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                     0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

std::string from_windows_1252(std::string_view text) {
  std::string out;
  for (const char raw : text) {
    const auto c = static_cast<unsigned char>(raw);
    append_utf8(out, c >= 0x80 && c < 0xA0 ? kWindows1252[c - 0x80U] : c);
  }
  return out;
}

}  // namespace

bool Row::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](const Cell& cell) { return cell.text.empty(); });
}

bool is_utf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto c = static_cast<unsigned char>(text[i]);
    const std::size_t more = c < 0x80                ? 0
                             : c >= 0xC2 && c < 0xE0 ? 1
                             : c >= 0xE0 && c < 0xF0 ? 2
                             : c >= 0xF0 && c < 0xF5 ? 3
                                                     : 4;
    if (more == 4 || i + more >= text.size()) return false;
    for (std::size_t k = 1; k <= more; ++k)
      if ((static_cast<unsigned char>(text[i + k]) & 0xC0U) != 0x80U) return false;
    const auto second = static_cast<unsigned char>(more > 0 ? text[i + 1] : '\0');
    if ((c == 0xE0 && second < 0xA0) || (c == 0xED && second >= 0xA0) || (c == 0xF0 && second < 0x90) ||
        (c == 0xF4 && second >= 0x90))
      return false;
    i += more + 1;
  }
  return true;
}

std::string clean(std::string_view text) {
  std::string out = is_utf8(text) ? std::string(text) : from_windows_1252(text);
  for (char& c : out)
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  const std::size_t first = out.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  return out.substr(first, out.find_last_not_of(' ') - first + 1);
}

std::string letters(std::size_t column) {
  std::string out;
  for (++column; column > 0; column = (column - 1) / 26)
    out.insert(out.begin(), static_cast<char>('A' + (column - 1) % 26));
  return out;
}

Result<std::unique_ptr<TableReader>> open_table(const std::string& file, const std::string& sheet) {
  std::ifstream in(file, std::ios::binary);
  std::array<char, 8> head{};
  if (!in || (in.read(head.data(), head.size()), in.bad())) return input_error("", file, "this file cannot be read");
  const std::string_view start(head.data(), static_cast<std::size_t>(in.gcount()));
  if (start.starts_with("PK\x03\x04")) return open_xlsx(file, sheet);
  if (start.starts_with("\xD0\xCF\x11\xE0"))
    return input_error("", file,
                       "an old binary workbook, or one with a password: save it as XLSX without a password, or as CSV");
  if (!sheet.empty()) return input_error("sheet", sheet, "only an XLSX workbook has sheets; this file is read as CSV");
  return open_csv(file);
}

}  // namespace lobewise::survey
