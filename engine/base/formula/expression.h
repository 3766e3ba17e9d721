#pragma once
// A formula that somebody wrote, read once and computed many times: the plain grammar of print.h for scalars.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::formula {

/// Precedence: comparison < sum < product < sign < power. `-a ^ 2` and `a ^ b ^ c` are refused, since calculators read
/// them in two ways; brackets say which is meant.
class Expression {
 public:
  /// @param symbols  names that may occur; their values are given to `value` in this order
  /// Errors name the character (counted from 1) and what stands there. Limits: 4000 characters, 100 brackets deep.
  [[nodiscard]] static Result<Expression> read(std::string_view text, const std::vector<std::string>& symbols);

  /// Value at given symbols; not a number where the formula has none (`ln` of a negative number). `if` computes one
  /// branch only.
  [[nodiscard]] double value(const std::vector<double>& symbols) const { return value_of(root_, symbols); }

 private:
  friend class ExpressionReader;
  struct Node {
    std::uint8_t op = 0;
    std::uint8_t function = 0;
    double number = 0;
    std::uint32_t symbol = 0;
    std::uint32_t first = 0, count = 0;  ///< of its arguments in `arguments_`
  };
  [[nodiscard]] double value_of(std::uint32_t node, const std::vector<double>& symbols) const;
  [[nodiscard]] double call_of(const Node& node, const std::vector<double>& symbols) const;

  std::vector<Node> nodes_;
  std::vector<std::uint32_t> arguments_;
  std::uint32_t root_ = 0;
};

}  // namespace lobewise::formula
