#pragma once
// The columns of the ranked list, the same in every form of the result.

#include <nlohmann/json.hpp>
#include <string>
#include <variant>
#include <vector>

#include "apps/survey/write.h"

namespace lobewise::survey {

/// A cell: nothing, a number in the heading's unit, or text.
using Value = std::variant<std::monostate, double, std::string>;

struct ResultColumn {
  std::string heading;
  double width = 10;  ///< on the sheet [characters]
  int digits = 4;     ///< significant ones of a number
  std::function<Value(const nlohmann::json& record)> value;
};

/// @param estimated  margins and efficiency come from rigid discs: their headings say ≈
[[nodiscard]] std::vector<ResultColumn> ranked_columns(const Report& report, bool estimated);

/// Text of `{si, us}` in the units of the report.
[[nodiscard]] std::string in_units(const nlohmann::json& both, const Report& report);
/// `C "Motor kW" 'abc': no number (left out)`, one after the other.
[[nodiscard]] std::string problems_text(const nlohmann::json& record);
[[nodiscard]] std::string list_text(const nlohmann::json& record, const char* key);
[[nodiscard]] std::string verdict_words(const std::string& verdict);

struct Ranking {
  std::vector<std::size_t> order;     ///< records, most points first, then the order of the list
  std::vector<std::string> findings;  ///< ids of every finding there is, in the order they are shown
  std::vector<bool> estimates;        ///< of each: its margins come from rigid discs
  [[nodiscard]] bool estimated() const;
};
/// Errors: the temporary file cannot be read.
[[nodiscard]] Result<Ranking> ranking_of(Outcome& outcome);

}  // namespace lobewise::survey
