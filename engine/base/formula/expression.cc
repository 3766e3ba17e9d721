#include "engine/base/formula/expression.h"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "engine/base/constants.h"

namespace lobewise::formula {
namespace {

constexpr std::size_t kMostCharacters = 4000;
constexpr int kMostDepth = 100;
constexpr std::size_t kMostArguments = 32;
/// Operations one above another, as in a sum of that many terms: `value` goes as deep.
constexpr int kMostHeight = 500;

enum Op : std::uint8_t {
  kNumber,
  kSymbol,
  kAdd,
  kSubtract,
  kMultiply,
  kDivide,
  kPower,
  kNegate,
  kLess,
  kLessOrEqual,
  kChoose,
  kCall
};

struct Function {
  std::string_view name;
  std::size_t least, most;  ///< arguments
};
constexpr std::size_t kMany = kMostArguments;
enum FunctionId : std::uint8_t {
  kSqrt,
  kExp,
  kLn,
  kLg,
  kSin,
  kCos,
  kTan,
  kAsin,
  kAcos,
  kAtan,
  kAtan2,
  kSinh,
  kCosh,
  kTanh,
  kAbs,
  kFloor,
  kCeil,
  kRound,
  kGammaln,
  kMin,
  kMax,
  kSum,
  kMean,
  kLerp
};
constexpr std::array<Function, 24> kFunctions{
    {{"sqrt", 1, 1},    {"exp", 1, 1},     {"ln", 1, 1},      {"lg", 1, 1},      {"sin", 1, 1},      {"cos", 1, 1},
     {"tan", 1, 1},     {"asin", 1, 1},    {"acos", 1, 1},    {"atan", 1, 1},    {"atan2", 2, 2},    {"sinh", 1, 1},
     {"cosh", 1, 1},    {"tanh", 1, 1},    {"abs", 1, 1},     {"floor", 1, 1},   {"ceil", 1, 1},     {"round", 1, 1},
     {"gammaln", 1, 1}, {"min", 1, kMany}, {"max", 1, kMany}, {"sum", 1, kMany}, {"mean", 1, kMany}, {"lerp", 3, 3}}};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

double function_value(std::uint8_t function, const std::array<double, kMostArguments>& a, std::size_t count) {
  const double x = a[0];
  switch (function) {
    case kSqrt:
      return std::sqrt(x);
    case kExp:
      return std::exp(x);
    case kLn:
      return std::log(x);
    case kLg:
      return std::log10(x);
    case kSin:
      return std::sin(x);
    case kCos:
      return std::cos(x);
    case kTan:
      return std::tan(x);
    case kAsin:
      return std::asin(x);
    case kAcos:
      return std::acos(x);
    case kAtan:
      return std::atan(x);
    case kAtan2:
      return std::atan2(x, a[1]);
    case kSinh:
      return std::sinh(x);
    case kCosh:
      return std::cosh(x);
    case kTanh:
      return std::tanh(x);
    case kAbs:
      return std::abs(x);
    case kFloor:
      return std::floor(x);
    case kCeil:
      return std::ceil(x);
    case kRound:
      return std::floor(x + 0.5);
    case kGammaln:
      return std::lgamma(x);
    case kLerp:
      return x + (a[1] - x) * a[2];
    case kMin:
      return *std::min_element(a.begin(), a.begin() + static_cast<std::ptrdiff_t>(count));
    case kMax:
      return *std::max_element(a.begin(), a.begin() + static_cast<std::ptrdiff_t>(count));
    default: {
      double sum = 0;
      for (std::size_t i = 0; i < count; ++i) sum += a[i];
      return function == kMean ? sum / static_cast<double>(count) : sum;
    }
  }
}

}  // namespace

/// Recursive descent; the first fault ends it.
class ExpressionReader {
 public:
  ExpressionReader(std::string_view text, const std::vector<std::string>& symbols) : text_(text), symbols_(symbols) {}

  Result<Expression> read() {
    if (text_.size() > kMostCharacters)
      return input_error("", fmt::format("{} characters", text_.size()),
                         fmt::format("a formula of at most {} characters is allowed.", kMostCharacters));
    out_.root_ = sum();
    if (!fault_ && !at_end()) fail("an operator or the end is expected here");
    if (fault_) return *fault_;
    return std::move(out_);
  }

 private:
  using Index = std::uint32_t;

