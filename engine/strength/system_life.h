#pragma once
// Life of many parts together. Theory: docs/theory/life.md. Seals and grease are no Weibull parts: report them apart.
#include <span>

#include "engine/base/formula/term.h"
#include "engine/strength/coefficients.h"

namespace lobewise::strength {

/// A part, or `count` equal parts, of a system.
struct SystemPart {
  double L10 = 0;                 ///< life with 90 %, any unit > 0; may be infinite
  double weibull = kWeibullLine;  ///< slope e > 0
  double count = 1;               ///< > 0
  double least = 0;               ///< g: share of L10 that every part reaches, in [0, 1)
};

/// Chance that everything survives `time`: prod exp(-ln(1/0.9) n_i [(t/L_i - g_i)/(1 - g_i)]^e_i), the bracket at least
/// 0. Source: Weibull, ISO 281 scale; slopes from memory.
[[nodiscard]] double system_reliability(double time, std::span<const SystemPart> parts);
/// The sum in its exponent, in units of ln(1/0.9): 1 where 90 % survive.
[[nodiscard]] double system_hazard(double time, std::span<const SystemPart> parts);

/// Life that `share` in (0, 1) of the whole reach: the time at which `system_reliability` is `share`, in the unit of
/// L10. For 90 %, equal slopes and no least life (sum n_i L_i^-e)^(-1/e). Infinite when every part is. Precondition:
/// not empty.
[[nodiscard]] double system_life(std::span<const SystemPart> parts, double share = 0.9);

/// Share of L10 that `share` in (0, 1) of equal parts reach: (1 - g) (ln(1/S)/ln(1/0.9))^(1/e) + g. With 1.5 and 0.05
/// it is a_1 of ISO 281.
[[nodiscard]] double life_share(double share, double weibull, double least);

/// Reliability of parts over lists of equal length, for a working: S = exp(-ln(1/0.9) sum n x^e), x = max(t/L - g,
/// 0)/(1 - g).
template <class X>
X parts_reliability(const X& time, const X& lives, const X& counts, const X& slopes, const X& least) {
  using namespace formula;
  const X beyond = time / lives - least;
  return exp(ln(X(0.9)) * sum(counts * pow((beyond + abs(beyond)) / (2 * (1 - least)), slopes)));
}

}  // namespace lobewise::strength
