#pragma once
// The dimension drawing of a build: side, view from the output shaft, section of the shaft end, on a sheet.

#include <string>

#include "apps/handover/drawing.h"
#include "apps/handover/source.h"

namespace lobewise::handover {

/// The sheet with frame and title block, full size. `scale`: drawing units per millimetre of paper.
struct Sheet {
  Drawing drawing;
  Box paper;  ///< edges of the sheet inside the printing margin
  double scale = 1;
};
[[nodiscard]] Sheet unit_sheet(const Source& source);
[[nodiscard]] std::string sheet_svg(const Source& source, const Sheet& sheet);
/// The sheet as a page to print.
[[nodiscard]] std::string sheet_html(const Source& source, const Sheet& sheet);

/// The views alone, as a picture for the proposal.
[[nodiscard]] std::string unit_picture(const Source& source);

}  // namespace lobewise::handover
