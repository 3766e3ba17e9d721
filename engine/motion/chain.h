#pragma once
// The drive as inertias in a row on torsion springs, all referred to the OUTPUT shaft.
#include <array>
#include <vector>

#include "engine/base/working.h"

namespace lobewise::motion {

inline constexpr int kMaxInertias = 6;

/// Damping ratio of a coupled mode, from which a link's damper follows (`damping_from_ratio`).
inline constexpr Coefficient kDampingRatio{0.05, 0.03, 0.07, "common practice, no source"};

/// Spring between two inertias. With deflection d = th_i - th_(i+1) and x = |d| - play > 0 the flanks touch and carry
///   T = sign(d) max(0, k x + k3 x^3 + c sign(d) d')
/// Without play the link is a shaft or coupling that pulls both ways: T = k d + k3 d^3 + c d'.
struct Link {
  double stiffness = 0;  ///< k > 0 [N m/rad]; of a mesh: between 50 and 100 % of the rated torque
  double cubic = 0;      ///< k3 >= 0, hardening [N m/rad3]
  double damping = 0;    ///< c >= 0 [N m s/rad]
  double play = 0;       ///< free angle to each side of the middle >= 0 [rad]; half the lost motion
};

/// Inertias from the motor (0) to the load (n - 1); link l joins l and l + 1.
struct Chain {
  int size = 0;                                ///< n, 1..kMaxInertias
  std::array<double, kMaxInertias> inertia{};  ///< > 0 [kg m2]
  std::array<Link, kMaxInertias - 1> link{};
};

/// Springs in a row: 1/k = sum 1/k_i.
[[nodiscard]] constexpr double in_series(double stiffness_1, double stiffness_2) {
  return stiffness_1 * stiffness_2 / (stiffness_1 + stiffness_2);
}
/// Damper that gives the mode of two inertias the damping ratio z: c = 2 z k / w_n = 2 z sqrt(k J1 J2/(J1 + J2)).
[[nodiscard]] double damping_from_ratio(double ratio, double stiffness, double inertia_1, double inertia_2);

}  // namespace lobewise::motion