  void blanks() {
    while (at_ < text_.size() && is_blank(text_[at_])) ++at_;
  }
  bool at_end() {
    blanks();
    return at_ >= text_.size();
  }
  bool take(std::string_view word) {
    blanks();
    if (text_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }
  Index fail(const std::string& message) { return fail_at(at_, message); }
  Index fail_at(std::size_t where, const std::string& message) {
    if (!fault_) {
      const std::string found = where < text_.size() ? std::string(text_.substr(where, 20)) : std::string("its end");
      fault_ = input_error("", found, fmt::format("character {}: {}.", where + 1, message));
    }
    return 0;
  }
  Index add(std::uint8_t op, std::initializer_list<Index> arguments, double number = 0) {
    return add(op, std::vector<Index>(arguments), number);
  }
  Index add(std::uint8_t op, const std::vector<Index>& arguments, double number = 0) {
    if (fault_) return 0;  // what stands below may not be there
    Expression::Node node;
    node.op = op;
    node.number = number;
    node.first = static_cast<Index>(out_.arguments_.size());
    node.count = static_cast<Index>(arguments.size());
    int height = 0;
    for (const Index argument : arguments) height = std::max(height, heights_[argument]);
    if (height >= kMostHeight) return fail("the formula has too many operations one above another; shorten it");
    heights_.push_back(height + 1);
    out_.arguments_.insert(out_.arguments_.end(), arguments.begin(), arguments.end());
    out_.nodes_.push_back(node);
    return static_cast<Index>(out_.nodes_.size() - 1);
  }

  Index sum() {
    Index left = product();
    while (!fault_) {
      if (take("+"))
        left = add(kAdd, {left, product()});
      else if (take("-"))
        left = add(kSubtract, {left, product()});
      else
        break;
    }
    return left;
  }
  Index product() {
    Index left = sign();
    while (!fault_) {
      if (take("*"))
        left = add(kMultiply, {left, sign()});
      else if (take("/"))
        left = add(kDivide, {left, sign()});
      else
        break;
    }
    return left;
  }
  Index sign() {
    blanks();
    const std::size_t start = at_;
    if (!take("-")) return power();
    if (++depth_ > kMostDepth) return fail("too many signs and brackets one in another");
    const Index inner = sign();
    --depth_;
    if (!fault_ && bare_power_)
      return fail_at(start, "a sign before a power is read in two ways; write -(a ^ b) or (-a) ^ b");
    return add(kNegate, {inner});
  }
  Index power() {
    const Index base = atom();
    bare_power_ = false;
    if (fault_ || !take("^")) return base;
    const bool negative = take("-");
    Index exponent = atom();
    if (negative && !fault_) exponent = add(kNegate, {exponent});
    blanks();
    if (!fault_ && at_ < text_.size() && text_[at_] == '^')
      return fail("a power of a power is read in two ways; write (a ^ b) ^ c or a ^ (b ^ c)");
    bare_power_ = true;
    return fault_ ? 0 : add(kPower, {base, exponent});
  }
  Index bracket() {
    if (++depth_ > kMostDepth) return fail("too many brackets one in another");
    const Index inner = sum();
    --depth_;
    if (!fault_ && !take(")")) fail("a closing bracket is expected here");
    return inner;
  }
  Index atom() {
    if (fault_) return 0;
    blanks();
    if (at_ >= text_.size()) return fail("a number, a symbol or a bracket is expected here");
    const char c = text_[at_];
    if (take("(")) return bracket();
    if (is_digit(c) || c == '.') return number();
    if (is_letter(c)) return name();
    return fail("a number, a symbol or a bracket is expected here");
  }
  Index number() {
    double value = 0;
    const char* begin = text_.data() + at_;
    const auto found = fast_float::from_chars(begin, text_.data() + text_.size(), value);
    if (found.ec != std::errc() || !std::isfinite(value)) return fail("no number can be read here");
    at_ += static_cast<std::size_t>(found.ptr - begin);
    return add(kNumber, {}, value);
  }
  Index name() {
    const std::size_t start = at_;
    while (at_ < text_.size() && (is_letter(text_[at_]) || is_digit(text_[at_]) || text_[at_] == '_')) ++at_;
    std::string word(text_.substr(start, at_ - start));
    // A mark belongs to the name where a symbol has it: `E*` may be one, `x_1*x_2` is a product.
    if (at_ < text_.size() && (text_[at_] == '\'' || text_[at_] == '*') &&
        std::find(symbols_.begin(), symbols_.end(), word + text_[at_]) != symbols_.end())
      word += text_[at_++];
    if (word == "pi") return add(kNumber, {}, kPi);
    blanks();
    if (at_ < text_.size() && text_[at_] == '(') return call(word, start);
    const auto found = std::find(symbols_.begin(), symbols_.end(), word);
    if (found == symbols_.end())
      return fail_at(start, fmt::format("'{}' is no symbol of this formula; it may use {}", word.substr(0, 40),
                                        fmt::join(symbols_, ", ")));
    const Index node = add(kSymbol, {});
    out_.nodes_[node].symbol = static_cast<Index>(found - symbols_.begin());
    return node;
  }
  Index call(const std::string& word, std::size_t start) {
    take("(");
    if (++depth_ > kMostDepth) return fail("too many brackets one in another");
    if (word == "if") {
      const Index chosen = choice();
      --depth_;
      return chosen;
    }
    const auto* found =
        std::find_if(kFunctions.begin(), kFunctions.end(), [&](const Function& f) { return f.name == word; });
    if (found == kFunctions.end()) return fail_at(start, fmt::format("'{}' is no function", word.substr(0, 40)));
    std::vector<Index> arguments;
    do arguments.push_back(sum());
    while (!fault_ && arguments.size() <= kMostArguments && take(","));
    --depth_;
    if (fault_) return 0;
    if (arguments.size() < found->least || arguments.size() > found->most)
      return fail_at(start, found->most == kMany
                                ? fmt::format("{} takes 1 to {} values", word, kMany)
                                : fmt::format("{} takes {} value{}", word, found->most, found->most == 1 ? "" : "s"));
    if (!take(")")) return fail("a comma or a closing bracket is expected here");
    const Index node = add(kCall, arguments);
    out_.nodes_[node].function = static_cast<std::uint8_t>(found - kFunctions.begin());
    return node;
  }
  /// `a < b, x, y)`
  Index choice() {
    const Index left = sum();
    if (fault_) return 0;
    std::uint8_t op = kLess;
    bool swapped = false;
    if (take("<="))
      op = kLessOrEqual;
    else if (take(">="))
      op = kLessOrEqual, swapped = true;
    else if (take(">"))
      swapped = true;
    else if (!take("<"))
      return fail("one of < <= > >= is expected here");
    const Index right = sum();
    if (fault_) return 0;
    const Index condition = swapped ? add(op, {right, left}) : add(op, {left, right});
    std::array<Index, 2> branches{};
    for (Index& branch : branches) {
      if (!take(",")) return fail("a comma is expected here: if(a < b, x, y)");
      branch = sum();
      if (fault_) return 0;
    }
    if (!take(")")) return fail("a closing bracket is expected here");
    return add(kChoose, {condition, branches[0], branches[1]});
  }

  std::string_view text_;
  const std::vector<std::string>& symbols_;
  std::size_t at_ = 0;
  int depth_ = 0;
  bool bare_power_ = false;  ///< what was read last is a power without brackets around it
  std::vector<int> heights_;
  std::optional<Error> fault_;
  Expression out_;
};

Result<Expression> Expression::read(std::string_view text, const std::vector<std::string>& symbols) {
  return ExpressionReader(text, symbols).read();
}

double Expression::value_of(std::uint32_t index, const std::vector<double>& symbols) const {
  const Node& node = nodes_[index];
  const std::uint32_t* a = arguments_.data() + node.first;
  const auto of = [&](int i) { return value_of(a[i], symbols); };
  switch (node.op) {
    case kNumber:
      return node.number;
    case kSymbol:
      return symbols[node.symbol];
    case kAdd:
      return of(0) + of(1);
    case kSubtract:
      return of(0) - of(1);
    case kMultiply:
      return of(0) * of(1);
    case kDivide:
      return of(0) / of(1);
    case kPower:
      return std::pow(of(0), of(1));
    case kNegate:
      return -of(0);
    case kLess:
      return of(0) < of(1) ? 1 : 0;
    case kLessOrEqual:
      return of(0) <= of(1) ? 1 : 0;
    case kChoose:
      return of(0) != 0 ? of(1) : of(2);
    default:
      break;
  }
  return call_of(node, symbols);
}

double Expression::call_of(const Node& node, const std::vector<double>& symbols) const {
  std::array<double, kMostArguments> values;
  for (std::uint32_t i = 0; i < node.count; ++i) values[i] = value_of(arguments_[node.first + i], symbols);
  return function_value(node.function, values, node.count);
}

}  // namespace lobewise::formula
