#include "engine/base/formula/print.h"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <utility>

namespace lobewise::formula {
namespace {

/// How tightly an operation binds; brackets are needed where a looser one stands inside a tighter one.
enum Binding { kCompare, kSum, kProduct, kSign, kPower, kAtom };

Binding binding(const Node& n) {
  switch (n.op) {
    case Op::less:
    case Op::less_or_equal:
      return kCompare;
    case Op::add:
    case Op::subtract:
      return kSum;
    case Op::multiply:
    case Op::divide:
      return kProduct;
    case Op::negate:
      return kSign;
    case Op::power:
      return kPower;
    case Op::number:
      return n.value < 0 ? kSign : kAtom;
    case Op::symbol:
    case Op::choose:
    case Op::call:
      break;
  }
  return kAtom;
}

/// Least binding that the operand on a side may have without brackets.
Binding needed(const Node& n, std::size_t side) {
  switch (n.op) {
    case Op::add:
      return kSum;
    case Op::subtract:
      return side == 0 ? kSum : kProduct;
    case Op::multiply:
      return kProduct;
    case Op::divide:
      return side == 0 ? kProduct : kSign;
    case Op::negate:
      return kAtom;  // a power in brackets as well
    case Op::power:
      return kAtom;
    case Op::less:
    case Op::less_or_equal:
      return kSum;
    default:
      return kCompare;
  }
}

std::string_view sign(Op op) {
  switch (op) {
    case Op::add:
      return "+";
    case Op::subtract:
      return "-";
    case Op::multiply:
      return "*";
    case Op::divide:
      return "/";
    case Op::power:
      return "^";
    case Op::less:
      return "<";
    case Op::less_or_equal:
      return "<=";
    default:
      return "";
  }
}

std::string number(double value) { return fmt::format("{}", value); }

/// For people: as many digits as anybody could put in by hand.
std::string short_number(double value) { return number(std::stod(fmt::format("{:.7g}", value))); }

constexpr std::array<std::pair<std::string_view, std::string_view>, 26> kGreek{{
    {"alpha", "α"}, {"beta", "β"},  {"gamma", "γ"},  {"delta", "δ"}, {"epsilon", "ε"}, {"zeta", "ζ"}, {"eta", "η"},
    {"theta", "θ"}, {"kappa", "κ"}, {"lambda", "λ"}, {"mu", "μ"},    {"nu", "ν"},      {"xi", "ξ"},   {"pi", "π"},
    {"rho", "ρ"},   {"sigma", "σ"}, {"tau", "τ"},    {"phi", "φ"},   {"chi", "χ"},     {"psi", "ψ"},  {"omega", "ω"},
    {"Delta", "Δ"}, {"Sigma", "Σ"}, {"Omega", "Ω"},  {"Phi", "Φ"},   {"Lambda", "Λ"},
}};

std::string greek(std::string_view word) {
  for (const auto& [name, letter] : kGreek)
    if (name == word) return std::string(letter);
  return std::string(word);
}

/// `sigma_H'` -> sigma, H, '
struct SymbolParts {
  std::string_view base, index, mark;
};
SymbolParts parts_of(std::string_view symbol) {
  SymbolParts parts;
  if (!symbol.empty() && (symbol.back() == '\'' || symbol.back() == '*')) {
    parts.mark = symbol.substr(symbol.size() - 1);
    symbol.remove_suffix(1);
  }
  const std::size_t underscore = symbol.find('_');
  parts.base = symbol.substr(0, underscore);
  if (underscore != std::string_view::npos) parts.index = symbol.substr(underscore + 1);
  return parts;
}

/// Infix writing shared by plain grammar, text and spreadsheet; they differ in the leaves, calls and signs.
struct Infix {
  std::function<std::string(const Node&)> leaf;
  std::function<std::string(const Node&, const std::function<std::string(const Node&)>&)> call;
  std::string_view times = "*";
  std::string_view power = " ^ ";

