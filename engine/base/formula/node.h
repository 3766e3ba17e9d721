#pragma once
// The tree that a recorded formula leaves: every node with the value it had when it was computed.

#include <memory>
#include <string>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise::formula {

enum class Op {
  number,
  symbol,
  add,
  subtract,
  multiply,
  divide,
  power,
  negate,
  less,           ///< conditions stand inside `choose` only
  less_or_equal,  ///< the other two are these with their sides changed
  choose,         ///< condition, value if it holds, value if not
  call,           ///< of a function of the grammar
};

/// What a name in a formula stands for.
struct Symbol {
  std::string name;     ///< a letter, then letters, digits, `_`, perhaps a last `'` or `*`
  std::string meaning;  ///< plain words
  Quantity quantity = Quantity::number;
};

struct Node;
using NodePtr = std::shared_ptr<const Node>;

struct Node {
  Op op = Op::number;
  double value = 0;                ///< SI; of a list unused
  std::vector<double> list = {};   ///< values of a list, empty for a scalar
  std::vector<NodePtr> args = {};  ///< operands in their order
  const char* function = "";       ///< of a call, a word of the grammar
  Symbol symbol = {};              ///< of a symbol
  NodePtr definition = {};         ///< of a value named inside a formula: what it was computed from
  std::string source = {};         ///< of such a value
  [[nodiscard]] bool is_list() const { return !list.empty(); }
};

}  // namespace lobewise::formula
