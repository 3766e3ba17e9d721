#include "engine/heat/housing.h"

#include "engine/heat/convection.h"

namespace lobewise::heat {

HeatFlow heat_flow(const Housing& housing, double housing_temperature) {
  const double rise = housing_temperature - housing.ambient_temperature;
  HeatFlow flow;
  if (housing.area > 0) {
    if (housing.fin_factor > 0) {
      const double h = convection(housing.diameter, housing_temperature, housing.ambient_temperature, housing.air_speed,
                                  housing.altitude)
                           .combined;
      flow.convection = housing.fin_factor * h * housing.area * rise;
    }
    flow.radiation = radiation(housing.area, housing.emissivity, housing_temperature, housing.ambient_temperature);
  }
  flow.flange = housing.flange_conductance * (housing_temperature - flange_temperature(housing));
  flow.sun = housing.sun_power;
  return flow;
}

}  // namespace lobewise::heat
