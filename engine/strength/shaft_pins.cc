#include "engine/strength/shaft_pins.h"

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/strength/shaft_terms.h"

namespace lobewise::strength {

double pin_load(double torque, int pins, double pin_circle_radius) {
  return sine_pin_load<double>(torque, 1, pins, pin_circle_radius);
}

PinBending pin_bending(double force, double diameter, double lever, PinSupport support, double modulus) {
  const double square = diameter * diameter;
  const double stiffness = modulus * kPi / 64 * square * square;
  const bool free_end = support == PinSupport::cantilever;
  PinBending out;
  out.moment = free_end ? force * lever : 0.5 * force * lever;
  out.stress = nominal_stress(out.moment, 0, 0, diameter, 0).bending;
  out.deflection = force * lever * lever * lever / ((free_end ? 3 : 12) * stiffness);
  return out;
}

PinBending pin_two_discs(double torque_per_disc, int pins, double pin_circle_radius, double diameter, double lever_near,
                         double lever_far) {
  return pin_bending(pin_load(torque_per_disc, pins, pin_circle_radius), diameter, std::max(lever_near, lever_far),
                     PinSupport::cantilever);
}

}  // namespace lobewise::strength
