#include "engine/losses/friction.h"

#include "engine/base/constants.h"

namespace lobewise::losses {

double hersey_number(double dynamic_viscosity, double relative_speed, double pressure) {
  return dynamic_viscosity * (relative_speed / (2 * kPi)) / pressure;
}

double asperity_share(double lambda_ratio, const MixedCurve& curve) { return 1 / (1 + lambda_ratio / curve.half); }

double mixed_friction(double lambda_ratio, const MixedCurve& curve) {
  return curve.film + (curve.boundary - curve.film) * asperity_share(lambda_ratio, curve);
}

}  // namespace lobewise::losses
