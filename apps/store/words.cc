#include "apps/store/words.h"

#include <fmt/format.h>

#include <cstdint>

namespace lobewise::store {
namespace {

/// The character that begins at `at` and its length in bytes; length 0 when it is not UTF-8 (RFC 3629: shortest form,
/// no surrogates, up to U+10FFFF).
std::pair<std::uint32_t, std::size_t> character(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned first = byte(at);
  if (first < 0x80) return {first, 1};
  const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + length > text.size()) return {0, 0};
  std::uint32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0U) != 0x80U) return {0, 0};
    code = (code << 6U) | (byte(at + i) & 0x3FU);
  }
  constexpr std::uint32_t kLeast[] = {0, 0, 0x80, 0x800, 0x10000};
  if (code < kLeast[length] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF)) return {0, 0};
  return {code, length};
}

std::uint32_t small(std::uint32_t c) {
  if (c >= 'A' && c <= 'Z') return c + 32;
  if (c >= 0xC0 && c <= 0xDE && c != 0xD7) return c + 32;
  // Latin Extended-A: capitals are even, but odd between U+0139 and U+0148 and from U+0179 on.
  if (c >= 0x100 && c <= 0x137 && c != 0x130 && c % 2 == 0) return c + 1;
  if (((c >= 0x139 && c <= 0x148) || (c >= 0x179 && c <= 0x17E)) && c % 2 == 1) return c + 1;
  if (c >= 0x14A && c <= 0x177 && c % 2 == 0) return c + 1;
  if (c >= 0x391 && c <= 0x3A9) return c + 32;
  if (c >= 0x410 && c <= 0x42F) return c + 32;
  if (c >= 0x400 && c <= 0x40F) return c + 80;
  return c;
}

void append(std::string& out, std::uint32_t c) {
  const auto put = [&](std::uint32_t byte) { out.push_back(static_cast<char>(byte)); };
  if (c < 0x80) return put(c);
  if (c < 0x800) {
    put(0xC0U | (c >> 6U));
  } else {
    if (c < 0x10000) {
      put(0xE0U | (c >> 12U));
    } else {
      put(0xF0U | (c >> 18U));
      put(0x80U | ((c >> 12U) & 0x3FU));
    }
    put(0x80U | ((c >> 6U) & 0x3FU));
  }
  put(0x80U | (c & 0x3FU));
}

}  // namespace

bool sound_text(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const auto [code, length] = character(text, at);
    if (length == 0 || code == 0) return false;
    at += length;
  }
  return true;
}

void require_text(std::string_view text, std::size_t most, const char* what) {
  if (text.size() > most) throw Problem{Trouble::input, fmt::format("{} has at most {} bytes.", what, most)};
  if (!sound_text(text)) throw Problem{Trouble::input, fmt::format("{} must be UTF-8 text without NUL.", what)};
}

void require_date(const std::string& date) {
  if (date.empty()) return;
  const Problem problem{Trouble::input,
                        fmt::format("'{}' is no date; a day is written like 2026-03-09.", line_of(date, 40))};
  if (date.size() != 10) throw problem;
  for (std::size_t i = 0; i < 10; ++i)
    if (i == 4 || i == 7 ? date[i] != '-' : date[i] < '0' || date[i] > '9') throw problem;
  const int year = std::stoi(date.substr(0, 4)), month = std::stoi(date.substr(5, 2)), day = std::stoi(date.substr(8));
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  const int days[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (year < 1900 || month < 1 || month > 12 || day < 1 || day > days[month - 1]) throw problem;
}

std::string line_of(std::string_view text, std::size_t most) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto [code, length] = character(text, at);
    const std::size_t step = length == 0 ? 1 : length;
    if (out.size() + step > most) break;
    if (length == 0 || code < 0x20 || code == 0x7F)
      out.push_back(' ');
    else
      out.append(text.substr(at, length));
    at += step;
  }
  return out;
}

std::string fold(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto [code, length] = character(text, at);
    append(out, length == 0 || code == 0 ? ' ' : small(code));
    at += length == 0 ? 1 : length;
  }
  return out;
}

std::string anywhere(std::string_view word) {
  std::string out = "%";
  for (const char c : word) {
    if (c == '%' || c == '_' || c == '\\') out.push_back('\\');
    out.push_back(c);
  }
  return out + "%";
}

}  // namespace lobewise::store
