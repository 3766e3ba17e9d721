#pragma once
// The numbers that fix one pin-ring cycloidal stage, what follows from them, and whether they can exist.
// Derivation of every formula: docs/theory/mesh.md.
#include <string_view>

#include "engine/base/result.h"

namespace lobewise::mechanism {

/// One stage: `discs` equal discs with `lobes` lobes each run inside `lobes + 1` ring rollers; output pins with sleeves
/// stand in holes of the discs. The three last members shift the cut of the profile (clearances); zero is the exact
/// conjugate profile.
struct StageGeometry {
  int lobes = 0;                 ///< N
  double pitch_radius = 0;       ///< R: circle of the ring roller centres [m]
  double roller_radius = 0;      ///< r: ring roller [m]
  double eccentricity = 0;       ///< e [m]
  double width = 0;              ///< b: effective contact length of every contact of one disc [m]
  int discs = 2;                 ///< n_d: discs, evenly spread round the eccentric
  int pins = 0;                  ///< M: output pins
  double pin_circle_radius = 0;  ///< Rw: circle of the output pin centres [m]
  double pin_radius = 0;         ///< rw: output pin or its sleeve, outside [m]
  double hole_clearance = 0;     ///< radial clearance of the output pin in its hole, beyond rw + e [m]
  double roller_offset = 0;      ///< dr: the profile is cut with roller radius r + dr; dr > 0 opens a gap [m]
  double radius_offset = 0;      ///< dR: the profile is cut with pitch radius R + dR; dR < 0 opens a gap [m]
  double flank_relief = 0;  ///< dang >= 0: the body is the intersection of the profile turned by +dang and -dang [rad]

  [[nodiscard]] int rollers() const { return lobes + 1; }  ///< Z = N + 1
  [[nodiscard]] double shortening() const {
    return eccentricity * rollers() / pitch_radius;
  }  ///< K = e Z / R, in (0, 1)
  [[nodiscard]] double hole_radius() const { return pin_radius + eccentricity + hole_clearance; }  ///< rh [m]
  [[nodiscard]] double cut_pitch_radius() const { return pitch_radius + radius_offset; }           ///< R' = R + dR [m]
  [[nodiscard]] double cut_roller_radius() const { return roller_radius + roller_offset; }         ///< r' = r + dr [m]
  /// Input over output speed, ring held: -N (the output turns against the input).
  [[nodiscard]] double ratio_ring_fixed() const { return -static_cast<double>(lobes); }
  /// Input over output speed, output pins held and the ring driven: +Z.
  [[nodiscard]] double ratio_carrier_fixed() const { return static_cast<double>(rollers()); }

  friend bool operator==(const StageGeometry&, const StageGeometry&) = default;
};

/// Figures of the bare profile (no bore, no holes, no flank relief), with the cut values R' and r'.
struct ProfileFigures {
  double roller_radius_limit = 0;  ///< largest r' without undercut [m]
  double area = 0;                 ///< A = pi (R'^2 + Z e^2) - r' L + pi r'^2 [m2]
  double polar_inertia = 0;        ///< second polar moment of area about the disc centre [m4]
  double trace_length = 0;         ///< L = 4 R' (1 + K') E(m), m = 4 K' / (1 + K')^2 [m]
  double tip_curvature = 0;        ///< flank curvature at the lobe tip, convex > 0 [1/m]
  double root_curvature = 0;       ///< flank curvature at the lobe root [1/m]
  double max_curvature = 0;        ///< largest flank curvature [1/m]
};

/// Largest roller radius that the profile can be cut with: smallest radius of the convex trace curvature.
/// u* = [K'^2 (2Z-1) - (Z-2)] / (K' (Z+1)); |u*| <= 1: R' sqrt(27 (1-K'^2)(Z-1)/(Z+1)^3), else 1 / largest end
/// curvature [m]. Precondition: 0 < K' < 1, N >= 2. Source: derived, docs/theory/mesh.md.
[[nodiscard]] double roller_radius_limit(const StageGeometry& stage);

/// Figures of the profile. Precondition: `check_geometry` found nothing. Source: derived, docs/theory/mesh.md.
[[nodiscard]] ProfileFigures profile_figures(const StageGeometry& stage);

/// Everything that keeps this stage from existing, each as one sentence with the limiting value; empty when it can
/// exist. Checks: finite, positive, N >= 2, M >= 3, K < 1, ring rollers apart, no undercut, holes clear of each other,
/// of the lobes and of the centre, relief smaller than half a lobe. `path` stands in front of the member names in the
/// errors. Source: derived, docs/theory/mesh.md.
[[nodiscard]] Errors check_geometry(const StageGeometry& stage, std::string_view path = "stage");

/// As `check_geometry`, for the bore (or the raceway pressed into it) of the disc [m]: it must stay inside the holes.
[[nodiscard]] Errors check_bore(const StageGeometry& stage, double bore_radius, std::string_view path = "bore_radius");

}  // namespace lobewise::mechanism
