#pragma once
// A question answered, as it leaves: what each member means stands in its description.

#include <optional>
#include <string>
#include <vector>

#include "engine/evidence/finding.h"
#include "engine/result/amount.h"

namespace lobewise::result {

using evidence::Basis;
using evidence::Verdict;

struct Check {
  std::string name;
  Amount figure, limit;
  bool at_most = true;
  double margin = 0;
  std::optional<Amount> low, high;
  Basis basis = Basis::promise;
  bool of_order = false, decides = false;
};

struct StepInput {
  std::string symbol, symbol_mathml, meaning;
  Amount value;
};

struct Step {
  std::string symbol, symbol_mathml, meaning;
  StepKind kind = StepKind::computed;
  std::string formula;
  std::vector<StepInput> inputs;
  Amount value;
  std::string source;
  std::optional<std::string> expression, residual, mathml, cells;
  std::optional<double> tolerance, residual_value;
};

struct Series {
  Sentence name;
  std::vector<double> x, y;
  bool dashed = false, band = false;
};

struct AxisUnit {
  std::string unit;
  double factor = 1, offset = 0;
  [[nodiscard]] double shown(double si) const { return (si - offset) / factor; }
};
struct AxisUnits {
  AxisUnit si, us;
  [[nodiscard]] const AxisUnit& in(std::string_view units) const { return units == "us" ? us : si; }
};

struct Chart {
  std::string id, title, x_label, y_label, x_quantity, y_quantity;
  AxisUnits x_unit, y_unit;
  bool bars = false, log_x = false, log_y = false;
  std::vector<std::string> pair;
  std::vector<Series> series;
};

struct Caution {
  std::string key, text;
  int rank = 0;
  std::string who, when;
};

struct Influence {
  std::string unknown;
  double change = 0;
};

struct Finding {
  std::string id, question;
  Verdict verdict = Verdict::cannot_be_judged;
  Sentence answer;
  std::optional<Sentence> condition;
  std::vector<Check> checks;
  std::vector<Sentence> notes;
  std::vector<std::string> missing, left_out;
  std::optional<std::vector<Step>> working;
  std::vector<Chart> charts;
  std::vector<Caution> cautions;
  std::vector<Influence> influences;
};

/// Which workings a caller asks for.
struct WorkingWanted {
  std::optional<std::vector<std::string>> of;  ///< ids of findings, `demand` among them; nothing: of all
  bool cells = false;                          ///< formulas for a spreadsheet too
  [[nodiscard]] bool wants(const std::string& id) const;
};

[[nodiscard]] Finding of(const evidence::Finding& finding, const WorkingWanted& wanted = {});
[[nodiscard]] Chart of(const evidence::Chart& chart);
[[nodiscard]] std::vector<Step> steps_of(const Working& working, bool cells = false);
/// Who acts on it and when comes from the register of cautions.
[[nodiscard]] Caution caution(const std::string& key, const std::string& text);

}  // namespace lobewise::result
