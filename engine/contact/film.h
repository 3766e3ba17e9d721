#pragma once
// Elastohydrodynamic film of a line contact and what it means for the surfaces. Theory: docs/theory/lubricant.md.
#include "engine/base/formula/term.h"
#include "engine/base/working.h"

namespace lobewise::contact {

/// Combined roughness of two ground surfaces, root mean square [m].
inline constexpr Coefficient kGroundRoughness{0.4e-6, 0.2e-6, 0.8e-6, "common practice, no source"};

/// One line contact between moving surfaces, SI.
struct FilmInput {
  double entrainment_speed = 0;   ///< u: mean speed of both surfaces relative to the contact [m/s] > 0
  double radius = 0;              ///< R = 1 / sum of curvatures [m] > 0
  double modulus_pair = 0;        ///< E': 2/E' = sum (1 - nu^2)/E; equal bodies: E/(1 - nu^2) [Pa]
  double pressure_viscosity = 0;  ///< alpha [1/Pa]
  double dynamic_viscosity = 0;   ///< eta at the inlet [Pa s]
  double load_per_length = 0;     ///< q [N/m] > 0
};

/// Smallest film thickness h = 2.65 R U^0.7 G^0.54 W^-0.13 [m], U = eta u/(E' R), G = alpha E', W = q/(E' R).
/// Fully flooded, isothermal, smooth steel. Source: Dowson's line-contact fit, from memory.
template <class X>
[[nodiscard]] X line_film_of(const X& speed, const X& radius, const X& modulus_pair, const X& pressure_viscosity,
                             const X& eta, const X& load_per_length) {
  using namespace formula;
  const X scale = modulus_pair * radius;
  return X(2.65) * radius * pow(eta * speed / scale, X(0.7)) * pow(pressure_viscosity * modulus_pair, X(0.54)) *
         pow(load_per_length / scale, X(-0.13));
}
[[nodiscard]] double line_film(const FilmInput& contact);

/// kappa that stands for a film ratio Lambda = h / sigma: Lambda^1.3. Precondition Lambda >= 0. Source: from memory.
template <class X>
[[nodiscard]] X viscosity_ratio_of_film(const X& lambda_ratio) {
  using namespace formula;
  return pow(lambda_ratio, X(1.3));
}

}  // namespace lobewise::contact
