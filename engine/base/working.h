#pragma once
// The derivation of a figure as data: screen, PDF and command line render the same steps.

#include <string>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise {

/// A value put into a formula.
struct WorkingInput {
  std::string symbol;   ///< e.g. `F`
  std::string meaning;  ///< plain words
  double value = 0;     ///< SI
  Quantity quantity = Quantity::number;
};

/// symbol = formula(inputs) = value, with where the formula comes from.
struct WorkingStep {
  std::string symbol;
  std::string meaning;
  std::string formula;  ///< readable text with the symbols of the inputs, e.g. `p = sqrt(q E* / (pi rho))`
  std::vector<WorkingInput> inputs;
  double value = 0;  ///< SI
  Quantity quantity = Quantity::number;
  std::string source;  ///< key of docs/sources.bib with locator, or `derived, docs/theory/x.md`, `common practice, no
                       ///< source`, `from memory: …`
};

using Working = std::vector<WorkingStep>;

/// A coefficient that is not known exactly. Ranges travel to the verdict.
struct Coefficient {
  double nominal = 0;
  double low = 0;
  double high = 0;
  const char* source = "";
};

/// Something that was taken because nobody said it.
struct Assumption {
  std::string path;  ///< field it stands for
  std::string text;  ///< one sentence
  double value = 0, low = 0, high = 0;
  Quantity quantity = Quantity::number;
  std::string source;
};

}  // namespace lobewise
