#pragma once
// One unit as it was made: how far each of its parts stands from its place and size.
#include <string_view>
#include <vector>

#include "engine/base/result.h"
#include "engine/mechanism/stage_geometry.h"

namespace lobewise::contact {

/// Deviations of the parts of one stage [m]. Radial is outward, tangential counter-clockwise, both of the part's
/// centre; a radius is larger than its nominal when positive. An empty list stands for zeros.
struct PartOffsets {
  std::vector<double> roller_radial, roller_tangential, roller_radius;         ///< by roller, ring frame
  std::vector<std::vector<double>> hole_radial, hole_tangential, hole_radius;  ///< by disc and hole, disc frame
  std::vector<double> pin_radial, pin_tangential, pin_radius;                  ///< by output pin, flange frame
  /// By disc and ring roller: how far the flank that stands before it lies outward. It follows the discs: another crank
  /// angle brings other flanks before the rollers.
  std::vector<std::vector<double>> flank;

  /// Entry of a list, 0 when the list is empty.
  [[nodiscard]] static double of(const std::vector<double>& list, std::size_t index) {
    return list.empty() ? 0 : list[index];
  }
  [[nodiscard]] static double of(const std::vector<std::vector<double>>& list, std::size_t disc, std::size_t index) {
    return list.empty() ? 0 : of(list[disc], index);
  }
};

/// What keeps the offsets from being those of one unit: lengths of lists, values that are not finite or reach a tenth
/// of the part they belong to (the contacts are looked for near their nominal place). Paths are the members' names.
[[nodiscard]] Errors check_offsets(const PartOffsets& offsets, const mechanism::StageGeometry& stage);

/// Change of the gap between ring roller and flank to first order, larger = looser [m].
/// With x = f - theta, D = sqrt(1 + K^2 - 2 K cos x): radial (1 - K cos x)/D - tangential K sin x/D - radius; K sin x/D
/// and (1 - K cos x)/D are the parts of the direction from the instant centre to the roller. Source: derived.
/// @param shortening    K = e Z / R
/// @param behind_crank  x = f - theta: crank angle of the disc less the angle of the roller [rad]
[[nodiscard]] double roller_gap_change(double shortening, double behind_crank, double radial, double tangential,
                                       double radius);

}  // namespace lobewise::contact
