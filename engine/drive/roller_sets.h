#pragma once
// The rollers of a stage as bearings of their own: ring rollers and output rollers turn on needles or plain pins.

#include "engine/drive/losses_model.h"

namespace lobewise::drive {

/// All rollers of one kind on one disc.
struct RollerSet {
  range::Carried carried = range::Carried::fixed;  ///< also where the stage names no pin to turn on
  double count = 0;
  double radius = 0;         ///< outside [m]
  double inner = 0;          ///< radius of the pin [m]; > 0 unless fixed
  double width = 0;          ///< [m]
  double spin = 0;           ///< mean speed on the pin over the input speed of the stage
  double mean_diameter = 0;  ///< of the needles: pin and outside, their mean [m]
};
/// Spin of a ring roller: the mean of |S - r|/(N r), S by its series in K up to K^4. Of an output roller e Z/(N r_w).
/// Source: derived, docs/theory/mesh.md.
[[nodiscard]] RollerSet ring_rollers(const range::Stage& stage);
[[nodiscard]] RollerSet output_rollers(const range::Stage& stage);

/// Power that the oil in them takes, load set apart, on one disc [W]. Fixed rollers: none.
[[nodiscard]] double roller_drag(const RollerSet& set, const Oil& oil, double input_speed, double nu, double eta,
                                 const Coefficients& c);
/// Factor on their needles' friction at this speed (losses::low_speed_factor).
[[nodiscard]] double needle_rise(const RollerSet& set, double input_speed, double nu, const Coefficients& c);
/// The same of a rolling bearing. @param speed  of its rings [rad/s] > 0
[[nodiscard]] double bearing_rise(double pitch_diameter, double speed, double nu, const Coefficients& c);

}  // namespace lobewise::drive
