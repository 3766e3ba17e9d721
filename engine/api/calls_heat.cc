// heat.*: air, convection, steady and transient temperature of the housing.
#include <cmath>

#include "engine/api/calls.h"
#include "engine/heat/air.h"
#include "engine/heat/convection.h"
#include "engine/heat/steady.h"
#include "engine/heat/transient.h"

namespace lobewise::api {
namespace {

constexpr model::Limits kAirTemperature{100, 2000};
constexpr model::Limits kAltitude{-500, 11000};
constexpr model::Limits kShare{0, 1};
constexpr double kHottest = 2000;  // of the formula-level calls, far above any use, so that closed forms can be checked

void air_numbers(Arguments& in, double& rayleigh_or_reynolds, const char* key, double& prandtl) {
  rayleigh_or_reynolds = in.number(key, Quantity::number, kNotNegative);
  prandtl = in.number("prandtl", Quantity::number, kPositive);
}

heat::Housing read_housing(Arguments& in, bool transient) {
  Arguments record = in.record("housing");
  heat::Housing housing;
  housing.diameter = record.number("diameter", Quantity::length, kPositive);
  housing.area = record.number("area", Quantity::area, kNotNegative);
  housing.emissivity = record.number_or("emissivity", Quantity::share, housing.emissivity, kShare);
  housing.ambient_temperature = record.number("ambient_temperature", Quantity::temperature, kAirTemperature);
  housing.air_speed = record.number_or("air_speed", Quantity::speed, heat::kAirSpeedEnclosed.nominal, kNotNegative);
  housing.altitude = record.number_or("altitude", Quantity::length, 0, kAltitude);
  housing.oil_conductance =
      record.number_or("oil_conductance", Quantity::thermal_conductance, housing.oil_conductance, kPositive);
  housing.flange_conductance =
      record.number_or("flange_conductance", Quantity::thermal_conductance, housing.flange_conductance, kNotNegative);
  housing.flange_temperature =
      record.number_or("flange_temperature", Quantity::temperature, housing.ambient_temperature, kAirTemperature);
  housing.fin_factor = record.number_or("fin_factor", Quantity::number, housing.fin_factor, kNotNegative);
  housing.sun_power = record.number_or("sun_power", Quantity::power, 0, kNotNegative);
  if (transient || record.has("oil_capacity")) {
    housing.oil_capacity = record.number("oil_capacity", Quantity::heat_capacity, kPositive);
  }
  if (transient || record.has("housing_capacity")) {
    housing.housing_capacity = record.number("housing_capacity", Quantity::heat_capacity, kPositive);
  }
  in.absorb(record);
  return housing;
}

void answer_steady(Arguments& in, Json& out, const heat::Housing& housing, heat::LossOfTemperature loss) {
  const auto state = heat::steady_state(housing, loss, kHottest);
  if (!state) {
    in.refuse(
        Errors{model_error("housing", "",
                           "no equilibrium: the loss exceeds what the housing sheds at every temperature up to the "
                           "end of the search (thermal runaway)")});
    return;
  }
  out["oil_temperature"] = state->oil_temperature;
  out["housing_temperature"] = state->housing_temperature;
  out["loss"] = state->loss;
  out["convection"] = state->flow.convection;
  out["radiation"] = state->flow.radiation;
  out["flange"] = state->flow.flange;
}

void add_surface_calls(Registry& registry) {
  registry.add("heat.air", "Properties of dry air", [](Arguments& in, Json& out) {
    const double temperature = in.number("temperature", Quantity::temperature, kAirTemperature);
    const double altitude = in.number_or("altitude", Quantity::length, 0, kAltitude);
    if (!in.ok()) return;
    const heat::Air air = heat::air(temperature, altitude);
    out["conductivity"] = air.conductivity;
    out["nu"] = air.viscosity;
    out["prandtl"] = air.prandtl;
    out["pressure"] = air.pressure;
    out["density"] = air.density;
  });
  registry.add("heat.convection", "Heat transfer coefficients from a housing to air", [](Arguments& in, Json& out) {
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const double surface = in.number("surface_temperature", Quantity::temperature, kAirTemperature);
    const double ambient = in.number("air_temperature", Quantity::temperature, kAirTemperature);
    const double speed = in.number_or("air_speed", Quantity::speed, 0, kNotNegative);
    const double altitude = in.number_or("altitude", Quantity::length, 0, kAltitude);
    if (!in.ok()) return;
    const heat::Convection result = heat::convection(diameter, surface, ambient, speed, altitude);
    out["h_natural"] = result.natural;
    out["h_forced"] = result.forced;
    out["h"] = result.combined;
  });
  registry.add("heat.nusselt_crossflow", "Forced convection across a cylinder", [](Arguments& in, Json& out) {
    double reynolds = 0, prandtl = 0;
    air_numbers(in, reynolds, "reynolds", prandtl);
    if (in.ok()) out["nusselt"] = heat::nusselt_crossflow(reynolds, prandtl);
  });
  registry.add("heat.nusselt_cylinder", "Natural convection, horizontal cylinder", [](Arguments& in, Json& out) {
    double rayleigh = 0, prandtl = 0;
    air_numbers(in, rayleigh, "rayleigh", prandtl);
    if (in.ok()) out["nusselt"] = heat::nusselt_cylinder(rayleigh, prandtl);
  });
  registry.add("heat.nusselt_plate", "Natural convection, vertical plate", [](Arguments& in, Json& out) {
    double rayleigh = 0, prandtl = 0;
    air_numbers(in, rayleigh, "rayleigh", prandtl);
    if (in.ok()) out["nusselt"] = heat::nusselt_plate(rayleigh, prandtl);
  });
  registry.add("heat.radiation", "Net radiation to large surroundings", [](Arguments& in, Json& out) {
    const double area = in.number("area", Quantity::area, kNotNegative);
    const double emissivity = in.number("emissivity", Quantity::share, kShare);
    const double surface = in.number("surface_temperature", Quantity::temperature, kNotNegative);
    const double surroundings = in.number("surroundings_temperature", Quantity::temperature, kNotNegative);
    if (in.ok()) out["power"] = heat::radiation(area, emissivity, surface, surroundings);
  });
  registry.add("heat.sun", "Heat taken up in the sun", [](Arguments& in, Json& out) {
    const double absorptivity = in.number("absorptivity", Quantity::share, kShare);
    const double irradiance = in.number("irradiance", Quantity::number, kNotNegative);
    const double area = in.number("projected_area", Quantity::area, kNotNegative);
    if (in.ok()) out["power"] = heat::sun(absorptivity, irradiance, area);
  });
}

void add_node_calls(Registry& registry) {
  registry.add("heat.one_node_rise", "Rise of one node heated from ambient", [](Arguments& in, Json& out) {
    const double power = in.number("power", Quantity::power, kNotNegative);
    const double conductance = in.number("conductance", Quantity::thermal_conductance, kPositive);
    const double capacity = in.number("capacity", Quantity::heat_capacity, kPositive);
    const double time = in.number("time", Quantity::time, kNotNegative);
    if (in.ok()) out["rise"] = heat::one_node_rise(power, conductance, capacity, time);
  });
  registry.add("heat.intermittent_one_node", "Periodic rise of one node under intermittent load",
               [](Arguments& in, Json& out) {
                 const double power = in.number("power", Quantity::power, kNotNegative);
                 const double conductance = in.number("conductance", Quantity::thermal_conductance, kPositive);
                 const double capacity = in.number("capacity", Quantity::heat_capacity, kPositive);
                 const double on = in.number("on_time", Quantity::time, kPositive);
                 const double off = in.number("off_time", Quantity::time, kNotNegative);
                 if (!in.ok()) return;
                 const auto rise = heat::intermittent_one_node(power, conductance, capacity, on, off);
                 out["peak"] = rise.peak;
                 out["trough"] = rise.trough;
               });
  registry.add("heat.two_node_linear", "Rises of oil and housing heated from ambient", [](Arguments& in, Json& out) {
    const double power = in.number("power", Quantity::power, kNotNegative);
    const double to_housing = in.number("G_oil_housing", Quantity::thermal_conductance, kPositive);
    const double to_air = in.number("G_housing_air", Quantity::thermal_conductance, kPositive);
    const double C_oil = in.number("C_oil", Quantity::heat_capacity, kPositive);
    const double C_housing = in.number("C_housing", Quantity::heat_capacity, kPositive);
    const double time = in.number("time", Quantity::time, kNotNegative);
    if (!in.ok()) return;
    const auto rise = heat::two_node_linear(power, to_housing, to_air, C_oil, C_housing, time);
    out["oil"] = rise.oil;
    out["housing"] = rise.housing;
  });
}

void add_housing_calls(Registry& registry) {
  registry.add("heat.steady_constant", "Steady temperatures under a constant loss", [](Arguments& in, Json& out) {
    const heat::Housing housing = read_housing(in, false);
    const double loss = in.number("loss", Quantity::power, kNotNegative);
    if (!in.ok()) return;
    const auto constant = [&](double) { return loss; };
    answer_steady(in, out, housing, constant);
  });
  registry.add("heat.steady_linear",
               "Steady temperatures under the loss loss_0 + slope (T_oil - ambient), never below zero",
               [](Arguments& in, Json& out) {
                 const heat::Housing housing = read_housing(in, false);
                 const double loss_0 = in.number("loss_0", Quantity::power, kNotNegative);
                 const double slope = in.number("slope", Quantity::thermal_conductance);
                 if (!in.ok()) return;
                 const auto linear = [&](double oil) {
                   return std::max(loss_0 + slope * (oil - housing.ambient_temperature), 0.0);
                 };
                 answer_steady(in, out, housing, linear);
               });
  registry.add("heat.transient_constant", "Temperatures over time under a constant loss, from ambient",
               [](Arguments& in, Json& out) {
                 const heat::Housing housing = read_housing(in, true);
                 const double loss = in.number("loss", Quantity::power, kNotNegative);
                 const std::vector<double> times = in.numbers("times", Quantity::time, kNotNegative);
                 for (std::size_t i = 1; i < times.size(); ++i) {
                   if (times[i] < times[i - 1]) in.refuse("times", "must not fall");
                 }
                 if (!in.ok()) return;
                 const auto constant = [&](double) { return loss; };
                 const heat::NodeTemperatures start{housing.ambient_temperature, housing.ambient_temperature};
                 out["oil"] = out["housing"] = Json::array();
                 for (const auto& node : heat::warm_up(housing, constant, start, times)) {
                   out["oil"].push_back(node.oil);
                   out["housing"].push_back(node.housing);
                 }
               });
}

}  // namespace

void add_heat_calls(Registry& registry) {
  add_surface_calls(registry);
  add_node_calls(registry);
  add_housing_calls(registry);
}

}  // namespace lobewise::api
