#pragma once
// The result of a survey: a workbook or a CSV file, the lines most worth looking at first.

#include "apps/survey/run.h"

namespace lobewise::survey {

struct Report {
  std::string list;     ///< name of the list
  std::string mapping;  ///< YAML
  UnitSystem units = UnitSystem::si;
  std::string version;
  std::vector<std::pair<std::string, std::string>> machines;  ///< key -> words
};

/// One line a drive. Text that a spreadsheet would take for a formula gets an apostrophe in front.
/// Errors: not writable.
[[nodiscard]] Errors write_csv(const std::string& file, const Report& report, Outcome& outcome);
/// Sheets: Ranked, Findings, Problems, Mapping, Assumptions, Cautions. Text stays text. Errors: not writable.
[[nodiscard]] Errors write_xlsx(const std::string& file, const Report& report, Outcome& outcome);

/// Either, by the ending of the name. Errors: not writable; a record of another shape, as in a slice changed by hand.
[[nodiscard]] Errors write_result(const std::string& file, const Report& report, Outcome& outcome);

/// A cell of a CSV file: quoted where needed, never a formula.
[[nodiscard]] std::string csv_cell(std::string_view text);

}  // namespace lobewise::survey
