#pragma once
// What limits the radial force on the shaft end: steps and charts.

#include "engine/base/working.h"
#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"

namespace lobewise::evidence {

/// The force that strength allows, and the one that the life of the unit allows where it is smaller.
void record_allowed_force(const drive::Drive& drive, const Evaluation& e, const drive::OutputDuty& output,
                          Working& working);

/// Allowed force along the shaft end.
[[nodiscard]] Chart overhung_over_position(const drive::Drive& drive, const Evaluation& e);
/// Allowed force over the hours it must last.
[[nodiscard]] Chart overhung_over_life(const drive::Drive& drive, const Evaluation& e);

}  // namespace lobewise::evidence
