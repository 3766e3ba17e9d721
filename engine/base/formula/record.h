#pragma once
// Steps of a working, made from what was computed.

#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::formula {

/// Appends symbol = result, after a step for every value named inside it that the working does not hold yet. Inputs are
/// the symbols that the tree reaches.
/// @returns the result under its symbol, for the steps that follow
Term record(Working& working, const char* symbol, const char* meaning, Quantity quantity, const Term& result,
            std::string source);

/// A template computed with numbers leaves no working.
inline double record(Working&, const char*, const char*, Quantity, double result, std::string_view) { return result; }

/// Appends a value that solves an equation.
/// @param residual   an expression in which the solution and its lists stand among the symbols; zero when it closes
/// @param tolerance  size of the residual that counts as none, SI of the residual
void record_solved(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                   const Term& residual, double tolerance, std::string source);

/// Appends a value read from a table: `where` names table and row.
void record_looked_up(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                      std::string where, std::vector<WorkingInput> key, std::string source);

/// Appends a value integrated in time: `what` says what was integrated.
void record_followed(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                     std::string what, std::vector<WorkingInput> inputs, std::string source);

/// Symbols that a tree reaches, in the order in which they are read, each once, `pi` left out.
[[nodiscard]] std::vector<WorkingInput> inputs_of(const Node& tree);

/// What keeps a step from being read: a symbol that stands for two values, a name that the grammar cannot read, a value
/// that is not finite. Empty when nothing does.
[[nodiscard]] std::string fault_of(const WorkingStep& step);

}  // namespace lobewise::formula
