#pragma once
// How exactly the parts of a stage are made: what a drawing allows, part by part.

#include <optional>

#include "engine/base/result.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::tolerance {

/// Tolerances of a stage as its range states them. Each is the whole width of a zone that lies evenly about the nominal
/// [m]; what is left out follows from the grade, see `widths_of`. `batch` widths are common to all parts of a unit (one
/// setting of a machine, one sorted class), the others each part's own.
struct Manufacture {
  std::optional<int> grade;                   ///< of ISO 286-1, 5 … 8
  std::optional<double> capability;           ///< C_p: zone over six standard deviations
  std::optional<double> pitch_radius;         ///< circle of the ring rollers, batch
  std::optional<double> roller_position;      ///< centre of each ring roller, radial and tangential
  std::optional<double> roller_radius_batch;  ///< of all ring rollers
  std::optional<double> roller_radius;        ///< of each
  std::optional<double> profile_batch;        ///< size of the profiles, outward
  std::optional<double> profile_form;         ///< of each flank
  std::optional<double> hole_position;        ///< of each output hole, radial and tangential
  std::optional<double> hole_radius_batch;
  std::optional<double> hole_radius;
  std::optional<double> pin_position;
  std::optional<double> pin_radius_batch;
  std::optional<double> pin_radius;

  friend bool operator==(const Manufacture&, const Manufacture&) = default;
};

/// The same, complete.
struct Widths {
  double capability = 1;
  double pitch_radius = 0, roller_position = 0, roller_radius_batch = 0, roller_radius = 0;
  double profile_batch = 0, profile_form = 0;
  double hole_position = 0, hole_radius_batch = 0, hole_radius = 0;
  double pin_position = 0, pin_radius_batch = 0, pin_radius = 0;
};

/// Grade of a maker who states none, and between which it may lie. Common practice, no source.
inline constexpr int kUsualGrade = 6, kFineGrade = 5, kCoarseGrade = 7;

/// Widths stated, and for the rest what the grade gives (common practice, no source): positions within the tolerance of
/// the diameter of their circle, its radius within half of that; radii of turned and ground parts within half of the
/// tolerance of their diameter, one grade finer where there is one; profiles within a quarter of the tolerance of the
/// ring's diameter; batches half of what each part has of its own. C_p 1 where nothing is said.
/// @param grade  where the range states none, 5 … 8
/// Errors: a diameter outside ISO 286-1.
[[nodiscard]] Result<Widths> widths_of(const std::optional<Manufacture>& stated, const mechanism::StageGeometry& stage,
                                       int grade);

}  // namespace lobewise::tolerance
