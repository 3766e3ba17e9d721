#pragma once
// A figure that is known within two ends, as people write it: `0.16 /kWh`, `0.12 … 0.20 /kWh`, `2 to 6 week`.

#include "engine/base/quantity.h"

namespace lobewise {

/// low <= likely <= high. A figure that is known exactly has all three equal.
struct Span {
  double low = 0, likely = 0, high = 0;  ///< SI

  [[nodiscard]] bool exact() const { return low == high; }
};

/// Reads one, two or three quantities between `…`, `...`, ` to ` or ` - `: exact; low and high with the middle as the
/// likely one; low, likely and high. A unit behind the last one counts for those before it that have none.
/// Errors: those of parse_quantity; ends in the wrong order; more than three.
[[nodiscard]] Result<Span> parse_span(std::string_view text, Quantity quantity, std::string_view path);

}  // namespace lobewise
