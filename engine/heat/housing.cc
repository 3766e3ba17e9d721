#include "engine/heat/housing.h"

#include <algorithm>

#include "engine/base/root.h"
#include "engine/heat/convection.h"

namespace lobewise::heat {
namespace {

/// Convection and radiation of an outer surface at a temperature.
HeatFlow shed_at(const Housing& housing, double surface) {
  HeatFlow flow;
  if (housing.fin_factor > 0) {
    const double h =
        convection(housing.diameter, surface, housing.ambient_temperature, housing.air_speed, housing.altitude)
            .combined;
    flow.convection = housing.fin_factor * h * housing.area * (surface - housing.ambient_temperature);
  }
  flow.radiation = radiation(housing.area, housing.emissivity, surface, housing.ambient_temperature);
  return flow;
}

/// Outer temperature of a layer of dust over a housing.
double dust_surface(const Housing& housing, double housing_temperature) {
  const auto through_less_shed = [&](double surface) {
    const HeatFlow shed = shed_at(housing, surface);
    return housing.area * (housing_temperature - surface) / housing.dust_resistance - shed.convection - shed.radiation;
  };
  const double cold = std::min(housing_temperature, housing.ambient_temperature);
  const double hot = std::max(housing_temperature, housing.ambient_temperature);
  if (!(hot > cold)) return housing_temperature;
  constexpr double kTolerance = 1e-9;  // [K]
  return bracketed_root(through_less_shed, cold, hot, through_less_shed(cold), through_less_shed(hot), kTolerance);
}

}  // namespace

HeatFlow heat_flow(const Housing& housing, double housing_temperature) {
  HeatFlow flow;
  if (housing.area > 0)
    flow = shed_at(housing,
                   housing.dust_resistance > 0 ? dust_surface(housing, housing_temperature) : housing_temperature);
  flow.flange = housing.flange_conductance * (housing_temperature - flange_temperature(housing));
  flow.sun = housing.sun_power;
  return flow;
}

}  // namespace lobewise::heat
