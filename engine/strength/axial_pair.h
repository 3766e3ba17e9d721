#pragma once
// Two bearings with inclined contacts on one shaft push each other along it.

#include "engine/base/formula/term.h"

namespace lobewise::strength {

/// Thrust that a radial force makes in a tapered roller bearing: S = F_r/(2 Y) [N].
/// @param radial F_r >= 0 [N]  @param Y > 0, axial factor of the bearing
/// Source: common practice; ISO 281 only demands that it be counted (from memory).
template <class X>
X induced_thrust(const X& radial, const X& Y) {
  return radial / (2 * Y);
}

/// Axial load of one bearing of a pair that holds the shaft between them: the larger of its own induced thrust and of
/// what the other bearing and the force from outside push into it, max(S, S_other + K) [N].
/// @param external  K, the outside force towards this bearing, negative when it pulls away [N]
/// Source: statics of a shaft that neither bearing leaves: F_A - F_B = K, F_A >= S_A, F_B >= S_B, one of them equal.
template <class X>
X pair_axial(const X& own, const X& other, const X& external) {
  using namespace formula;
  return max(own, other + external);
}

/// How the contacts of a pair are inclined.
enum class Arrangement {
  back_to_back,  ///< O: the lines of contact diverge towards the shaft; common where a force hangs beyond the bearings
  face_to_face,  ///< X: they meet inside
};
/// The outside force towards bearing A, for a force along the shaft from A to B (negative: from B to A). Back to back,
/// A stops the shaft that moves towards B; face to face, B does. Source: statics.
[[nodiscard]] constexpr double towards_A(Arrangement arrangement, double force_A_to_B) {
  return arrangement == Arrangement::back_to_back ? force_A_to_B : -force_A_to_B;
}

/// Equivalent dynamic load as the larger of F_r and X F_r + Y F_a [N]. Where X + Y e = 1 (tapered bearings) it is the
/// rule of ISO 281; elsewhere it has no step at F_a = e F_r and lies on the safe side. Source: ISO 281 (from memory).
template <class S>
S equivalent_load_of(const S& radial, const S& axial, const S& X, const S& Y) {
  using namespace formula;
  return max(radial, X * radial + Y * axial);
}

/// Equivalent static load, the larger of F_r and X_0 F_r + Y_0 F_a [N]; tapered rollers X_0 = 0.5, Y_0 = 0.22
/// cot(alpha) = 0.55 Y. Source: ISO 76 (from memory).
inline constexpr double kStaticX = 0.5;
inline constexpr double kStaticYOverY = 0.55;

}  // namespace lobewise::strength
