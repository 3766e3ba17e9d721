#include "apps/handover/formula.h"

#include <array>
#include <cctype>
#include <utility>

#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

constexpr std::array<std::pair<std::string_view, const char*>, 21> kGreek{{
    {"alpha", "α"}, {"beta", "β"},  {"gamma", "γ"},  {"delta", "δ"},  {"Delta", "Δ"}, {"eps", "ε"},   {"eta", "η"},
    {"theta", "θ"}, {"kappa", "κ"}, {"lambda", "λ"}, {"Lambda", "Λ"}, {"mu", "μ"},    {"nu", "ν"},    {"pi", "π"},
    {"rho", "ρ"},   {"sigma", "σ"}, {"tau", "τ"},    {"phi", "φ"},    {"psi", "ψ"},   {"omega", "ω"}, {"Omega", "Ω"},
}};

const char* greek(std::string_view word) {
  for (const auto& [name, letter] : kGreek)
    if (name == word) return letter;
  return nullptr;
}

bool letter(char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; }
bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

class Setter {
 public:
  explicit Setter(std::string_view text) : text_(text) {}

  std::string run() {
    while (i_ < text_.size()) item();
    return std::move(out_);
  }

 private:
  [[nodiscard]] char at(std::size_t k) const { return k < text_.size() ? text_[k] : ' '; }

  void item() {
    const char c = text_[i_];
    if (letter(c)) {
      identifier();
    } else if (digit(c)) {
      number();
    } else if (c == '^') {
      power();
    } else if ((c == '<' || c == '>') && at(i_ + 1) == '=') {
      out_ += c == '<' ? "≤" : "≥";
      i_ += 2;
    } else if (c == '-' && !(i_ > 0 && letter(at(i_ - 1)) && letter(at(i_ + 1)))) {
      out_ += "−";
      ++i_;
    } else {
      std::size_t end = i_ + 1;  // a character of several bytes stays whole
      while (end < text_.size() && (static_cast<unsigned char>(text_[end]) & 0xC0U) == 0x80U) ++end;
      out_ += markup(text_.substr(i_, end - i_));
      i_ = end;
    }
  }

  /// Digits; `2e6` becomes a power of ten.
  void number() {
    std::size_t end = i_;
    while (digit(at(end)) || (at(end) == '.' && digit(at(end + 1)))) ++end;
    const std::string_view mantissa = text_.substr(i_, end - i_);
    const std::size_t sign = at(end + 1) == '-' ? 1 : 0;
    if (at(end) == 'e' && digit(at(end + 1 + sign))) {
      std::size_t from = end + 1;
      for (end = from + sign; digit(at(end));) ++end;
      out_ += (mantissa == "1" ? "" : std::string(mantissa) + "·") + "10<sup>" + (sign == 1 ? "−" : "");
      out_ += text_.substr(from + sign, end - from - sign);
      out_ += "</sup>";
    } else {
      out_ += mantissa;
    }
    i_ = end;
  }

  void identifier() {
    std::size_t end = i_;
    while (letter(at(end)) || (end > i_ && digit(at(end)))) ++end;
    const std::string_view base = text_.substr(i_, end - i_);
    std::string_view sub;
    if (at(end) == '_') {
      const std::size_t from = end + 1;
      for (end = from; letter(at(end)) || digit(at(end)) || at(end) == '_';) ++end;
      sub = text_.substr(from, end - from);
    }
    i_ = end;
    if (base == "sqrt" && sub.empty()) {
      out_ += "√";
      return;
    }
    if (const char* symbol = greek(base))
      out_ += symbol;
    else if (base.size() <= 2 && base != "in" && base != "of" && base != "lg" && base != "ln")
      out_ += "<i>" + markup(base) + "</i>";
    else
      out_ += markup(base);
    if (!sub.empty()) out_ += "<sub>" + markup(words(sub)) + "</sub>";
  }

  void power() {
    ++i_;
    std::size_t end = i_;
    if (at(i_) == '(') {
      for (int depth = 0; end < text_.size(); ++end) {
        depth += text_[end] == '(' ? 1 : text_[end] == ')' ? -1 : 0;
        if (depth == 0) break;
      }
      const std::string_view inside = text_.substr(i_ + 1, end - i_ - 1);
      out_ += "<sup>" + Setter(inside).run() + "</sup>";
      i_ = end < text_.size() ? end + 1 : end;
      return;
    }
    if (at(end) == '-') ++end;
    while (letter(at(end)) || digit(at(end)) || (at(end) == '.' && digit(at(end + 1)))) ++end;
    out_ += "<sup>" + Setter(text_.substr(i_, end - i_)).run() + "</sup>";
    i_ = end;
  }

  std::string_view text_;
  std::size_t i_ = 0;
  std::string out_;
};

}  // namespace

std::string formula_html(std::string_view formula) {
  const std::string text = clean(formula);
  if (text.find(".md") != std::string::npos) return markup(text);  // a place where the derivation stands
  return Setter(text).run();
}

}  // namespace lobewise::handover
