#pragma once
// Plane linear elasticity in units of Young's modulus: every compliance here is E * displacement * thickness / force,
// a pure number, so that it serves every material of the same Poisson number.
#include "engine/mechanism/vec2.h"

namespace lobewise::contact::elastic {

using mechanism::Vec2;

/// E' / E and nu' of the plane problem.
struct PlaneMaterial {
  double modulus = 1;    ///< E'/E: 1 in plane stress, 1/(1 - nu^2) in plane strain
  double poisson = 0.3;  ///< nu': nu in plane stress, nu/(1 - nu) in plane strain
  friend bool operator==(const PlaneMaterial&, const PlaneMaterial&) = default;
};
[[nodiscard]] constexpr PlaneMaterial plane_stress(double nu) { return {1, nu}; }
[[nodiscard]] constexpr PlaneMaterial plane_strain(double nu) { return {1 / (1 - nu * nu), nu / (1 - nu)}; }

struct Stress {
  double xx = 0, yy = 0, xy = 0;  ///< per unit force and thickness [1/m]
  Stress& operator+=(const Stress& o) { return xx += o.xx, yy += o.yy, xy += o.xy, *this; }
  friend Stress operator*(double s, const Stress& a) { return {s * a.xx, s * a.yy, s * a.xy}; }
};

/// The part of the displacement that a unit normal force (per thickness) makes singular at its point of attack:
/// Flamant's half-plane field, and for a load on the wall of a hole an edge dislocation at the hole's centre, so that
/// the branch cut of the half-plane field ends inside the hole. With d = (x - p)/n, r = |d|, th = arg d:
///   u_n = -(2 ln(r/h) + (1 + nu') sin^2 th) / (pi E'),   u_t = ((1 + nu') sin th cos th - (1 - nu') th) / (pi E'),
///   sigma_rr = -2 cos th / (pi r), the only stress.
/// On the axis u_n(h) = 0: the field counts only what lies below the change-over depth h.
/// Source: form of the half-plane field from memory, re-derived; dislocation derived; docs/theory/elastic.md.
class SingularField {
 public:
  /// Load on a convex or gently curved outside surface (flank). `normal` points into the body, unit; lengths [m].
  SingularField(PlaneMaterial material, Vec2 point, Vec2 normal, double depth);
  /// Load on the wall of a round hole about `centre`.
  SingularField(PlaneMaterial material, Vec2 point, Vec2 normal, double depth, Vec2 centre);

  [[nodiscard]] Vec2 point() const { return point_; }
  /// E * displacement * thickness / force at `x`, x not the point of attack.
  [[nodiscard]] Vec2 displacement(Vec2 x) const;
  /// The same without the half-plane part: what is left at the point of attack itself.
  [[nodiscard]] Vec2 dislocation_displacement(Vec2 x) const;
  /// Stress at `x`; nearer than `core` [m] the half-plane part keeps its value at the distance `core`.
  [[nodiscard]] Stress stress(Vec2 x, double core) const;
  /// Stress vector on a surface element with (not necessarily unit) outward normal `outward`; zero at the load itself.
  [[nodiscard]] Vec2 traction(Vec2 x, Vec2 outward) const;

 private:
  PlaneMaterial material_;
  Vec2 point_, normal_, centre_;
  double depth_, hole_radius_ = 0, dislocation_ = 0;
};

/// Rigid part along n of `SingularField` for a load on the bore wall itself, as the frame of `frame.h` measures it
/// (1/pi times the integral of e_r (e_r . u) round the bore): closed form of a logarithmic integral.
/// = -[2 ln(rb/h) - 1/2 + (1 + nu')/2 + (1 - nu')/4 + (1 - nu'^2)/4] / (pi E'). Source: derived.
[[nodiscard]] double bore_load_frame(PlaneMaterial material, double bore_radius, double depth);

}  // namespace lobewise::contact::elastic
