#pragma once
// Formulas as the engine writes them, set for reading: `T_c = sqrt(F_1^2 + F_2^2) / (2 pi)`.

#include <string>
#include <string_view>

namespace lobewise::handover {

/// Markup with italic variables, Greek letters, subscripts, superscripts and roots; safe for any text.
[[nodiscard]] std::string formula_html(std::string_view formula);

}  // namespace lobewise::handover
