#include "engine/heat/convection.h"

#include <cmath>

#include "engine/base/constants.h"
#include "engine/heat/air.h"

namespace lobewise::heat {
namespace {

/// {first + 0.387 Ra^(1/6) / [1 + (b/Pr)^(9/16)]^(8/27)}^2
double churchill_chu(double first, double b, double rayleigh, double prandtl) {
  const double shape = std::pow(1 + std::pow(b / prandtl, 9.0 / 16), 8.0 / 27);
  const double root = first + 0.387 * std::sqrt(std::cbrt(rayleigh)) / shape;
  return root * root;
}

}  // namespace

double rayleigh(double temperature_difference, double length, double film_temperature, double viscosity,
                double prandtl) {
  return kGravity * temperature_difference * length * length * length * prandtl /
         (film_temperature * viscosity * viscosity);
}

double nusselt_cylinder(double rayleigh, double prandtl) { return churchill_chu(0.60, 0.559, rayleigh, prandtl); }

double nusselt_plate(double rayleigh, double prandtl) { return churchill_chu(0.825, 0.492, rayleigh, prandtl); }

double nusselt_crossflow(double reynolds, double prandtl) {
  const double shape = std::sqrt(std::sqrt(1 + std::pow(0.4 / prandtl, 2.0 / 3)));
  return 0.3 + 0.62 * std::sqrt(reynolds) * std::cbrt(prandtl) / shape *
                   std::pow(1 + std::pow(reynolds / 282000, 5.0 / 8), 4.0 / 5);
}

Convection convection(double diameter, double surface_temperature, double air_temperature, double air_speed,
                      double altitude) {
  const double film = 0.5 * (surface_temperature + air_temperature);
  const Air properties = air(film, altitude);
  const double per_nusselt = properties.conductivity / diameter;
  const double ra = rayleigh(std::abs(surface_temperature - air_temperature), diameter, film, properties.viscosity,
                             properties.prandtl);
  Convection out;
  out.natural = nusselt_cylinder(ra, properties.prandtl) * per_nusselt;
  if (air_speed > 0) {
    out.forced = nusselt_crossflow(air_speed * diameter / properties.viscosity, properties.prandtl) * per_nusselt;
  }
  out.combined = std::cbrt(out.natural * out.natural * out.natural + out.forced * out.forced * out.forced);
  return out;
}

double radiation(double area, double emissivity, double surface_temperature, double surroundings_temperature) {
  const double s = surface_temperature * surface_temperature;
  const double a = surroundings_temperature * surroundings_temperature;
  return emissivity * kStefanBoltzmann * area * (s - a) * (s + a);
}

double sun(double absorptivity, double irradiance, double projected_area) {
  return absorptivity * irradiance * projected_area;
}

}  // namespace lobewise::heat
