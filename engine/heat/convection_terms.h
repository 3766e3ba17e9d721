#pragma once
// Air and the heat it takes, as closed formulas over their scalar (base/formula/term.h), for their working. The hot
// path is convection.h; tests hold both against each other. Theory and sources: docs/theory/heat.md.

#include "engine/base/formula/term.h"

namespace lobewise::heat {

template <class X>
struct AirTerms {
  X conductivity, viscosity, prandtl;
};

/// Properties of dry air, see `air`.
template <class X>
[[nodiscard]] AirTerms<X> air_terms(const X& film, const X& altitude) {
  using namespace formula;
  constexpr const char* kSource = "from memory: US Standard Atmosphere 1976";
  const X pressure = named("p_air", "pressure of the air", Quantity::pressure,
                           X(101325) * pow(X(1) - X(2.25577e-5) * altitude, X(5.25588)), kSource);
  const X mu = named("mu_air", "dynamic viscosity of air", Quantity::dynamic_viscosity,
                     X(1.458e-6) * pow(film, X(1.5)) / (film + X(110.4)), kSource);
  const X k = named("k_air", "conductivity of air, W/(m K)", Quantity::number,
                    X(2.64638e-3) * pow(film, X(1.5)) / (film + X(245.4) * pow(X(10), X(-12) / film)), kSource);
  return {k,
          named("nu_air", "kinematic viscosity of air", Quantity::kinematic_viscosity, mu * X(287.05) * film / pressure,
                kSource),
          named("Pr", "Prandtl number of air", Quantity::number, X(1006) * mu / k, kSource)};
}

/// Nu of natural convection on a horizontal cylinder, see `nusselt_cylinder`.
template <class X>
[[nodiscard]] X natural_nusselt(const X& rayleigh, const X& prandtl) {
  using namespace formula;
  return pow(
      X(0.60) + X(0.387) * pow(rayleigh, X(1.0 / 6)) / pow(X(1) + pow(X(0.559) / prandtl, X(9.0 / 16)), X(8.0 / 27)),
      X(2));
}

/// Nu across a cylinder, see `nusselt_crossflow`.
template <class X>
[[nodiscard]] X forced_nusselt(const X& reynolds, const X& prandtl) {
  using namespace formula;
  return X(0.3) + X(0.62) * sqrt(reynolds) * pow(prandtl, X(1.0 / 3)) /
                      pow(X(1) + pow(X(0.4) / prandtl, X(2.0 / 3)), X(0.25)) *
                      pow(X(1) + pow(reynolds / X(282000), X(5.0 / 8)), X(0.8));
}

/// Coefficient of heat transfer of a housing in air, see `convection` [W/(m2 K)].
template <class X>
[[nodiscard]] X heat_transfer(const X& diameter, const X& surface, const X& ambient, const X& air_speed,
                              const X& altitude) {
  using namespace formula;
  constexpr const char* kNatural = "[churchill1975] as in public code";
  constexpr const char* kForced = "[churchill1977] as in public code";
  const X film = named("T_film", "film between surface and air", Quantity::temperature, X(0.5) * (surface + ambient),
                       "common practice, no source");
  const AirTerms<X> air = air_terms(film, altitude);
  const X rayleigh = named("Ra", "Rayleigh number on the diameter", Quantity::number,
                           gravity<X>() * abs(surface - ambient) * pow(diameter, X(3)) * air.prandtl /
                               (film * air.viscosity * air.viscosity),
                           kNatural);
  const X natural = named("Nu_n", "Nusselt number of natural convection", Quantity::number,
                          natural_nusselt(rayleigh, air.prandtl), kNatural);
  const X reynolds =
      named("Re", "Reynolds number of the air stream", Quantity::number, air_speed * diameter / air.viscosity, kForced);
  const X forced =
      named("Nu_f", "Nusselt number of the air stream", Quantity::number,
            choose(
                less(X(0), air_speed), [&] { return forced_nusselt(reynolds, air.prandtl); }, [&] { return X(0); }),
            kForced);
  return named("h", "coefficient of heat transfer, W/(m2 K)", Quantity::number,
               pow(pow(natural, X(3)) + pow(forced, X(3)), X(1.0 / 3)) * air.conductivity / diameter,
               "common practice, no source: combination of assisting flow");
}

/// Radiation of a grey surface, see `radiation` [W].
template <class X>
[[nodiscard]] X radiation_terms(const X& emissivity, const X& constant, const X& area, const X& surface,
                                const X& surroundings) {
  using namespace formula;
  return emissivity * constant * area * (pow(surface, X(4)) - pow(surroundings, X(4)));
}

}  // namespace lobewise::heat
