#pragma once
// The workbook: everything of the proposal as numbers in cells, for people who want to compute with them.

#include <string>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// Writes the workbook. Text is always written as text: no cell can become a formula or a link.
/// Errors: the file cannot be written.
[[nodiscard]] Errors write_findings_xlsx(const Source& source, const std::string& file);

}  // namespace lobewise::handover
