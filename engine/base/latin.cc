#include "engine/base/latin.h"

#include <algorithm>
#include <array>

namespace lobewise {

CodePoint code_point_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  const std::size_t length = first < 0xC0 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
  if (length == 1 || at + length > text.size()) return {first, 1};
  char32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) code = (code << 6U) | (byte(at + i) & 0x3FU);
  return {code, length};
}

char base_letter(char32_t code) {
  static constexpr std::string_view kLatin1 = "aaaaaaaceeeeiiiidnooooo ouuuuyts";  // U+00C0 on, twice
  struct Run {
    char32_t last;
    char letter;
  };
  static constexpr std::array<Run, 25> kExtended{
      {{0x105, 'a'}, {0x10D, 'c'}, {0x111, 'd'}, {0x11B, 'e'}, {0x123, 'g'}, {0x127, 'h'}, {0x133, 'i'},
       {0x135, 'j'}, {0x138, 'k'}, {0x142, 'l'}, {0x14B, 'n'}, {0x153, 'o'}, {0x159, 'r'}, {0x161, 's'},
       {0x167, 't'}, {0x173, 'u'}, {0x175, 'w'}, {0x178, 'y'}, {0x17E, 'z'}, {0x17F, 's'}, {0x217, 0},
       {0x219, 's'}, {0x21B, 't'}, {0x1FFF, 0},  {0x206F, ' '}}};  // the last run: dashes and quotes
  if (code < 0x80) {
    const char c = static_cast<char>(code);
    if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ? c : ' ';
  }
  if (code < 0xC0) return ' ';
  if (code <= 0xFF) return kLatin1[(code - 0xC0) % 32];
  const auto* run = std::find_if(kExtended.begin(), kExtended.end(), [&](const Run& r) { return code <= r.last; });
  return run == kExtended.end() ? '\0' : run->letter;
}

}  // namespace lobewise
