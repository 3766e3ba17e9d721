#pragma once
// a_ISO as a formula that can be recorded. Ranges and errors: bearing_life.h.

#include "engine/base/formula/term.h"
#include "engine/strength/coefficients.h"

namespace lobewise::strength {

namespace detail {

/// start - c/kappa^x, with c and x by branch of kappa, which counts up to 4.
template <class X>
X kappa_bracket(const X& kappa, double start, const double (&c)[3]) {
  using namespace formula;
  const X k = min(kappa, X(kKappaMax));
  const auto branch = [&](double factor, double exponent) { return X(start) - X(factor) / pow(k, X(exponent)); };
  return choose(
      less(k, X(0.4)), [&] { return branch(c[0], 0.054381); },
      [&] {
        return choose(
            less(k, X(1.0)), [&] { return branch(c[1], 0.19087); }, [&] { return branch(c[2], 0.071739); });
      });
}

/// 0.1 base^-power, at most 50; a base that has fallen to zero means no fatigue at all.
template <class X>
X capped_life_factor(const X& base, double power) {
  using namespace formula;
  return choose(
      less(X(0.0), base), [&] { return min(X(0.1) * pow(base, X(-power)), X(kLifeFactorMax)); },
      [&] { return X(kLifeFactorMax); });
}

}  // namespace detail

/// Radial roller bearing: 0.1 [1 - (1.5859 - c/kappa^x) (e_C C_u/P)^0.4]^-9.185. ISO 281:2007 eq. 34-36.
template <class X>
X roller_life_factor(const X& kappa, const X& ratio) {
  using namespace formula;
  constexpr double c[] = {1.3993, 1.2348, 1.2348};
  return detail::capped_life_factor(X(1.0) - detail::kappa_bracket(kappa, 1.5859, c) * pow(ratio, X(0.4)), 9.185);
}

/// Radial ball bearing: 0.1 [1 - (2.5671 - c/kappa^x)^0.83 (e_C C_u/P)^(1/3)]^-9.3. ISO 281:2007 eq. 31-33.
template <class X>
X ball_life_factor(const X& kappa, const X& ratio) {
  using namespace formula;
  constexpr double c[] = {2.2649, 1.9987, 1.9987};
  return detail::capped_life_factor(
      X(1.0) - pow(detail::kappa_bracket(kappa, 2.5671, c), X(0.83)) * pow(ratio, X(1.0 / 3)), 9.3);
}

}  // namespace lobewise::strength
