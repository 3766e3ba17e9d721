#include "engine/api/evidence_json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/fitting_unit.h"
#include "engine/base/formula/print.h"
#include "engine/demand/caution_duty.h"

namespace lobewise::api {
namespace {

constexpr const char* kVerdicts[] = {"holds", "holds_if", "does_not_hold", "cannot_be_judged"};
constexpr const char* kStepKinds[] = {"computed", "solved", "looked_up", "followed_in_time"};

Json check_json(const evidence::Check& check) {
  Json json{{"name", check.name},
            {"figure", quantity_json(check.figure, check.quantity)},
            {"limit", quantity_json(check.limit, check.quantity)},
            {"at_most", check.at_most},
            {"basis", evidence::words(check.basis)},
            {"margin", check.margin()}};
  if (check.low) json["low"] = quantity_json(*check.low, check.quantity);
  if (check.high) json["high"] = quantity_json(*check.high, check.quantity);
  return json;
}

/// How an axis is shown: (SI - offset) / factor in `unit`, which fits its largest figure.
Json axis_unit(const evidence::Chart& chart, std::vector<double> evidence::Series::*axis, Quantity quantity) {
  double largest = 0;
  for (const evidence::Series& s : chart.series)
    for (const double value : s.*axis) largest = std::max(largest, std::abs(value));
  const auto one = [&](UnitSystem system) {
    const Unit& unit = fitting_unit(largest, quantity, system);
    return Json{{"unit", std::string(unit.name)}, {"factor", unit.factor}, {"offset", unit.offset}};
  };
  return Json{{"si", one(UnitSystem::si)}, {"us", one(UnitSystem::us)}};
}

/// As `quantity_json`, of a list: values SI, the words name the first few.
Json list_json(const std::vector<double>& list, Quantity quantity) {
  constexpr std::size_t kShown = 4;
  const auto words = [&](UnitSystem system) {
    std::string out;
    for (std::size_t i = 0; i < std::min(kShown, list.size()); ++i)
      out += fmt::format("{}{}", i > 0 ? ", " : "", format_quantity(list[i], quantity, system));
    return list.size() > kShown ? fmt::format("{} … ({} values)", out, list.size()) : out;
  };
  return Json{{"value", list},
              {"quantity", std::string(info(quantity).key)},
              {"si", words(UnitSystem::si)},
              {"us", words(UnitSystem::us)}};
}

Json sentences_json(const std::vector<Text>& texts) {
  Json list = Json::array();
  for (const Text& text : texts) list.push_back(sentence_json(text));
  return list;
}

}  // namespace

Json quantity_json(double si, Quantity quantity) {
  return Json{{"value", si},
              {"quantity", std::string(info(quantity).key)},
              {"si", format_quantity(si, quantity, UnitSystem::si)},
              {"us", format_quantity(si, quantity, UnitSystem::us)}};
}

Json sentence_json(const Text& text) {
  return Json{{"si", render(text, UnitSystem::si)}, {"us", render(text, UnitSystem::us)}};
}

bool WorkingWanted::wants(const std::string& id) const {
  return !of || std::find(of->begin(), of->end(), id) != of->end();
}

Json working_json(const Working& working, bool cells) {
  Json list = Json::array();
  for (const WorkingStep& step : working) {
    Json inputs = Json::array();
    for (const WorkingInput& input : step.inputs)
      inputs.push_back({{"symbol", input.symbol},
                        {"symbol_mathml", formula::mathml_symbol(input.symbol)},
                        {"meaning", input.meaning},
                        {"value", input.list.empty() ? quantity_json(input.value, input.quantity)
                                                     : list_json(input.list, input.quantity)}});
    Json json{{"symbol", step.symbol},
              {"symbol_mathml", formula::mathml_symbol(step.symbol)},
              {"meaning", step.meaning},
              {"kind", kStepKinds[static_cast<std::size_t>(step.kind)]},
              {"formula", step.where},
              {"inputs", std::move(inputs)},
              {"value", quantity_json(step.value, step.quantity)},
              {"source", step.source}};
    if (step.kind == StepKind::computed) {
      json["expression"] = formula::plain(*step.tree);
      json["formula"] = fmt::format("{} = {}", formula::text_symbol(step.symbol), formula::text(*step.tree));
      json["mathml"] =
          fmt::format("<mrow>{}<mo>=</mo>{}</mrow>", formula::mathml_symbol(step.symbol), formula::mathml(*step.tree));
    } else if (step.kind == StepKind::solved) {
      json["residual"] = formula::plain(*step.tree);
      json["tolerance"] = step.tolerance;
      json["formula"] = fmt::format("{} solves {} = 0", formula::text_symbol(step.symbol), formula::text(*step.tree));
      json["mathml"] = fmt::format("<mrow>{}<mo>=</mo><mn>0</mn></mrow>", formula::mathml(*step.tree));
    }
    if (cells && step.tree) {
      json["cells"] = formula::spreadsheet(*step.tree, [](const formula::Symbol& s) { return "{" + s.name + "}"; });
      if (step.kind == StepKind::solved) json["residual_value"] = step.tree->value;
    }
    list.push_back(std::move(json));
  }
  return list;
}

Json assumption_json(const Assumption& assumption) {
  return Json{{"path", assumption.path},
              {"text", assumption.text},
              {"value", quantity_json(assumption.value, assumption.quantity)},
              {"low", quantity_json(assumption.low, assumption.quantity)},
              {"high", quantity_json(assumption.high, assumption.quantity)},
              {"source", assumption.source}};
}

Json chart_json(const evidence::Chart& chart) {
  Json series = Json::array();
  for (const evidence::Series& s : chart.series)
    series.push_back(
        {{"name", sentence_json({s.name, s.values})}, {"x", s.x}, {"y", s.y}, {"dashed", s.dashed}, {"band", s.band}});
  return Json{{"id", chart.id},
              {"title", chart.title},
              {"x_label", chart.x_label},
              {"y_label", chart.y_label},
              {"x_quantity", std::string(info(chart.x_quantity).key)},
              {"y_quantity", std::string(info(chart.y_quantity).key)},
              {"x_unit", axis_unit(chart, &evidence::Series::x, chart.x_quantity)},
              {"y_unit", axis_unit(chart, &evidence::Series::y, chart.y_quantity)},
              {"bars", chart.bars},
              {"log_x", chart.log_x},
              {"log_y", chart.log_y},
              {"pair", chart.pair},
              {"series", std::move(series)}};
}

Json caution_json(const std::string& key, const std::string& text) {
  const demand::CautionDuty& duty = demand::duty_of_caution(key);
  return Json{{"key", key}, {"text", text}, {"rank", duty.rank}, {"who", duty.who}, {"when", duty.when}};
}

Json finding_json(const evidence::Finding& finding, const WorkingWanted& wanted) {
  Json checks = Json::array(), charts = Json::array(), cautions = Json::array();
  for (const evidence::Check& check : finding.checks) checks.push_back(check_json(check));
  for (const evidence::Chart& chart : finding.charts) charts.push_back(chart_json(chart));
  for (const evidence::Caution& caution : finding.cautions) cautions.push_back(caution_json(caution.key, caution.text));
  Json json{{"id", finding.id},
            {"question", finding.question},
            {"verdict", kVerdicts[static_cast<std::size_t>(finding.verdict)]},
            {"answer", sentence_json(finding.answer)},
            {"checks", std::move(checks)},
            {"notes", sentences_json(finding.notes)},
            {"missing", finding.missing},
            {"left_out", finding.left_out},
            {"charts", std::move(charts)},
            {"cautions", std::move(cautions)}};
  if (wanted.wants(finding.id)) json["working"] = working_json(finding.working, wanted.cells);
  Json influences = Json::array();
  for (const evidence::Influence& i : finding.influences)
    influences.push_back({{"unknown", i.unknown}, {"change", i.change}});
  json["influences"] = std::move(influences);
  if (!finding.condition.empty()) json["condition"] = sentence_json(finding.condition);
  return json;
}

}  // namespace lobewise::api
