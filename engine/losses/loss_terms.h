#pragma once
// The losses of parts.h and mesh_loss.h as closed formulas over their scalar (base/formula/term.h), all SI, for their
// workings. Tests hold both against each other. Theory and sources: docs/theory/losses.md.

#include "engine/base/formula/term.h"
#include "engine/losses/low_speed.h"

namespace lobewise::losses {

/// nu n as the bearing formula asks for it, mm2/s times 1/min.
template <class X>
[[nodiscard]] X viscosity_speed(const X& nu, const X& speed) {
  return X(1e6) * nu * speed * X(30) / formula::pi<X>();
}

/// No-load moment of a rolling bearing, Palmgren: 0.1 f_0 d_m^3 x^(2/3), x = nu n; 16 f_0 d_m^3 below x = 2000 [N m].
template <class X>
[[nodiscard]] X no_load_moment(const X& f_0, const X& mean_diameter, const X& x) {
  using namespace formula;
  const X size = f_0 * pow(mean_diameter, X(3));
  return choose(
      less(x, X(2000)), [&] { return X(16) * size; }, [&] { return X(0.1) * size * pow(x, X(2.0 / 3)); });
}

/// Friction power of rollers that turn on needles and roll on the lobes: n_d w_1 (min(mu_o, m mu r_b/r) + f/r) S [W].
template <class X>
[[nodiscard]] X needle_roller_power(const X& discs, const X& speed, const X& outside, const X& rise, const X& mu,
                                    const X& inner, const X& arm, const X& radius, const X& sliding) {
  using namespace formula;
  return discs * speed * (min(outside, rise * mu * inner / radius) + arm / radius) * sliding;
}

/// Friction torque at the input of one disc's contacts whose rollers turn on plain pins, see `sleeve_friction_torque`;
/// the smaller of two as (a + b - |a - b|)/2, since they are lists [N m].
/// @param weight, hersey  lists, `SlidingSums` [N m], [1/Pa]
/// @param outside, boundary, film, half  coefficients; `inner` over `radius` of the roller
[[nodiscard]] inline formula::Term sleeve_torque(const formula::Term& weight, const formula::Term& hersey,
                                                 const formula::Term& viscosity_speed, const formula::Term& outside,
                                                 const formula::Term& boundary, const formula::Term& film,
                                                 const formula::Term& half, const formula::Term& inner,
                                                 const formula::Term& radius) {
  using namespace formula;
  const Term inside = (film + (boundary - film) / (1 + viscosity_speed * hersey / half)) * inner / radius;
  return sum(weight * (outside + inside - abs(outside - inside)) / 2);
}

/// Radial shaft seal: f (145 - 1.6 t + 350 lg lg(nu_40 + 0.8)) d^2 n 1e-7 in mm, 1/min, mm2/s and degrees Celsius [W].
template <class X>
[[nodiscard]] X seal_power(const X& factor, const X& temperature, const X& nu_40, const X& diameter, const X& speed) {
  using namespace formula;
  const X bracket = X(145) - X(1.6) * (temperature - X(kZeroCelsius)) + X(350) * lg(lg(X(1e6) * nu_40 + X(0.8)));
  return factor * max(bracket, X(0)) * X(1e6) * diameter * diameter * speed * X(30) / pi<X>() * X(1e-7);
}

/// Oil sheared between discs and covers: f eta (e w_1)^2 A phi/s [W].
template <class X>
[[nodiscard]] X gap_power(const X& factor, const X& eta, const X& eccentricity, const X& speed, const X& area,
                          const X& wetted, const X& gap) {
  const X wall = eccentricity * speed;
  return factor * eta * wall * wall * area * wetted / gap;
}

}  // namespace lobewise::losses
