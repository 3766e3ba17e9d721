#pragma once
// Whether a word is a unit, for reading headings of tables; cheaper than parse_quantity, and no error is made.

#include "engine/base/quantity.h"

namespace lobewise {

/// True when the text alone is a unit of the quantity in any spelling that parse_quantity takes.
[[nodiscard]] bool is_unit(std::string_view text, Quantity quantity);

}  // namespace lobewise
