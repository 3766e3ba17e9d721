#pragma once
// A root inside a bracket.
#include <algorithm>
#include <cmath>

namespace lobewise {

/// Root of a continuous `f` between `a` and `b` by Chandrupatla's method (bisection that takes an inverse quadratic
/// step where that is safe).
/// @param fa, fb     f(a), f(b), of opposite sign (or one of them zero): precondition
/// @param tolerance  width of the bracket at which it stops, > 0, unit of a
/// @returns the end of the last bracket with the smaller |f|.
/// Source: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (from memory).
template <class F>
double bracketed_root(F&& f, double a, double b, double fa, double fb, double tolerance) {
  double c = a;
  double fc = fa;
  double share = 0.5;
  for (int i = 0; i < 200; ++i) {
    const double x = a + share * (b - a);
    const double fx = f(x);
    if (std::signbit(fx) == std::signbit(fa)) {
      c = a;
      fc = fa;
    } else {
      c = b;
      b = a;
      fc = fb;
      fb = fa;
    }
    a = x;
    fa = fx;
    const double best = std::abs(fa) < std::abs(fb) ? a : b;
    const double smallest = 0.5 * std::max(tolerance, 4e-16 * std::abs(best)) / std::max(std::abs(b - a), 1e-300);
    if (smallest > 0.5 || fa == 0) {
      return best;
    }
    const double xi = (a - b) / (c - b);
    const double phi = (fa - fb) / (fc - fb);
    share = 0.5;
    if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi) {
      share = fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb);
    }
    share = std::clamp(share, smallest, 1 - smallest);
  }
  return a;
}

}  // namespace lobewise
