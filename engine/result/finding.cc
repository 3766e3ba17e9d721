#include "engine/result/finding.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/fitting_unit.h"
#include "engine/base/formula/print.h"
#include "engine/demand/caution_duty.h"

namespace lobewise::result {
namespace {

std::optional<Amount> amount_if_any(const std::optional<double>& si, Quantity quantity) {
  return si ? std::optional<Amount>(amount(*si, quantity)) : std::nullopt;
}

Check of(const evidence::Check& check, bool decides) {
  Check out;
  out.name = check.name;
  out.figure = amount(check.figure, check.quantity);
  out.limit = amount(check.limit, check.quantity);
  out.at_most = check.at_most;
  out.margin = check.margin();
  out.low = amount_if_any(check.low, check.quantity);
  out.high = amount_if_any(check.high, check.quantity);
  out.basis = check.basis;
  out.of_order = check.of_order;
  out.decides = decides;
  return out;
}

AxisUnits axis_of(const evidence::Chart& chart, std::vector<double> evidence::Series::*axis, Quantity quantity) {
  double largest = 0;
  for (const evidence::Series& s : chart.series)
    for (const double value : s.*axis) largest = std::max(largest, std::abs(value));
  const auto one = [&](UnitSystem system) {
    const Unit& unit = fitting_unit(largest, quantity, system);
    return AxisUnit{std::string(unit.name), unit.factor, unit.offset};
  };
  return {one(UnitSystem::si), one(UnitSystem::us)};
}

StepInput of(const WorkingInput& input) {
  return {input.symbol, formula::mathml_symbol(input.symbol), input.meaning,
          input.list.empty() ? amount(input.value, input.quantity) : amount(input.list, input.quantity)};
}

Step of(const WorkingStep& step, bool cells) {
  Step out;
  out.symbol = step.symbol;
  out.symbol_mathml = formula::mathml_symbol(step.symbol);
  out.meaning = step.meaning;
  out.kind = step.kind;
  out.formula = step.where;
  out.inputs.reserve(step.inputs.size());
  for (const WorkingInput& input : step.inputs) out.inputs.push_back(of(input));
  out.value = amount(step.value, step.quantity);
  out.source = step.source;
  if (step.kind == StepKind::computed) {
    out.expression = formula::plain(*step.tree);
    out.formula = fmt::format("{} = {}", formula::text_symbol(step.symbol), formula::text(*step.tree));
    out.mathml = fmt::format("<mrow>{}<mo>=</mo>{}</mrow>", out.symbol_mathml, formula::mathml(*step.tree));
  } else if (step.kind == StepKind::solved) {
    out.residual = formula::plain(*step.tree);
    out.tolerance = step.tolerance;
    out.formula = fmt::format("{} solves {} = 0", formula::text_symbol(step.symbol), formula::text(*step.tree));
    out.mathml = fmt::format("<mrow>{}<mo>=</mo><mn>0</mn></mrow>", formula::mathml(*step.tree));
  }
  if (cells && step.tree) {
    out.cells = formula::spreadsheet(*step.tree, [](const formula::Symbol& s) { return "{" + s.name + "}"; });
    if (step.kind == StepKind::solved) out.residual_value = step.tree->value;
  }
  return out;
}

}  // namespace

bool WorkingWanted::wants(const std::string& id) const {
  return !of || std::find(of->begin(), of->end(), id) != of->end();
}

std::vector<Step> steps_of(const Working& working, bool cells) {
  std::vector<Step> out;
  out.reserve(working.size());
  for (const WorkingStep& step : working) out.push_back(of(step, cells));
  return out;
}

Chart of(const evidence::Chart& chart) {
  Chart out;
  out.id = chart.id;
  out.title = chart.title;
  out.x_label = chart.x_label;
  out.y_label = chart.y_label;
  out.x_quantity = info(chart.x_quantity).key;
  out.y_quantity = info(chart.y_quantity).key;
  out.x_unit = axis_of(chart, &evidence::Series::x, chart.x_quantity);
  out.y_unit = axis_of(chart, &evidence::Series::y, chart.y_quantity);
  out.bars = chart.bars;
  out.log_x = chart.log_x;
  out.log_y = chart.log_y;
  out.pair = chart.pair;
  for (const evidence::Series& s : chart.series)
    out.series.push_back({sentence({s.name, s.values}), s.x, s.y, s.dashed, s.band});
  return out;
}

Caution caution(const std::string& key, const std::string& text) {
  const demand::CautionDuty& duty = demand::duty_of_caution(key);
  return {key, text, duty.rank, std::string(duty.who), std::string(duty.when)};
}

Finding of(const evidence::Finding& finding, const WorkingWanted& wanted) {
  Finding out;
  out.id = finding.id;
  out.question = finding.question;
  out.verdict = finding.verdict;
  out.answer = sentence(finding.answer);
  out.condition = if_any(finding.condition);
  const evidence::Check* decides = evidence::worst(finding);
  for (const evidence::Check& check : finding.checks) out.checks.push_back(of(check, &check == decides));
  out.notes = sentences(finding.notes);
  out.missing = finding.missing;
  out.left_out = finding.left_out;
  if (wanted.wants(finding.id)) out.working = steps_of(finding.working, wanted.cells);
  for (const evidence::Chart& chart : finding.charts) out.charts.push_back(of(chart));
  for (const evidence::Caution& one : finding.cautions) out.cautions.push_back(caution(one.key, one.text));
  for (const evidence::Influence& one : finding.influences) out.influences.push_back({one.unknown, one.change});
  return out;
}

}  // namespace lobewise::result
