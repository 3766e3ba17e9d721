#pragma once
// Every uncertain figure of a case by its path: what a simulation draws and a sensitivity moves.

#include <string>
#include <vector>

#include "engine/base/quantity.h"
#include "engine/case/business_case.h"

namespace lobewise::cost {

struct Parameter {
  std::string path;
  std::string label;
  Quantity quantity = Quantity::number;
  std::vector<Range*> ranges;  ///< one, or the equal ranges of both options that move together
  double least = 0;            ///< smallest value allowed
  bool above_least = false;    ///< the smallest value itself is not allowed
  double most = 0;             ///< largest value allowed
  const char* allowed = "";    ///< sentence for the error
};

/// All ranges of a case, pointing into it, in a fixed order.
[[nodiscard]] std::vector<Parameter> parameters(CaseInput& input);

}  // namespace lobewise::cost
