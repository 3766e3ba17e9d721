#include "engine/sizing/price.h"

namespace lobewise::sizing {

double motor_mass(const drive::Motor& motor) {
  const double by_poles = motor.poles <= 4 ? 1 : motor.poles == 6 ? 1.5 : 2.2;
  return by_poles * drive::typical_mass(motor.rated_power).nominal;
}

double price_of_mass(const range::Range& range) {
  double price = 0, mass = 0;
  for (const range::Frame& frame : range.frames)
    for (const range::Stage& stage : frame.stages) {
      price += stage.price;
      mass += frame.housing.mass;
    }
  return mass > 0 ? price / mass : 0;
}

}  // namespace lobewise::sizing
