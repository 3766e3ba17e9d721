#include "engine/base/formula/record.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace lobewise::formula {
namespace {

template <class Visit>
void each_symbol(const Node& node, const Visit& visit) {
  if (node.op == Op::symbol) {
    if (node.symbol.name != "pi") visit(node);
    return;
  }
  for (const NodePtr& arg : node.args) each_symbol(*arg, visit);
}

/// Steps for the values named inside a tree, the innermost first, each once.
void record_named(Working& working, const Node& tree) {
  each_symbol(tree, [&](const Node& symbol) {
    if (!symbol.definition) return;
    record_named(working, *symbol.definition);
    const bool there = std::any_of(working.begin(), working.end(), [&](const WorkingStep& step) {
      return step.tree == symbol.definition || (step.symbol == symbol.symbol.name && step.value == symbol.value);
    });
    if (there) return;
    WorkingStep step{symbol.symbol.name, symbol.symbol.meaning,  "",           inputs_of(*symbol.definition),
                     symbol.value,       symbol.symbol.quantity, symbol.source};
    step.kind = StepKind::computed;
    step.tree = symbol.definition;
    working.push_back(std::move(step));
  });
}

bool readable(std::string_view name) {
  static constexpr std::array<std::string_view, 25> kWords{
      "pi",   "sqrt", "exp", "ln",    "lg",   "sin",   "cos",     "tan", "asin", "acos", "atan", "atan2", "sinh",
      "cosh", "tanh", "abs", "floor", "ceil", "round", "gammaln", "min", "max",  "sum",  "mean", "lerp"};
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  if (name.empty() || !letter(name.front())) return false;
  if (name == "if" || std::find(kWords.begin(), kWords.end(), name) != kWords.end()) return false;
  if (name.back() == '\'' || name.back() == '*') name.remove_suffix(1);
  return std::all_of(name.begin(), name.end(), [&](char c) { return letter(c) || (c >= '0' && c <= '9') || c == '_'; });
}

}  // namespace

std::vector<WorkingInput> inputs_of(const Node& tree) {
  std::vector<WorkingInput> inputs;
  each_symbol(tree, [&](const Node& n) {
    const bool there = std::any_of(inputs.begin(), inputs.end(), [&](const WorkingInput& input) {
      return input.symbol == n.symbol.name && input.value == n.value && input.list == n.list;
    });
    if (!there) inputs.push_back({n.symbol.name, n.symbol.meaning, n.value, n.symbol.quantity, n.list});
  });
  return inputs;
}

Term record(Working& working, const char* symbol, const char* meaning, Quantity quantity, const Term& result,
            std::string source) {
  record_named(working, *result.node());
  WorkingStep step{symbol, meaning, "", inputs_of(*result.node()), result.value(), quantity, std::move(source)};
  step.kind = StepKind::computed;
  step.tree = result.node();
  working.push_back(std::move(step));
  return input(symbol, meaning, result.value(), quantity);
}

void record_solved(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                   const Term& residual, double tolerance, std::string source) {
  record_named(working, *residual.node());
  WorkingStep step{symbol, meaning, "", inputs_of(*residual.node()), value, quantity, std::move(source)};
  step.kind = StepKind::solved;
  step.tree = residual.node();
  step.tolerance = tolerance;
  working.push_back(std::move(step));
}

void record_looked_up(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                      std::string where, std::vector<WorkingInput> key, std::string source) {
  WorkingStep step{symbol, meaning, std::move(where), std::move(key), value, quantity, std::move(source)};
  step.kind = StepKind::looked_up;
  working.push_back(std::move(step));
}

void record_followed(Working& working, const char* symbol, const char* meaning, Quantity quantity, double value,
                     std::string what, std::vector<WorkingInput> inputs, std::string source) {
  WorkingStep step{symbol, meaning, std::move(what), std::move(inputs), value, quantity, std::move(source)};
  step.kind = StepKind::followed_in_time;
  working.push_back(std::move(step));
}

std::string fault_of(const WorkingStep& step) {
  if (!std::isfinite(step.value)) return fmt::format("{} is not finite", step.symbol);
  for (std::size_t i = 0; i < step.inputs.size(); ++i) {
    const WorkingInput& input = step.inputs[i];
    if (!readable(input.symbol)) return fmt::format("'{}' cannot be read as a symbol", input.symbol);
    if (!std::isfinite(input.value) ||
        !std::all_of(input.list.begin(), input.list.end(), [](double x) { return std::isfinite(x); }))
      return fmt::format("{} is not finite", input.symbol);
    for (std::size_t j = 0; j < i; ++j)
      if (step.inputs[j].symbol == input.symbol) return fmt::format("{} stands for two values", input.symbol);
  }
  return "";
}

}  // namespace lobewise::formula
