#pragma once
// The start on the coldest day in a finding: its checks, its working, its chart, and what would mend it.

#include "engine/drive/cold.h"
#include "engine/drive/pour_point.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// Checks of `motor` that concern starting: torque on a usual day and on the coldest one, and how long the cold start
/// heats the motor. Precondition: there is a motor.
[[nodiscard]] std::vector<Check> start_checks(const drive::Drive& drive, const Evaluation& e);
/// Check of `lubrication`: whether the fill still flows on the coldest day.
[[nodiscard]] Check flow_check(const drive::Drive& drive, const Evaluation& e);

/// What a start with the lubricant at a temperature comes to, at nominal values.
struct ColdVerdict {
  bool flows = false;   ///< the fill reaches where it is needed
  bool starts = false;  ///< the motor has its usual torque to spare all the way up
  bool quick = false;   ///< before the motor is too hot
  [[nodiscard]] bool good() const { return flows && starts && quick; }
};
[[nodiscard]] ColdVerdict cold_verdict(const drive::Drive& drive, double temperature);

/// Each way to mend the start on the coldest day that this range and the motor tables offer, with its figure; words
/// where no figure can be given. Empty when nothing is to be mended. None of them is taken: they are for the order.
[[nodiscard]] std::vector<Text> cold_remedies(const drive::Drive& drive, const Evaluation& e);

/// A sentence that goes on.
void append(Text& text, const Text& more);
[[nodiscard]] Text prefixed(const char* words, Text text);

/// The derivation of torque asked and given at a temperature.
void cold_working(const drive::Drive& drive, const Evaluation& e, Working& working);

/// Torque at the motor shaft over the temperature of the surroundings: what machine and oil ask, at rest and at most,
/// what the motor gives at least, where the fill stops to flow. Precondition: there is a motor.
[[nodiscard]] Chart cold_chart(const drive::Drive& drive, const Evaluation& e);

}  // namespace lobewise::evidence
