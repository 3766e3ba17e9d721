#pragma once
// The order sheet and the commissioning sheet.

#include <string>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// What is ordered, complete enough to be made and checked against.
[[nodiscard]] std::string order_sheet(const Source& source);
/// What to do and what to measure from delivery to the first change of the lubricant.
[[nodiscard]] std::string commissioning_sheet(const Source& source);

}  // namespace lobewise::handover
