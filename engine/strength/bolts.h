#pragma once
// Bolts of feet and flange under the reaction of a torque. Theory: docs/theory/peaks.md.
#include <optional>

#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::strength {

/// Property classes of ISO 898-1.
enum class BoltClass { c8_8, c10_9, c12_9 };
/// 0.2 % proof stress [Pa]: 640, 940, 1100 MPa. ISO 898-1, from memory.
[[nodiscard]] double proof_stress(BoltClass bolt_class);

/// Stress area A_s = pi/4 (d - 0.9382 P)^2 of a coarse metric thread M5 to M48 [m2]; nothing for another diameter.
/// Source: ISO 898-1 (formula), ISO 261 (pitches), from memory. Checked by: tests/reference/strength/bolts_test.cc.
/// @param diameter  d [m]
[[nodiscard]] std::optional<double> stress_area(double diameter);

/// Force that is left in a bolt tightened by torque wrench, over R_p A_s: nine tenths of yield while tightening leave
/// about 0.8, scatter of the wrench takes it down by 1.6.
inline constexpr Coefficient kPreload{0.5, 0.4, 0.6, "common practice as in VDI 2230, from memory"};
/// Friction between cast iron or steel faces, not oiled.
inline constexpr Coefficient kJointFriction{0.15, 0.10, 0.20, "from memory: dry steel and cast iron faces"};
/// Yield in shear over yield in tension: 1/sqrt(3), distortion energy.
inline constexpr double kShearYield = 0.57735026918962576;

/// Torque at which a bolt of a foot, farthest from the edge that the unit is pressed onto, reaches a force: the
/// reaction turns the unit about the other row of bolts, and the pull on the shaft end lifts it where it points away
/// from the base (its worst direction):  F_A = r T/(2 a) + f T g
/// @param force   F_A [N]  @param reaction r, moment on the base over torque  @param across a, between the rows [m]
/// @param pull    f, radial force on the shaft end over torque [1/m]
/// @param lever   g, share of that force on the bolt
/// Source: derived, statics of a rigid unit on four bolts.
template <class X>
[[nodiscard]] X foot_torque(const X& force, const X& reaction, const X& across, const X& pull, const X& lever) {
  return force / (reaction / (X(2) * across) + pull * lever);
}

/// Torque that n bolts on a radius hold by friction: T = mu n F_V R/r.
/// Source: common practice (friction joint of a bolt circle).
template <class X>
[[nodiscard]] X flange_slip_torque(const X& friction, const X& bolts, const X& preload, const X& radius,
                                   const X& reaction) {
  return friction * bolts * preload * radius / reaction;
}

/// Torque at which the outermost bolt of a flange reaches a force by the bending of the pull: F_A = 2 f T x/(n R).
/// Source: derived, forces linear over the bolt circle.
template <class X>
[[nodiscard]] X flange_tilt_torque(const X& force, const X& bolts, const X& radius, const X& pull, const X& distance) {
  return force * bolts * radius / (X(2) * pull * distance);
}

}  // namespace lobewise::strength
