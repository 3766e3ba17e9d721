#pragma once
// Play between lobes and rollers where it is least, cold and warm. A unit whose play is below zero runs preloaded:
// every roller presses all the way round, whatever the torque. Derivation: docs/theory/mesh.md. SI.
#include <algorithm>

#include "engine/base/constants.h"
#include "engine/base/formula/term.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::contact {

/// Temperature at which the dimensions of a drawing hold [K]. Source: ISO 1, from memory.
inline constexpr double kDrawingTemperature = kZeroCelsius + 20;

/// dR as it is at temperature: a disc that grows more than its ring is a profile cut with a larger pitch radius,
///   dR' = dR + R (a_d (T_d - T_0) - a_r (T_r - T_0)).
/// Rollers and eccentric are as warm as the disc and of the same steel: growing together they change no gap but by
/// dr a (T - T_0), a thousandth of dr.
/// @param disc, ring            temperatures T_d, T_r [K]
/// @param disc_expansion, ring_expansion  a_d, a_r [1/K]
/// Source: derived, docs/theory/mesh.md. Checked by: tests/property/mesh.
template <class X>
[[nodiscard]] X warm_radius_offset(const X& radius_offset, const X& pitch_radius, const X& disc_expansion,
                                   const X& disc, const X& ring_expansion, const X& ring, const X& drawing) {
  return radius_offset + pitch_radius * (disc_expansion * (disc - drawing) - ring_expansion * (ring - drawing));
}

/// Gap at the flanks, where cos(f - th) = K and the lever is longest: dr - dR sqrt(1 - K^2) + dang e N [m].
template <class X>
[[nodiscard]] X flank_play(const X& roller_offset, const X& radius_offset, const X& shortening, const X& relief,
                           const X& eccentricity, const X& lobes) {
  using namespace formula;
  return roller_offset - radius_offset * sqrt(1 - shortening * shortening) + relief * eccentricity * lobes;
}

/// Gap at tips and roots of the lobes: dr - dR [m].
template <class X>
[[nodiscard]] X tip_play(const X& roller_offset, const X& radius_offset) {
  return roller_offset - radius_offset;
}

/// The gap over a lobe, dr - dR sqrt(1 - K^2 s^2) + dang e N s with s = |sin x|/sqrt(1 + K^2 - 2 K cos x) from 0 to 1,
/// is least at one of its two ends.
struct LeastPlay {
  double flank = 0;  ///< [m]
  double tip = 0;    ///< [m]
  [[nodiscard]] double least() const { return std::min(flank, tip); }
};
/// @param radius_offset  dR [m]: of the stage, or as it is at temperature
[[nodiscard]] inline LeastPlay least_play(const mechanism::StageGeometry& stage, double radius_offset) {
  return {flank_play<double>(stage.roller_offset, radius_offset, stage.shortening(), stage.flank_relief,
                             stage.eccentricity, stage.lobes),
          tip_play<double>(stage.roller_offset, radius_offset)};
}

/// How much dR may grow until the play is gone; below zero when there is none [m].
[[nodiscard]] double room_for_growth(const mechanism::StageGeometry& stage);

}  // namespace lobewise::contact
