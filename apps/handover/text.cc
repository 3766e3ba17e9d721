#include "apps/handover/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace lobewise::handover {
namespace {

constexpr char32_t kBroken = 0xFFFD;

/// Reads one code point; broken sequences take one byte and give U+FFFD.
char32_t next(std::string_view text, std::size_t& i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(text[k]); };
  const unsigned char lead = byte(i);
  if (lead < 0x80) return text[i++] & 0x7F;
  const int more = lead >= 0xF0 && lead < 0xF5 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC2 ? 1 : 0;
  if (more == 0 || lead >= 0xF5 || i + static_cast<std::size_t>(more) >= text.size()) {
    ++i;
    return kBroken;
  }
  char32_t code = lead & (0x3FU >> static_cast<unsigned>(more));
  for (int k = 1; k <= more; ++k) {
    const unsigned char follow = byte(i + static_cast<std::size_t>(k));
    if ((follow & 0xC0U) != 0x80) {
      ++i;
      return kBroken;
    }
    code = (code << 6U) | (follow & 0x3FU);
  }
  constexpr char32_t kLeast[] = {0, 0x80, 0x800, 0x10000};
  i += static_cast<std::size_t>(more) + 1;
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  return code < kLeast[more] || code > 0x10FFFF || surrogate ? kBroken : code;
}

void append(std::string& out, char32_t code) {
  const auto put = [&](char32_t value) { out += static_cast<char>(static_cast<unsigned char>(value)); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xC0U | (code >> 6U));
    put(0x80U | (code & 0x3FU));
  } else if (code < 0x10000) {
    put(0xE0U | (code >> 12U));
    put(0x80U | ((code >> 6U) & 0x3FU));
    put(0x80U | (code & 0x3FU));
  } else {
    put(0xF0U | (code >> 18U));
    put(0x80U | ((code >> 12U) & 0x3FU));
    put(0x80U | ((code >> 6U) & 0x3FU));
    put(0x80U | (code & 0x3FU));
  }
}

}  // namespace

std::u32string code_points(std::string_view text) {
  std::u32string out;
  for (std::size_t i = 0; i < text.size();) out += next(text, i);
  return out;
}

std::string clean(std::string_view text) {
  std::string out;
  for (char32_t code : code_points(text)) {
    // Marks that turn the direction of writing can make a text read otherwise than it is.
    const bool turns = (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
    if (turns || code == 0x7F || (code >= 0x80 && code < 0xA0) || (code & 0xFFFEU) == 0xFFFE) continue;
    append(out, code == '\n' || code == '\t' || code == '\r' ? U' ' : code < 0x20 ? kBroken : code);
  }
  return out;
}

std::string markup(std::string_view text) {
  std::string out;
  for (char c : clean(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string css_string(std::string_view text) {
  std::string out;
  for (char32_t code : code_points(clean(text))) {
    const bool plain = (code >= '0' && code <= '9') || (code >= 'a' && code <= 'z') || (code >= 'A' && code <= 'Z');
    out += plain ? std::string(1, static_cast<char>(code)) : fmt::format("\\{:06X} ", static_cast<unsigned>(code));
  }
  return out;
}

std::string shortened(std::string_view text, std::size_t most) {
  const std::u32string codes = code_points(clean(text));
  if (codes.size() <= most) return clean(text);
  std::string out;
  for (std::size_t i = 0; i + 1 < most; ++i) append(out, codes[i]);
  return out + "…";
}

std::string typeset(std::string_view text, bool whole) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto at = [&](std::size_t k) { return k < text.size() ? text[k] : ' '; };
  const auto follows = [&](std::size_t i, std::string_view word) {
    return text.substr(i, word.size()) == word && !letter(at(i + word.size()));
  };
  constexpr std::string_view kRaised[] = {"m", "mm", "cm", "in", "ft"};
  std::string out;
  std::size_t word = 0;  // where the letters before `i` begin
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i], before = i > 0 ? text[i - 1] : ' ';
    const std::string_view unit = text.substr(word, i - word);
    if (!letter(c)) word = i + 1;
    const bool power = (c == '2' || c == '3') && !digit(at(i + 1)) && !letter(at(i + 1)) && at(i + 1) != '.';
    if (power && std::find(std::begin(kRaised), std::end(kRaised), unit) != std::end(kRaised)) {
      out += c == '2' ? "²" : "³";
    } else if (c == '-' && digit(at(i + 1)) && (before == ' ' || before == '(')) {
      out += "−";
    } else if (c == ' ' && digit(before) && follows(i + 1, "deg")) {
      out += "°";
      i += 3;
      word = i + 1;
    } else if (c == ' ' && digit(before) && follows(i + 1, "1/h")) {
      i += 1;  // `2/h`
    } else if (c == ' ' && (whole || (digit(before) && (at(i + 1) == '%' || text.substr(i + 1, 2) == "°")))) {
      out += "\u00a0";
    } else {
      out += c;
    }
  }
  return out;
}

std::string words(std::string_view identifier) {
  std::string out(identifier);
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}

std::string sentence_case(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace lobewise::handover