  [[nodiscard]] std::string write(const Node& n) const {
    const auto side = [&](std::size_t i) {
      const Node& arg = *n.args[i];
      std::string s = write(arg);
      return binding(arg) < needed(n, i) ? fmt::format("({})", s) : s;
    };
    switch (n.op) {
      case Op::number:
      case Op::symbol:
        return leaf(n);
      case Op::negate:
        return fmt::format("-{}", side(0));
      case Op::choose:
      case Op::call:
        return call(n, [&](const Node& arg) { return write(arg); });
      case Op::power:
        return fmt::format("{}{}{}", side(0), power, side(1));
      default:
        return fmt::format("{} {} {}", side(0), n.op == Op::multiply ? times : sign(n.op), side(1));
    }
  }
};

std::string joined(const Node& n, std::size_t first, const std::function<std::string(const Node&)>& write,
                   std::string_view separator = ", ") {
  std::string out;
  for (std::size_t i = first; i < n.args.size(); ++i) {
    if (i > first) out += separator;
    out += write(*n.args[i]);
  }
  return out;
}

std::string call_in_words(const Node& n, const std::function<std::string(const Node&)>& write) {
  return fmt::format("{}({})", n.op == Op::choose ? "if" : n.function, joined(n, 0, write));
}

}  // namespace

std::string plain(const Node& node) {
  const Infix infix{[](const Node& n) { return n.op == Op::number ? number(n.value) : n.symbol.name; }, call_in_words};
  return infix.write(node);
}

std::string text_symbol(const std::string& symbol) {
  const SymbolParts parts = parts_of(symbol);
  std::string out = greek(parts.base);
  if (!parts.index.empty()) out += fmt::format("_{}", greek(parts.index));
  return out + std::string(parts.mark);
}

std::string text(const Node& node) {
  const Infix infix{
      [](const Node& n) { return n.op == Op::number ? short_number(n.value) : text_symbol(n.symbol.name); },
      [](const Node& n, const std::function<std::string(const Node&)>& write) {
        if (std::string_view(n.function) == "sqrt") return "√(" + write(*n.args[0]) + ")";
        return call_in_words(n, write);
      },
      "·"};
  return infix.write(node);
}

std::string mathml_symbol(const std::string& symbol) {
  const SymbolParts parts = parts_of(symbol);
  const auto letters = [](std::string_view word) {
    std::string out;
    for (const char c : greek(word)) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : std::string(1, c);
    return out;
  };
  std::string base = fmt::format("<mi>{}</mi>", letters(parts.base));
  if (!parts.mark.empty()) base = fmt::format("<msup>{}<mo>{}</mo></msup>", base, parts.mark == "*" ? "∗" : "′");
  return parts.index.empty() ? base : fmt::format("<msub>{}<mi>{}</mi></msub>", base, letters(parts.index));
}

namespace {

std::string mathml_number(double value) {
  std::string s = short_number(value);
  std::string exponent;
  if (const std::size_t e = s.find('e'); e != std::string::npos) {
    int power = 0;
    for (const char c : s.substr(e + 1))
      if (c >= '0' && c <= '9') power = power * 10 + (c - '0');
    exponent = fmt::format("<mo>·</mo><msup><mn>10</mn><mn>{}{}</mn></msup>", s[e + 1] == '-' ? "−" : "", power);
    s = s.substr(0, e);
  }
  const bool negative = s.front() == '-';
  if (!exponent.empty() && (s == "1" || s == "-1"))
    s = exponent.substr(std::string_view("<mo>·</mo>").size());
  else
    s = fmt::format("<mn>{}</mn>{}", negative ? s.substr(1) : s, exponent);
  return fmt::format("<mrow>{}{}</mrow>", negative ? "<mo>−</mo>" : "", s);
}

std::string in_brackets(const std::string& inner) { return fmt::format("<mrow><mo>(</mo>{}<mo>)</mo></mrow>", inner); }

std::string mathml_call(const Node& n) {
  const std::string_view f = n.function;
  if (f == "sqrt") return fmt::format("<msqrt>{}</msqrt>", mathml(*n.args[0]));
  if (f == "abs") return fmt::format("<mrow><mo>|</mo>{}<mo>|</mo></mrow>", mathml(*n.args[0]));
  if (f == "exp") return fmt::format("<msup><mi>e</mi>{}</msup>", mathml(*n.args[0]));
  if (f == "sum")
    return fmt::format("<mrow><mo>∑</mo>{}</mrow>",
                       binding(*n.args[0]) < kProduct ? in_brackets(mathml(*n.args[0])) : mathml(*n.args[0]));
  if (f == "lerp") {
    const std::string a = mathml(*n.args[0]), b = mathml(*n.args[1]), t = mathml(*n.args[2]);
    return fmt::format("<mrow>{}<mo>+</mo>{}<mo>·</mo>{}</mrow>", a, in_brackets(b + "<mo>−</mo>" + in_brackets(a)),
                       binding(*n.args[2]) < kProduct ? in_brackets(t) : t);
  }
  return fmt::format("<mrow><mi>{}</mi>{}</mrow>", f,
                     in_brackets(joined(
                         n, 0, [](const Node& arg) { return mathml(arg); }, "<mo>,</mo>")));
}

}  // namespace

std::string mathml(const Node& n) {
  const auto side = [&](std::size_t i, Binding least) {
    std::string s = mathml(*n.args[i]);
    return binding(*n.args[i]) < least ? in_brackets(s) : s;
  };
  switch (n.op) {
    case Op::number:
      return mathml_number(n.value);
    case Op::symbol:
      return mathml_symbol(n.symbol.name);
    case Op::add:
      return fmt::format("<mrow>{}<mo>+</mo>{}</mrow>", side(0, kSum), side(1, kSum));
    case Op::subtract:
      return fmt::format("<mrow>{}<mo>−</mo>{}</mrow>", side(0, kSum), side(1, kProduct));
    case Op::multiply:
      return fmt::format("<mrow>{}<mo>·</mo>{}</mrow>", side(0, kProduct), side(1, kProduct));
    case Op::divide:
      return fmt::format("<mfrac>{}{}</mfrac>", mathml(*n.args[0]), mathml(*n.args[1]));
    case Op::power:
      return fmt::format("<msup>{}{}</msup>", side(0, kAtom), mathml(*n.args[1]));
    case Op::negate:
      return fmt::format("<mrow><mo>−</mo>{}</mrow>", side(0, kAtom));
    case Op::less:
      return fmt::format("<mrow>{}<mo>&lt;</mo>{}</mrow>", side(0, kSum), side(1, kSum));
    case Op::less_or_equal:
      return fmt::format("<mrow>{}<mo>≤</mo>{}</mrow>", side(0, kSum), side(1, kSum));
    case Op::choose:
      return fmt::format(
          "<mrow><mo>{{</mo><mtable columnalign=\"left\"><mtr><mtd>{}</mtd><mtd><mtext>if </mtext>{}</mtd></mtr>"
          "<mtr><mtd>{}</mtd><mtd><mtext>else</mtext></mtd></mtr></mtable></mrow>",
          mathml(*n.args[1]), mathml(*n.args[0]), mathml(*n.args[2]));
    case Op::call:
      break;
  }
  return mathml_call(n);
}

std::string spreadsheet(const Node& node, const std::function<std::string(const Symbol&)>& cell) {
  const auto leaf = [&](const Node& n) {
    if (n.op == Op::number) return number(n.value);
    return n.symbol.name == "pi" ? std::string("PI()") : cell(n.symbol);
  };
  const auto call = [](const Node& n, const std::function<std::string(const Node&)>& write) -> std::string {
    if (n.op == Op::choose) return fmt::format("IF({})", joined(n, 0, write));
    const std::string_view f = n.function;
    const std::string x = write(*n.args[0]);
    if (f == "atan2") return fmt::format("ATAN2({}, {})", write(*n.args[1]), x);  // x before y there
    if (f == "lerp") return fmt::format("(({0}) + (({1}) - ({0})) * ({2}))", x, write(*n.args[1]), write(*n.args[2]));
    if (f == "floor") return fmt::format("INT({})", x);
    if (f == "ceil") return fmt::format("(-INT(-({})))", x);
    if (f == "round") return fmt::format("INT({} + 0.5)", x);
    if (f == "cosh") return fmt::format("((EXP({0}) + EXP(-({0}))) / 2)", x);
    if (f == "tanh") return fmt::format("(1 - 2 / (EXP(2 * ({})) + 1))", x);
    if (f == "sum") return fmt::format("SUMPRODUCT({})", x);
    if (f == "mean") return fmt::format("(SUMPRODUCT({}) / {})", x, n.args[0]->list.size());
    const bool of_list = n.args.size() == 1 && n.args[0]->is_list();
    if (of_list && f == "min") return fmt::format("SUMPRODUCT(MIN({}))", x);
    if (of_list && f == "max") return fmt::format("SUMPRODUCT(MAX({}))", x);
    constexpr std::array<std::pair<std::string_view, std::string_view>, 14> kWords{{{"sqrt", "SQRT"},
                                                                                    {"exp", "EXP"},
                                                                                    {"ln", "LN"},
                                                                                    {"lg", "LOG10"},
                                                                                    {"sin", "SIN"},
                                                                                    {"cos", "COS"},
                                                                                    {"tan", "TAN"},
                                                                                    {"asin", "ASIN"},
                                                                                    {"acos", "ACOS"},
                                                                                    {"atan", "ATAN"},
                                                                                    {"sinh", "SINH"},
                                                                                    {"abs", "ABS"},
                                                                                    {"gammaln", "GAMMALN"},
                                                                                    {"min", "MIN"}}};
    for (const auto& [word, name] : kWords)
      if (word == f) return fmt::format("{}({})", name, joined(n, 0, write));
    return fmt::format("MAX({})", joined(n, 0, write));
  };
  // A blank before the power makes some programs look for where two ranges meet.
  const Infix infix{leaf, call, "*", "^"};
  return infix.write(node);
}

}  // namespace lobewise::formula
