#pragma once
// Hertz line contact of two parallel cylinders. Formulas: K. L. Johnson, Contact Mechanics, ch. 4.2 (from memory);
// checked against printed worked examples in tests/reference/hertz.
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::contact {

/// Elastic constants of an isotropic body.
struct Elastic {
  double modulus = 206e9;  ///< E, Young's modulus [Pa]
  double poisson = 0.3;    ///< nu, 0 <= nu < 0.5
};

/// E* of two bodies: 1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2 [Pa].
[[nodiscard]] inline double contact_modulus(const Elastic& a, const Elastic& b) {
  return 1 / ((1 - a.poisson * a.poisson) / a.modulus + (1 - b.poisson * b.poisson) / b.modulus);
}

/// Effective radius rho of two curvatures (convex > 0): 1/rho = kap1 + kap2 [m]. Precondition: kap1 + kap2 > 0.
[[nodiscard]] inline double effective_radius(double curvature1, double curvature2) {
  return 1 / (curvature1 + curvature2);
}

/// Half width a = sqrt(4 q rho / (pi E*)) of the contact strip [m]; q >= 0 is the force per length [N/m].
[[nodiscard]] inline double hertz_half_width(double line_load, double radius, double modulus) {
  return std::sqrt(4 * line_load * radius / (kPi * modulus));
}

/// Peak pressure p0 = sqrt(q E* / (pi rho)) [Pa].
[[nodiscard]] inline double hertz_pressure(double line_load, double radius, double modulus) {
  return std::sqrt(line_load * modulus / (kPi * radius));
}

}  // namespace lobewise::contact
