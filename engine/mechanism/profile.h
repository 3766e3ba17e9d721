#pragma once
// The flank of the disc as a curve with exact derivatives. Derivation: docs/theory/mesh.md.
// Parameter t [rad]: 0 at a root, pi/N at the next tip, 2 pi for one turn of the disc; disc frame, lobe root on the x
// axis.
#include <vector>

#include "engine/mechanism/stage_geometry.h"
#include "engine/mechanism/vec2.h"

namespace lobewise::mechanism {

/// The cut profile of a stage (R', r', e, N). Flank relief is not part of it: see `body_point` and `outline`.
class Profile {
 public:
  /// Precondition: `check_geometry(stage)` found nothing.
  explicit Profile(const StageGeometry& stage);

  /// Path of the roller centre seen from the disc: w = R' e^{it} - e e^{iZt} [m].
  [[nodiscard]] Vec2 trace(double t) const { return radius_ * unit(t) - eccentricity_ * unit(rollers_ * t); }
  /// w' = i (R' e^{it} - e Z e^{iZt}) [m/rad].
  [[nodiscard]] Vec2 trace_derivative(double t) const {
    return quarter_turn(radius_ * unit(t) - eccentricity_ * rollers_ * unit(rollers_ * t));
  }
  /// S'(t) = |w'| = R' sqrt(1 + K'^2 - 2 K' cos Nt) [m/rad].
  [[nodiscard]] double trace_speed(double t) const { return radius_ * std::sqrt(bracket(t)); }
  /// Unit normal into the disc: n = i w' / |w'|.
  [[nodiscard]] Vec2 inner_normal(double t) const { return (1 / trace_speed(t)) * quarter_turn(trace_derivative(t)); }
  /// Flank p = w + r' n [m].
  [[nodiscard]] Vec2 point(double t) const { return trace(t) + roller_radius_ * inner_normal(t); }
  /// p' = w' (1 - r' k0) [m/rad].
  [[nodiscard]] Vec2 point_derivative(double t) const {
    return (1 - roller_radius_ * trace_curvature(t)) * trace_derivative(t);
  }
  /// k0 = [1 + K'^2 Z - K' (Z+1) cos Nt] / (R' (1 + K'^2 - 2 K' cos Nt)^{3/2}), convex > 0 [1/m].
  [[nodiscard]] double trace_curvature(double t) const {
    const double b = bracket(t);
    return (1 + shortening_ * shortening_ * rollers_ - shortening_ * (rollers_ + 1) * std::cos(lobes_ * t)) /
           (radius_ * b * std::sqrt(b));
  }
  /// kap = k0 / (1 - r' k0), convex > 0 [1/m].
  [[nodiscard]] double curvature(double t) const {
    const double k0 = trace_curvature(t);
    return k0 / (1 - roller_radius_ * k0);
  }

  [[nodiscard]] double radius() const { return radius_; }                ///< R' [m]
  [[nodiscard]] double roller_radius() const { return roller_radius_; }  ///< r' [m]
  [[nodiscard]] double eccentricity() const { return eccentricity_; }    ///< e [m]
  [[nodiscard]] double shortening() const { return shortening_; }        ///< K'
  [[nodiscard]] double lobes() const { return lobes_; }                  ///< N
  [[nodiscard]] double rollers() const { return rollers_; }              ///< Z

 private:
  [[nodiscard]] double bracket(double t) const {
    return 1 + shortening_ * shortening_ - 2 * shortening_ * std::cos(lobes_ * t);
  }
  double radius_, roller_radius_, eccentricity_, shortening_, lobes_, rollers_;
};

/// The body's flank with relief: half lobes turned by +dang (rising flank) and -dang (falling flank), each from root
/// corner to tip corner. `lobe` counts from the root on the x axis, `share` runs over the lobe: 0 root, 1/2 tip, 1 next
/// root. Without relief this is the profile itself, evenly spaced in t.
struct BodyFlank {
  /// Precondition: `check_geometry(stage)` found nothing.
  explicit BodyFlank(const StageGeometry& stage);
  [[nodiscard]] Vec2 point(int lobe, double share) const;         ///< [m]
  [[nodiscard]] Vec2 inner_normal(int lobe, double share) const;  ///< unit normal of the flank there
  [[nodiscard]] double curvature(int lobe, double share) const;   ///< convex > 0 [1/m]

 private:
  struct Place {
    double t;     ///< profile parameter
    double turn;  ///< angle to turn the profile by
  };
  [[nodiscard]] Place place(int lobe, double share) const;
  Profile profile_;
  double relief_, root_t_, tip_t_;
};

/// Closed outline of the body, `points_per_lobe` points a lobe (even, so that tips are met), counter-clockwise from the
/// root on the x axis; the first point is not repeated [m]. About 800 a lobe for manufacture (docs/theory/mesh.md), 40
/// for a drawing.
[[nodiscard]] std::vector<Vec2> outline(const StageGeometry& stage, int points_per_lobe);

}  // namespace lobewise::mechanism
