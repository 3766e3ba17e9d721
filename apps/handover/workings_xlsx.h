#pragma once
// The live workbook: what goes in, and every computed step of the proof as a formula on it.

#include <string>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// Sheets: how to read it; *Given*, the inputs, each in the reader's unit and in SI; *Workings*, each computed step as
/// a formula with the engine's value beside it, each solved one with its residual, which says whether it still closes;
/// *Lists*, forces and the like. A symbol leads to the cell that it was computed in, else to one of *Given*.
/// Precondition: the proof was asked for with `cells`. Text is always written as text.
/// Errors: the file cannot be written.
[[nodiscard]] Errors write_workings_xlsx(const Source& source, const std::string& file);

}  // namespace lobewise::handover
