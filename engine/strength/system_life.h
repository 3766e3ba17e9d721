#pragma once
// Life of many parts together. Theory: docs/theory/life.md. Seals and grease are no Weibull parts: report them apart.
#include <span>

#include "engine/strength/coefficients.h"

namespace lobewise::strength {

/// A part, or `count` equal parts, of a system.
struct SystemPart {
  double L10 = 0;                 ///< life with 90 %, any unit > 0; may be infinite
  double weibull = kWeibullLine;  ///< slope e > 0
  double count = 1;               ///< > 0
};

/// Chance that everything survives `time`: prod exp(-ln(1/0.9) n_i (t/L_i)^e_i). Source: Weibull, ISO 281 scale; slopes
/// from memory.
[[nodiscard]] double system_reliability(double time, std::span<const SystemPart> parts);

/// Life with 90 % of the whole: the time at which `system_reliability` is 0.9, in the unit of L10. For equal slopes
/// (sum n_i L_i^-e)^(-1/e). Infinite when every part is. Precondition: not empty.
[[nodiscard]] double system_life(std::span<const SystemPart> parts);

}  // namespace lobewise::strength
