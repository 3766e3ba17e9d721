#pragma once
// Findings, sentences, quantities and derivations as JSON; shapes: docs/api.md.

#include "engine/api/json_io.h"
#include "engine/base/text.h"
#include "engine/evidence/finding.h"

namespace lobewise::api {

/// {value, quantity, si, us}
[[nodiscard]] Json quantity_json(double si, Quantity quantity);
/// {si, us}
[[nodiscard]] Json sentence_json(const Text& text);
[[nodiscard]] Json working_json(const Working& working);
[[nodiscard]] Json assumption_json(const Assumption& assumption);
[[nodiscard]] Json chart_json(const evidence::Chart& chart);
/// {key, text, rank, who, when}: who acts on it and when, the gravest with the lowest rank.
[[nodiscard]] Json caution_json(const std::string& key, const std::string& text);
[[nodiscard]] Json finding_json(const evidence::Finding& finding);

}  // namespace lobewise::api
