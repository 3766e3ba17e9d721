#pragma once
// Cold oil: so thick that its own shear warms it, and friction before anything has turned. Closed formulas over their
// scalar (base/formula/term.h). Theory, validity and sources: docs/theory/cold.md. SI.

#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::losses {

/// Heat conductivity of oil, k [W/(m K)].
inline constexpr Coefficient kOilConductivity{0.13, 0.11, 0.16, "from memory: mineral oil to polyglycol"};

/// Na = b eta_0 U^2 / k: heat made in a sheared film over what its walls take away.
/// @param eta    at the temperature of the walls [Pa s] > 0
/// @param falls  b = -d ln(eta)/dT there [1/K] > 0
/// @param speed  U of one wall against the other [m/s] >= 0
/// Source: Gavis and Laurence 1968 (from memory).
template <class X>
[[nodiscard]] X nahme_number(const X& eta, const X& falls, const X& speed, const X& conductivity) {
  return falls * eta * speed * speed / conductivity;
}

/// Share of the isothermal shear stress that is left in a plane gap whose oil warms itself, eta = eta_0 e^(-b (T -
/// T_0)), both walls at T_0:
///   tau / tau_0 = asinh(sqrt(Na/8)) / sqrt((Na/8) (1 + Na/8))
/// Source: J. Gavis, R. L. Laurence, Ind. Eng. Chem. Fundamentals 7 (1968) 232 (from memory); checked by quadrature of
/// the energy equation (tests/reference/losses/cold_test.cc).
template <class X>
[[nodiscard]] X couette_heating(const X& nahme) {
  using namespace formula;
  constexpr double kSeries = 1e-6;  // below it the next term of the series is 1e-14
  return choose(
      less(nahme, X(kSeries)), [&] { return X(1) - nahme / X(12); },
      [&] {
        const X x = nahme / X(8);
        return ln(sqrt(x) + sqrt(x + X(1))) / sqrt(x * (x + X(1)));
      });
}

/// Shear stress of oil in a gap that warms itself: tau = eta_0 (U / s) couette_heating(Na) [Pa].
/// @param gap  s [m] > 0
template <class X>
[[nodiscard]] X gap_stress(const X& eta, const X& falls, const X& speed, const X& gap, const X& conductivity) {
  using namespace formula;
  const X nahme = named("Na", "heat that the oil makes over what the walls take away", Quantity::number,
                        nahme_number(eta, falls, speed, conductivity), "[gavis1968] from memory");
  const X left = named("theta", "share of the shear that its own heat leaves", Quantity::share, couette_heating(nahme),
                       "[gavis1968] from memory");
  return eta * speed / gap * left;
}

/// Viscosity times speed, nu n in mm2/s and 1/min, up to which the no-load friction of a rolling bearing is used as it
/// stands. Common practice, no source.
inline constexpr double kNoLoadValid = 3e6;

/// Share of the isothermal film that heat in the inlet of a rolling contact leaves: 3.94 / (3.94 + L^0.62), L = Na with
/// the mean speed of the surfaces. Source: L. E. Murch, W. R. D. Wilson, J. Lubr. Technol. 97 (1975) 212 (from memory).
template <class X>
[[nodiscard]] X inlet_heating(const X& heating) {
  using namespace formula;
  return X(3.94) / (X(3.94) + pow(heating, X(0.62)));
}

/// No-load moment of a rolling bearing whatever the cold [N m]:
///   M_0 = 0.1 f_0 d_m^3 (nu n)^(2/3), from 16 f_0 d_m^3 on        within nu n = 3e6, as losses::bearing_friction
///   M_0 = 0.1 f_0 d_m^3 [3e6^(2/3) + c ((nu n)^(2/3) - 3e6^(2/3)) phi]   beyond it
/// phi = inlet_heating(L): beyond its validity the formula's growth is that of a film which heats itself in the inlet.
/// So M_0 lies between the formula at its limit and the formula carried on, and rises with cold.
/// @param viscosity_speed  nu n [mm2/s x 1/min] >= 0
/// @param heating          L [-]
/// @param c                1; factor of its range (kBeyondValid)
/// Source: derived from both, docs/theory/cold.md; measured by nobody.
template <class X>
[[nodiscard]] X cold_no_load_moment(const X& f_0, const X& mean_diameter, const X& viscosity_speed, const X& heating,
                                    const X& c) {
  using namespace formula;
  const X size = f_0 * pow(mean_diameter, X(3));
  const X two_thirds = X(2.0 / 3);
  return choose(
      less_or_equal(viscosity_speed, X(kNoLoadValid)),
      [&] { return max(X(16) * size, X(0.1) * size * pow(viscosity_speed, two_thirds)); },
      [&] {
        const X valid = pow(X(kNoLoadValid), two_thirds);
        return X(0.1) * size * (valid + c * (pow(viscosity_speed, two_thirds) - valid) * inlet_heating(heating));
      });
}
/// Factor on what a bearing's no-load moment grows beyond its formula's validity.
inline constexpr Coefficient kBeyondValid{1, 0.4, 2.5,
                                          "common practice, no source: nothing measured to hold it against"};

/// Friction before anything has turned over friction while it turns slowly.
inline constexpr Coefficient kBearingAtRest{2, 1.5, 3, "common practice, no source"};  ///< rolling bearings and needles
inline constexpr Coefficient kSealAtRest{2, 1.5, 3, "common practice, no source"};     ///< lips of shaft seals

}  // namespace lobewise::losses
