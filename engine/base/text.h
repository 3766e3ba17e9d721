#pragma once
// Sentences with quantities in them. The numbers stay SI until somebody reads the sentence.

#include <string>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise {

struct Value {
  double si = 0;
  Quantity quantity = Quantity::number;
};

/// `{}` in the pattern stands for the next value: {"The lobe sees {} of {} allowed.", {{p, pressure}, {limit,
/// pressure}}}.
struct Text {
  std::string pattern;
  std::vector<Value> values;

  [[nodiscard]] bool empty() const { return pattern.empty(); }
};

/// The sentence in one system of units.
[[nodiscard]] std::string render(const Text& text, UnitSystem system);

}  // namespace lobewise
