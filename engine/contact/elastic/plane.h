#pragma once
// Plane linear elasticity in units of Young's modulus: every compliance here is E * displacement * thickness / force,
// a pure number, so that it serves every material of the same Poisson number.
#include "engine/base/constants.h"
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
  /// What `add_traction` needs of the load: numbers for one load, vectors for several.
  template <class Number>
  struct Source {
    Number point_x, point_y, normal_x, normal_y, centre_x, centre_y;
    Number dislocation;  ///< D along the normal, 0 for a flank
  };
  [[nodiscard]] Source<double> source() const;

 private:
  /// The dislocation's displacement at z = (x - centre)/n without its angle, in the frame of the normal.
  [[nodiscard]] Vec2 single_valued_dislocation(Vec2 z) const;

  PlaneMaterial material_;
  Vec2 point_, normal_, centre_;
  double depth_, hole_radius_ = 0, dislocation_ = 0;
};

/// Adds the stress vector of one load or several on a surface element at `x` with (not necessarily unit) outward normal
/// `outward`; nothing at the load itself.
template <class Number>
[[gnu::always_inline]] inline void add_traction(const SingularField::Source<Number>& load, Vec2 x, Vec2 outward,
                                                Number& t_x, Number& t_y) {
  // Nearer than this to the load the traction of the half-plane field on the boundary is its limit on a smooth curve,
  // which is of the order of curvature squared times the distance: nothing [m].
  constexpr double kLoadItself = 1e-10;
  constexpr double kScale = -2 / kPi;
  const Number nothing = load.point_x - load.point_x;
  const Number d_x = x.x - load.point_x, d_y = x.y - load.point_y;
  const Number r2 = d_x * d_x + d_y * d_y;
  const Number along = kScale * (d_x * load.normal_x + d_y * load.normal_y) * (d_x * outward.x + d_y * outward.y);
  const Number flamant = r2 > kLoadItself * kLoadItself ? along / (r2 * r2) : nothing;
  // Dislocation, complex: D/z, conj(z) D/z^2, conj(D)/z.
  const Number z_x = x.x - load.centre_x, z_y = x.y - load.centre_y;
  const Number inverse = 1 / (z_x * z_x + z_y * z_y);
  const Number c_x = inverse * z_x, c_y = -inverse * z_y;  // 1/z
  const Number D_x = load.dislocation * load.normal_x, D_y = load.dislocation * load.normal_y;
  const Number over_x = D_x * c_x - D_y * c_y, over_y = D_x * c_y + D_y * c_x;
  const Number turned_x = z_x * c_x + z_y * c_y, turned_y = z_x * c_y - z_y * c_x;  // conj(z)/z
  const Number half_x = (D_x * c_x + D_y * c_y) - (over_x * turned_x - over_y * turned_y);
  const Number half_y = (D_x * c_y - D_y * c_x) - (over_x * turned_y + over_y * turned_x);
  const Number mean = 2 * over_x;
  t_x += flamant * d_x + (mean - half_x) * outward.x + half_y * outward.y;
  t_y += flamant * d_y + half_y * outward.x + (mean + half_x) * outward.y;
}

/// Rigid part along n of `SingularField` for a load on the bore wall itself, as the frame of `frame.h` measures it
/// (1/pi times the integral of e_r (e_r . u) round the bore): closed form of a logarithmic integral.
/// = -[2 ln(rb/h) - 1/2 + (1 + nu')/2 + (1 - nu')/4 + (1 - nu'^2)/4] / (pi E'). Source: derived.
[[nodiscard]] double bore_load_frame(PlaneMaterial material, double bore_radius, double depth);

}  // namespace lobewise::contact::elastic
