#pragma once
// What a ring roller in its seat and an output pin on its core add to the local approach of their contact.
#include <vector>

#include "engine/contact/elastic/plane.h"

namespace lobewise::contact::elastic {

/// A ring roller lies in a rigid half-round seat (its outer half is held); the contact stands at the angle gamma from
/// the axis of the seat. Values are E * displacement * thickness / force without the local part within the depth h,
/// solved by finite elements on the unit circle and interpolated; h enters as 2 ln(r/h) / (pi E'), exactly.
class SeatedRoller {
 public:
  explicit SeatedRoller(PlaneMaterial material);
  /// @param gamma  |gamma| <= kLargestAngle [rad]
  /// @param radius_over_depth  r/h
  [[nodiscard]] double constant(double gamma, double radius_over_depth) const;
  /// By its own solution rather than by interpolation (for tests).
  static constexpr double kLargestAngle = 1.35;

 private:
  double modulus_;
  std::vector<double> values_;  ///< at even steps of gamma from 0 to kLargestAngle, h = r
};

/// Output pin or sleeve whose core circle is rigid: the same on an annulus.
/// @param core_over_radius  rc/rw in (0, 1)
[[nodiscard]] double cored_pin_constant(PlaneMaterial material, double core_over_radius, double radius_over_depth);

}  // namespace lobewise::contact::elastic
