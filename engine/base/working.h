#pragma once
// The derivation of a figure as data: screen, PDF and command line render the same steps.

#include <string>
#include <vector>

#include "engine/base/formula/node.h"
#include "engine/base/quantity.h"

namespace lobewise {

/// A value put into a formula.
struct WorkingInput {
  std::string symbol;   ///< e.g. `F`
  std::string meaning;  ///< plain words
  double value = 0;     ///< SI; of a list unused
  Quantity quantity = Quantity::number;
  std::vector<double> list = {};  ///< of a list, SI
};

/// What a reader can do with a step.
enum class StepKind {
  computed,          ///< put the inputs in and get the result
  solved,            ///< put the result in and see the equation close
  looked_up,         ///< find the row of a table
  followed_in_time,  ///< see the bounds and the energy balance beside it
};

/// symbol = formula(inputs) = value, with where the formula comes from. Made by formula/record.h.
struct WorkingStep {
  std::string symbol;
  std::string meaning;
  std::string where;  ///< of one looked up or followed in time: which table and row, what was integrated
  std::vector<WorkingInput> inputs;
  double value = 0;  ///< SI
  Quantity quantity = Quantity::number;
  std::string source;  ///< key of docs/sources.bib with locator, or `derived, docs/theory/x.md`, `common practice, no
                       ///< source`, `from memory: …`
  StepKind kind = StepKind::computed;
  formula::NodePtr tree = {};  ///< computed: the right-hand side; solved: the residual
  double tolerance = 0;        ///< solved: the residual's size that counts as none, SI
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
