#pragma once
// Findings, sentences, quantities and derivations as JSON; shapes: docs/api.md.

#include <optional>
#include <string>
#include <vector>

#include "engine/api/json_io.h"
#include "engine/base/text.h"
#include "engine/evidence/finding.h"

namespace lobewise::api {

/// {value, quantity, si, us}
[[nodiscard]] Json quantity_json(double si, Quantity quantity);
/// {si, us}
[[nodiscard]] Json sentence_json(const Text& text);
/// Which workings a caller asks for.
struct WorkingWanted {
  std::optional<std::vector<std::string>> of;  ///< ids of findings, `demand` among them; nothing: of all
  bool cells = false;                          ///< formulas for a spreadsheet too
  [[nodiscard]] bool wants(const std::string& id) const;
};
/// @param cells  a step carries `cells`, its expression as a spreadsheet's formula in which every symbol stands in
/// braces
[[nodiscard]] Json working_json(const Working& working, bool cells = false);
[[nodiscard]] Json assumption_json(const Assumption& assumption);
[[nodiscard]] Json chart_json(const evidence::Chart& chart);
/// {key, text, rank, who, when}: who acts on it and when, the gravest with the lowest rank.
[[nodiscard]] Json caution_json(const std::string& key, const std::string& text);
/// A finding whose working nobody asks for has no `working`.
[[nodiscard]] Json finding_json(const evidence::Finding& finding, const WorkingWanted& wanted = {});

}  // namespace lobewise::api
