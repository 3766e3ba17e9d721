#pragma once
// Closed formulas of shaft, pins and key over their scalar (base/formula/term.h). Theory and sources:
// docs/theory/shaft.md. All SI.

#include "engine/base/formula/term.h"

namespace lobewise::strength {

/// sqrt(4 (K_f M)^2 + 3 (K_fs T)^2): the equivalent stress is 16/(pi d^3) times this [N m].
template <class X>
[[nodiscard]] X equivalent_moment(const X& K_f, const X& moment, const X& K_fs, const X& torque) {
  using namespace formula;
  const X bending = K_f * moment, torsion = K_fs * torque;
  return sqrt(X(4) * bending * bending + X(3) * torsion * torsion);
}

/// Endurance limit of a machined round steel shaft in rotating bending, see `endurance_limit`; size and tensile
/// strength held within the ranges of their factors [Pa].
/// @param k_e  of the reliability asked for
template <class X>
[[nodiscard]] X endurance_of(const X& tensile_strength, const X& diameter, const X& k_e) {
  using namespace formula;
  const X S = min(max(tensile_strength, X(200e6)), X(2000e6)), d = min(max(diameter, X(2.79e-3)), X(0.254)) * X(1e3);
  const X k_a = X(4.51) * pow(S / X(1e6), X(-0.265));
  const X k_b = choose(
      less_or_equal(d, X(51)), [&] { return X(1.24) * pow(d, X(-0.107)); },
      [&] { return X(1.51) * pow(d, X(-0.157)); });
  return min(X(0.5) * S, X(700e6)) * k_a * k_b * k_e;
}
/// k_e of 90 %.
inline constexpr double kNinetyPercent = 0.897;

/// Bending 32 M/(pi d^3) [Pa].
template <class X>
[[nodiscard]] X bending_stress(const X& moment, const X& diameter) {
  using namespace formula;
  return X(32) * moment / (pi<X>() * pow(diameter, X(3)));
}
/// Shear 16 T/(pi d^3) [Pa].
template <class X>
[[nodiscard]] X torsion_stress(const X& torque, const X& diameter) {
  using namespace formula;
  return X(16) * torque / (pi<X>() * pow(diameter, X(3)));
}
/// sqrt((|sigma| + |sigma_a|)^2 + 3 tau^2), for yielding (distortion energy) [Pa].
template <class X>
[[nodiscard]] X combined_stress(const X& bending, const X& axial, const X& shear) {
  using namespace formula;
  const X along = abs(bending) + abs(axial);
  return sqrt(along * along + X(3) * shear * shear);
}

/// Slope in the bearing beside a force at a beyond it: F a L/(3 E I) of a round bar [rad].
template <class X>
[[nodiscard]] X overhung_slope(const X& force, const X& lever, const X& span, const X& modulus, const X& diameter) {
  using namespace formula;
  return force * lever * span / (X(3) * modulus * pi<X>() / X(64) * pow(diameter, X(4)));
}

/// Mean pressure on a face of a parallel key, 2 T/(d h l), or its mean shear with its width in place of the face's
/// height [Pa].
template <class X>
[[nodiscard]] X key_stress(const X& torque, const X& diameter, const X& height, const X& length) {
  return X(2) * torque / (diameter * height * length);
}

/// Largest force on an output pin, all pins and holes exact and rigid, 4 T/(n_d M R_w) [N].
template <class X>
[[nodiscard]] X sine_pin_load(const X& torque, const X& discs, const X& pins, const X& circle) {
  return X(4) * torque / (discs * pins * circle);
}

/// Compliance of a round bar in torsion, 32 l/(G pi d^4) [rad/(N m)].
template <class X>
[[nodiscard]] X torsional_compliance(const X& length, const X& shear_modulus, const X& diameter) {
  using namespace formula;
  return X(32) * length / (shear_modulus * pi<X>() * pow(diameter, X(4)));
}

}  // namespace lobewise::strength
