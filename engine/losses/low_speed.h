#pragma once
// What is lost at rollers beside their sliding: rolling itself, oil in needles and sleeves, and films that thin at low
// speed. Closed formulas over their scalar (base/formula/term.h). Theory and honest limits: docs/theory/losses.md. SI.

#include "engine/base/formula/term.h"

namespace lobewise::losses {

/// Factor on the rolling friction of a bearing or needle set whose film is thin: 1 + a/(1 + (kappa/kappa_h)^2).
/// @param rise   a: at rest over slowly turning, less one
/// @param kappa  viscosity ratio >= 0
/// Source: both ends common practice (losses::kBearingAtRest; no rise with a full film), the course between them taken.
template <class X>
[[nodiscard]] X low_speed_factor(const X& rise, const X& kappa, const X& half) {
  const X share = kappa / half;
  return 1 + rise / (1 + share * share);
}

/// Coefficient that rolling adds at the outside of a roller of radius r: f/r. Source: definition of the lever arm.
template <class X>
[[nodiscard]] X rolling_coefficient(const X& arm, const X& radius) {
  return arm / radius;
}

/// Torque that oil takes in the gap of an unloaded sleeve on its pin: 2 pi eta w r^3 b/c [N m]. Source: Petroff 1883,
/// from memory.
template <class X>
[[nodiscard]] X sleeve_drag(const X& eta, const X& speed, const X& radius, const X& width, const X& clearance) {
  using namespace formula;
  return 2 * pi<X>() * eta * speed * radius * radius * radius * width / clearance;
}

}  // namespace lobewise::losses
