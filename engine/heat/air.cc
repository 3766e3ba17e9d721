#include "engine/heat/air.h"

#include <cmath>

namespace lobewise::heat {

Air air(double temperature, double altitude) {
  const double t = temperature;
  const double t_15 = t * std::sqrt(t);
  Air out;
  out.pressure = altitude == 0 ? 101325.0 : 101325.0 * std::pow(1 - 2.25577e-5 * altitude, 5.25588);
  out.density = out.pressure / (287.05 * t);
  const double mu = 1.458e-6 * t_15 / (t + 110.4);
  out.conductivity = 2.64638e-3 * t_15 / (t + 245.4 * std::exp(-12 * 2.302585092994046 / t));
  out.viscosity = mu / out.density;
  out.prandtl = 1006.0 * mu / out.conductivity;
  return out;
}

}  // namespace lobewise::heat
