#pragma once
// Does the new unit fit where the old one stood, and which adapter work follows. Everything may be unknown.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise::incumbent {

/// What can be measured with a tape and a caliper. Lengths in m, mass in kg.
struct Dimensions {
  std::optional<double> shaft_height;    ///< output axis over the foot plane
  std::optional<double> shaft_diameter;  ///< output shaft, or bore when hollow
  std::optional<double> shaft_length;
  std::optional<bool> hollow_shaft;
  std::optional<double> foot_length;  ///< distance of foot holes along the output axis
  std::optional<double> foot_width;   ///< distance of foot holes across
  std::optional<double> foot_hole;    ///< diameter
  std::optional<double> flange_bolt_circle;
  std::optional<double> flange_spigot;
  std::optional<double>
      shaft_end_to_foot;         ///< from the end of the output shaft to the nearest foot hole, along the axis
  std::optional<double> length;  ///< overall, with motor
  std::optional<double> width;
  std::optional<double> height;
  std::optional<double> mass;         ///< with motor
  std::optional<double> axis_offset;  ///< input axis above the output axis, 0 when coaxial
};

enum class FitVerdict { fits, adapter, does_not_fit, unknown };

struct FitLine {
  std::string field;
  std::string label;
  std::optional<double> before, after;  ///< old and new
  Quantity quantity = Quantity::length;
  FitVerdict verdict = FitVerdict::unknown;
  std::string work;  ///< adapter work, empty when none
};

/// Room around the old unit.
struct Room {
  std::optional<double> length, width, height;  ///< free envelope, m
  std::optional<double> lifting;                ///< what the hoist above it lifts, kg
  bool shaft_may_move = false;                  ///< a chain or belt follows the output shaft
};

struct Fit {
  std::vector<FitLine> lines;
  FitVerdict verdict =
      FitVerdict::unknown;  ///< the worst line; unknown when nothing speaks against it but something is missing
};

/// Old and new side by side. Lengths equal within 0.5 mm (shaft diameters within 0.05 mm) fit.
/// A lower new shaft is raised by a plate or base; a higher one does not fit unless the driven machine moves.
/// Adapter practice: common practice, no source.
[[nodiscard]] Fit fit(const Dimensions& before, const Dimensions& after, const Room& room);

}  // namespace lobewise::incumbent
