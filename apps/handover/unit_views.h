#pragma once
// Views of a build from its dimensions.

#include "apps/handover/drawing.h"
#include "apps/handover/source.h"

namespace lobewise::handover {

/// A length as it stands on a drawing, without its unit: millimetres to 0.1, inches to 0.001.
[[nodiscard]] std::string length_text(double metres, const std::string& units);

/// Side view, beside it the view from the output shaft, below it the shaft end, all with their dimensions.
/// @param letter  height of texts on paper [mm]
/// @param scale   drawing units per millimetre of paper
/// @param shaft_end  with the view of it
[[nodiscard]] Drawing unit_views(const Source& source, double letter, double scale, bool shaft_end = true);

}  // namespace lobewise::handover
