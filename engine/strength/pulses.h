#pragma once
// What peaks that come often do to pins, shaft and key. Theory: docs/theory/peaks.md.
#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::strength {

/// From this number in the asked life on a peak counts for fatigue: where the Woehler line of steel begins. Shigley,
/// from memory.
inline constexpr double kFatigueFrom = 1000;

/// Slope k of a line N S^k = const through two strengths: `few` at 10^3, `many` at 10^6.
/// @param few > many > 0. Source: definition.
template <class X>
[[nodiscard]] X pulse_exponent(const X& few, const X& many) {
  using namespace formula;
  return X(3) / lg(few / many);
}

/// Share of all peaks that counts for one output pin: a peak finds the crank at any angle, a pin carries with the
/// cosine of its angle to the eccentric on one half of the turn and nothing on the other, and damage grows with the
/// power k of it: mean of max(0, cos)^k = Gamma((k + 1)/2)/(2 sqrt(pi) Gamma(k/2 + 1)).
/// @param exponent k > 0. Source: derived, docs/theory/peaks.md. Checked by: tests/unit/strength/peak_torque_test.cc.
template <class X>
[[nodiscard]] X pin_share(const X& exponent) {
  using namespace formula;
  return exp(gammaln((exponent + X(1)) / X(2)) - gammaln(exponent / X(2) + X(1))) / (X(2) * sqrt(pi<X>()));
}

/// Safety against fatigue of a round section under pulses: amplitude of unlimited number A, largest mean B, both as
/// sqrt(4 (K_f M)^2 + 3 (K_fs T)^2):  1/n = 16/(pi d^3) (A/S_e + B/S_ut)
/// @param amplitude, mean  A, B >= 0, not both 0 [N m]
/// Source: Budynas/Nisbett, Shigley's Mechanical Engineering Design, shaft chapter, DE-Goodman.
template <class X>
[[nodiscard]] X pulse_safety(const X& amplitude, const X& mean, const X& diameter, const X& S_e, const X& S_ut) {
  using namespace formula;
  return pi<X>() * pow(diameter, X(3)) / (X(16) * (amplitude / S_e + mean / S_ut));
}

}  // namespace lobewise::strength
