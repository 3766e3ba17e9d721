#include "engine/tolerance/manufacture.h"

#include <algorithm>

#include "engine/tolerance/iso_286.h"

namespace lobewise::tolerance {

Result<Widths> widths_of(const std::optional<Manufacture>& given, const mechanism::StageGeometry& g, int grade) {
  const Manufacture stated = given.value_or(Manufacture{});
  const int rough = stated.grade.value_or(grade), fine = std::max(kFineGrade, rough - 1);
  Errors errors;
  const auto zone = [&](double diameter, int of_grade) {
    const Result<double> found = grade_tolerance(diameter, of_grade);
    if (found) return *found;
    if (errors.empty()) errors = found.errors();
    return 0.0;
  };
  const double ring = zone(2 * g.pitch_radius, rough), circle = zone(2 * g.pin_circle_radius, rough);
  const double roller = zone(2 * g.roller_radius, fine) / 2, hole = zone(2 * g.hole_radius(), rough) / 2,
               pin = zone(2 * g.pin_radius, fine) / 2, profile = zone(2 * g.pitch_radius, fine) / 4;
  if (!errors.empty()) return errors;
  Widths w;
  w.capability = stated.capability.value_or(1);
  w.pitch_radius = stated.pitch_radius.value_or(ring / 2);
  w.roller_position = stated.roller_position.value_or(ring);
  w.roller_radius = stated.roller_radius.value_or(roller);
  w.roller_radius_batch = stated.roller_radius_batch.value_or(roller / 2);
  w.profile_form = stated.profile_form.value_or(profile);
  w.profile_batch = stated.profile_batch.value_or(profile / 2);
  w.hole_position = stated.hole_position.value_or(circle);
  w.hole_radius = stated.hole_radius.value_or(hole);
  w.hole_radius_batch = stated.hole_radius_batch.value_or(hole / 2);
  w.pin_position = stated.pin_position.value_or(circle);
  w.pin_radius = stated.pin_radius.value_or(pin);
  w.pin_radius_batch = stated.pin_radius_batch.value_or(pin / 2);
  return w;
}

}  // namespace lobewise::tolerance
