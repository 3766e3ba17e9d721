#include "engine/range/bearing.h"

#include <fmt/core.h>

#include <cmath>

namespace lobewise::range {
namespace {

/// C_0 / C_u of a ball bearing and the exponent of its size reduction. ISO 281 annex B (from memory).
constexpr double kBallStaticOverFatigueLimit = 22;
constexpr double kBallSizeExponent = 0.5;
/// The same exponent of a roller bearing, as in `strength::roller_rating`.
constexpr double kRollerSizeExponent = 0.3;
/// Pitch diameter above which the fatigue limit falls with size [m]. ISO 281 annex B (from memory).
constexpr double kSizeLimit = 0.1;

double fatigue_limit(double static_rating, bool balls, double pitch_diameter) {
  const double limit = static_rating / (balls ? kBallStaticOverFatigueLimit : strength::kStaticOverFatigueLimit);
  if (pitch_diameter <= kSizeLimit) return limit;
  return limit * std::pow(kSizeLimit / pitch_diameter, balls ? kBallSizeExponent : kRollerSizeExponent);
}

}  // namespace

bool has_balls(BearingKind kind) { return kind == BearingKind::deep_groove || kind == BearingKind::angular_ball; }

double contact_angle(const Bearing& bearing) { return std::atan(bearing.axial_e.value_or(0) / 1.5); }

double outer_raceway_radius(const Bearing& bearing) {
  if (bearing.element_diameter > 0) return (bearing.pitch_diameter + bearing.element_diameter) / 2;
  return bearing.outside / 2;
}

Result<strength::RollingBearing> rolling_bearing(const Bearing& bearing, std::string_view path) {
  const bool balls = has_balls(bearing.kind);
  strength::RollingBearing result;
  result.element = balls ? strength::RollingElement::ball : strength::RollingElement::roller;
  result.pitch_diameter = bearing.pitch_diameter;
  const bool stated = bearing.dynamic_capacity && bearing.static_capacity;
  if (!stated) {
    if (balls)
      return Error{ErrorKind::data, fmt::format("{}.dynamic_capacity", path), "",
                   "a ball bearing needs both capacities stated: dynamic_capacity and static_capacity.", 0};
    if (bearing.elements <= 0 || !(bearing.element_diameter > 0) || !(bearing.element_length > 0) ||
        !(bearing.pitch_diameter > 2 * bearing.element_diameter))
      return Error{ErrorKind::data, std::string(path), "",
                   "no way to its capacity: state dynamic_capacity and static_capacity, or elements, element_diameter, "
                   "element_length and a pitch_diameter above twice the element diameter.",
                   0};
    strength::RollerBearingGeometry geometry;
    geometry.rollers = bearing.elements;
    geometry.roller_diameter = bearing.element_diameter;
    geometry.roller_length = bearing.element_length;
    geometry.pitch_diameter = bearing.pitch_diameter;
    geometry.contact_angle = contact_angle(bearing);
    result.rating = strength::roller_rating(geometry);
  }
  if (bearing.dynamic_capacity) result.rating.C = *bearing.dynamic_capacity;
  if (bearing.static_capacity) result.rating.C_0 = *bearing.static_capacity;
  if (bearing.static_capacity)
    result.rating.C_u = fatigue_limit(*bearing.static_capacity, balls, bearing.pitch_diameter);
  return result;
}

}  // namespace lobewise::range
