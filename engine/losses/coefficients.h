#pragma once
// Every coefficient of the loss models with its range and where it comes from. Theory: docs/theory/losses.md.
#include "engine/base/working.h"

namespace lobewise::losses {

/// Friction of a plain sleeve on its pin: mu = mu_film + (mu_boundary - mu_film)/(1 + H/H_half). The form and the
/// numbers are common practice without a source; their order of magnitude is McKee's curve, from memory. THIS DECIDES
/// the efficiency of a reducer with plain sleeves, and nobody has published it: calibrate it with a test of the unit.
struct SleeveFriction {
  Coefficient boundary{0.08, 0.06, 0.12,
                       "common practice, no source; order of magnitude of McKee's curve, from memory"};
  Coefficient film{0.01, 0.005, 0.02, "common practice, no source; order of magnitude of McKee's curve, from memory"};
  Coefficient half{3e-8, 1e-8, 1e-7, "common practice, no source; order of magnitude of McKee's curve, from memory"};
};
inline constexpr SleeveFriction kSleeveFriction{};
/// Friction coefficient at the pin of a needle-mounted roller or sleeve.
inline constexpr Coefficient kNeedleFriction{0.004, 0.003, 0.006, "common practice, no source"};

/// Friction where a roller that does not turn slides on the lobe (or a plain pin in its hole), over the film ratio.
struct MixedFriction {
  Coefficient boundary{0.10, 0.08, 0.12, "common practice, no source"};
  Coefficient film{0.03, 0.02, 0.05, "common practice, no source"};
  Coefficient half{0.8, 0.5, 1.5, "common practice, no source"};
};
inline constexpr MixedFriction kMixedFriction{};

/// Palmgren's bearing friction factors by type; f1 holds at about a tenth of C. Lists read in public source code of the
/// Palmgren friction form; ranges common practice, no source.
struct BearingFriction {
  const char* type;
  Coefficient f0_oil;     ///< oil bath; oil mist x 0.5, vertical shaft or oil jet x 2
  Coefficient f0_grease;  ///< long after filling
  Coefficient f1;
};
namespace detail {
inline constexpr const char* kFrictionList = "list of f0 and f1 in public source code of the Palmgren friction form";
constexpr Coefficient f0(double value) { return {value, 0.6 * value, 1.6 * value, kFrictionList}; }
constexpr Coefficient f1(double value) { return {value, 0.7 * value, 1.4 * value, kFrictionList}; }
}  // namespace detail
inline constexpr BearingFriction kCylindricalCaged{"cylindrical roller with cage", detail::f0(3), detail::f0(0.8),
                                                   detail::f1(3.0e-4)};
inline constexpr BearingFriction kFullComplement{"full-complement cylindrical roller", detail::f0(5), detail::f0(5),
                                                 detail::f1(5.5e-4)};
inline constexpr BearingFriction kNeedle{"needle roller", detail::f0(12), detail::f0(12), detail::f1(2.0e-3)};
inline constexpr BearingFriction kDeepGroove{"deep-groove ball", detail::f0(2), detail::f0(1), detail::f1(2.2e-4)};
inline constexpr BearingFriction kTapered{"tapered roller", detail::f0(6), detail::f0(6), detail::f1(4.0e-4)};
inline constexpr BearingFriction kAngularBall{"angular-contact ball", detail::f0(3.3), detail::f0(2),
                                              detail::f1(4.6e-4)};

/// Lever arm of rolling friction of a hardened roller on a hardened track [m]. Handbooks give 5 to 10 um without
/// lubricant (from memory); hysteresis alone, 2 alpha a/(3 pi) with alpha 0.01 to 0.03 and half widths a of 0.1 to 0.2
/// mm, 0.2 to 1.3 um ([johnson1985] ch. 9, from memory).
inline constexpr Coefficient kRollingArm{3e-6, 0.5e-6, 10e-6, "handbooks and [johnson1985] ch. 9, from memory"};
/// Factor on the oil sheared in the needles (and plain sleeves) of ring and output rollers: the formula is that of a
/// complete needle bearing in a bath, about half the rollers turn above the oil.
inline constexpr Coefficient kRollerDrag{1, 0.3, 2, "common practice, no source"};
/// Radial clearance of a plain sleeve over its radius. Common practice, no source.
inline constexpr double kSleeveClearance = 1e-3;
/// Viscosity ratio at which half of the rise of rolling friction at low speed is there: data/model_errors.csv.
inline constexpr double kLowSpeedHalf = 0.3;

/// Factor on the seal loss by the formula.
inline constexpr Coefficient kSealFactor{1.0, 0.5, 1.5, "common practice, no source"};

/// Gaps between discs and covers [m], the share of them that is full of oil, and the factor for squeezing at the lobes.
inline constexpr double kDiscGap = 0.4e-3;  ///< common practice, no source
inline constexpr Coefficient kWettedShare{0.4, 0.1, 1.0, "common practice, no source"};
inline constexpr Coefficient kDragFactor{3, 1, 10, "common practice, no source"};

}  // namespace lobewise::losses
