#pragma once
// Dry air as the housing meets it.

namespace lobewise::heat {

struct Air {
  double pressure = 0;      ///< [Pa]
  double density = 0;       ///< [kg/m3]
  double conductivity = 0;  ///< k [W/(m K)]
  double viscosity = 0;     ///< kinematic, nu [m2/s]
  double prandtl = 0;       ///< Pr = mu c_p / k
};

/// Properties of dry air.
///   p = 101325 (1 - 2.25577e-5 h)^5.25588;  rho = p / (287.05 T);  mu = 1.458e-6 T^1.5 / (T + 110.4)
///   k = 2.64638e-3 T^1.5 / (T + 245.4 * 10^(-12/T));  nu = mu / rho;  Pr = 1006 mu / k
/// @param temperature  T, film temperature, 180..800 K
/// @param altitude     h above sea level, -400..11000 m; enters through the density only
/// Source: US Standard Atmosphere 1976 (pressure of the troposphere, Sutherland viscosity, conductivity) and
/// c_p = 1006 J/(kg K), all from memory. Checked by: tests/reference/heat/convection_test.cc (textbook air at 300 K).
[[nodiscard]] Air air(double temperature, double altitude);

}  // namespace lobewise::heat
