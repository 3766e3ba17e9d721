#pragma once
// Torque at which a part of the torque path begins to keep a mark: closed forms. Theory: docs/theory/peaks.md.
// Templates over the scalar, so that a working is recorded from what was computed (base/formula/term.h).
#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::strength {

/// Torque at which the surface of a round section begins to yield under torsion, bending that grows with the torque and
/// a steady axial force:
///   (32 m T/(pi d^3) + 4 F_a/(pi d^2))^2 + 3 (16 T/(pi d^3))^2 = R_e^2, solved for T
/// @param bending     m >= 0, bending moment over torque
/// @param axial       F_a >= 0 [N], 4 F_a/(pi d^2) < R_e
/// @param diameter    d > 0 [m]
/// @param yield       R_e > 0 [Pa]
/// Source: distortion energy of a round bar (Shigley, shaft chapter, from memory). Nominal stress: a notch yields
/// earlier, over a depth that leaves no mark on the shaft's running.
/// Checked by: tests/unit/strength/peak_torque_test.cc.
template <class X>
[[nodiscard]] X section_yield_torque(const X& bending, const X& axial, const X& diameter, const X& yield) {
  using namespace formula;
  const X bent = X(32) * bending / (pi<X>() * pow(diameter, X(3)));
  const X turned = X(16) * sqrt(X(3)) / (pi<X>() * pow(diameter, X(3)));
  const X pulled = X(4) * axial / (pi<X>() * pow(diameter, X(2)));
  const X both = pow(bent, X(2)) + pow(turned, X(2));
  return (sqrt(pow(pulled * bent, X(2)) + both * (pow(yield, X(2)) - pow(pulled, X(2)))) - pulled * bent) / both;
}

/// Torque that puts a mean pressure on the flank of a parallel key: T = p d t l/2.
/// @param pressure p [Pa] >= 0  @param diameter d of the shaft [m]  @param depth t of the flank that is less deep [m]
/// @param length   l, bearing length [m]
/// Source: mean pressure, as in every machine-element text. Checked by: tests/reference/strength/shaft_test.cc.
template <class X>
[[nodiscard]] X key_torque(const X& pressure, const X& diameter, const X& depth, const X& length) {
  return pressure * diameter * depth * length / X(2);
}

/// Torque at which a bearing's equivalent static load P_0 = max(F_r, X_0 F_r + Y_0 F_a) reaches C_0/s_0, its radial
/// load and part of its axial load growing with the torque: F_r = r T, F_a = a + q T.
/// @param rating C_0 > 0 [N]  @param safety s_0 > 0  @param radial r > 0 [1/m]  @param axial a >= 0 [N], Y_0 a <
/// C_0/s_0
/// @param induced q >= 0 [1/m]
/// Source: ISO 76 (from memory). Checked by: tests/unit/strength/peak_torque_test.cc.
template <class X>
[[nodiscard]] X bearing_static_torque(const X& rating, const X& safety, const X& radial, const X& axial,
                                      const X& induced, const X& X_0, const X& Y_0) {
  using namespace formula;
  return min(rating / safety / radial, (rating / safety - Y_0 * axial) / (X_0 * radial + Y_0 * induced));
}

/// Torque of the input shaft beside the motor: the motor's rotor and the reducer's own input parts speed up, or are
/// slowed down, together, so that of a torque that the motor does not pass on only the rotor's share passes here:
///   T_1 = (1 - x) u T + x T_m
/// @param torque    T at the output shaft [N m]
/// @param passed    u, input torque over output torque in steady running
/// @param own_share x, inertia of the reducer's input parts over all that turns with the motor, 0 ... 1
/// @param motor     T_m, torque of the motor at that moment [N m]
/// Source: derived, docs/theory/peaks.md. Checked by: tests/unit/drive/events_test.cc.
template <class X>
[[nodiscard]] X input_torque(const X& torque, const X& passed, const X& own_share, const X& motor) {
  return (X(1) - own_share) * passed * torque + own_share * motor;
}

}  // namespace lobewise::strength
