#pragma once
// A recorded tree as text: one grammar, four ways to write it.
//
// The plain grammar, all values SI: numbers, symbols, `pi`, `+ - * / ^`, brackets, comparisons inside
// `if(a < b, x, y)` (lazy), functions `sqrt exp ln lg sin cos tan asin acos atan atan2 sinh cosh tanh abs floor ceil
// round gammaln min max sum mean lerp`. Blanks stand around every operator of two sides; a sign before a power and a
// power of a power stand in brackets, since spreadsheets read them the other way round.

#include <functional>
#include <string>

#include "engine/base/formula/node.h"

namespace lobewise::formula {

/// Right-hand side in the plain grammar, e.g. `sqrt(F * E / (pi * b * rho))`.
[[nodiscard]] std::string plain(const Node& node);

/// For terminals and other plain text: Greek letters, a raised dot for products, `√`.
[[nodiscard]] std::string text(const Node& node);
/// A symbol for plain text: `sigma_H` -> `σ_H`.
[[nodiscard]] std::string text_symbol(const std::string& symbol);

/// Presentation MathML (W3C MathML 3) of the right-hand side, without the `math` element around it.
[[nodiscard]] std::string mathml(const Node& node);
/// The same of a symbol.
[[nodiscard]] std::string mathml_symbol(const std::string& symbol);

/// Formula of a spreadsheet (OpenFormula 1.3, small group, and a few more) without the `=`.
/// @param cell  where the value of a symbol stands: a cell, a name or, for a list, a range of cells
[[nodiscard]] std::string spreadsheet(const Node& node, const std::function<std::string(const Symbol&)>& cell);

}  // namespace lobewise::formula
