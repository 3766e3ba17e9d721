#include "engine/incumbent/unit_heat.h"

#include <cmath>

#include "engine/heat/steady.h"

namespace lobewise::incumbent {
namespace {

constexpr const char* kPractice = "common practice, no source";
// Per square metre of outer surface, as the housings of a range are usually made (docs/theory/heat.md).
constexpr double kOilToWall = 140;  // W/(m2 K): 200 on the 0.7 of the wall that is wetted
constexpr double kWallToBase = 18;  // W/(m2 K)
// The ends that the candidate's own unknowns have.
constexpr Coefficient kAir{1, 0.4, 2.5, kPractice};
constexpr Coefficient kBase{1, 0, 2.5, kPractice};
constexpr Coefficient kOil{1, 0.5, 2, kPractice};
constexpr Coefficient kFins{1, 0.85, 1.3, kPractice};

/// Nothing settles: hotter than anything that is believed.
constexpr double kRunaway = kHottest + 1;

}  // namespace

heat::Housing housing_of(const GearUnit& unit, const UnitDuty& duty) {
  heat::Housing housing;
  housing.diameter = unit.height;
  housing.area = unit.length * unit.width + 2 * unit.height * (unit.length + unit.width);
  housing.ambient_temperature = duty.ambient;
  housing.air_speed = duty.around.air_speed;
  housing.altitude = duty.around.altitude;
  housing.oil_conductance = kOilToWall * housing.area;
  housing.flange_conductance = kWallToBase * housing.area;
  if (duty.around.sun)
    housing.sun_power =
        heat::kSunAbsorptivity.nominal * heat::kSunIrradiance.nominal * unit.length * std::max(unit.width, unit.height);
  return housing;
}

double loss_at(const GearUnit& unit, double torque, double speed, const UnitDuty& duty) {
  const double at_speed = speed / duty.output_speed;
  const double idle = loss_power_at(unit, 0);
  const double load = loss_power_at(unit, torque / duty.output_torque) - idle;
  return idle * at_speed * at_speed + load * at_speed;
}

double mean_oil_loss(const GearUnit& unit, const UnitDuty& duty) {
  double mean = 0;
  const auto add = [&](const DutyPart& part) {
    const double loss = loss_at(unit, part.torque, part.speed, duty);
    const double input = part.torque * part.speed + loss;
    mean += part.time_share * (loss - (unit.belt_in_front() ? unit.losses.belt * input : 0));
  };
  if (duty.parts.empty()) add({1, duty.output_torque, duty.output_speed});
  for (const DutyPart& part : duty.parts) add(part);
  return duty.running_share * mean;
}

void estimate_temperature(GearUnit& unit, const UnitDuty& duty) {
  const double mean = mean_oil_loss(unit, duty);
  const auto settled = [&](double efficiency, double Coefficient::*good) {
    heat::Housing housing = housing_of(unit, duty);
    housing.air_speed *= kAir.*good;
    housing.flange_conductance *= kBase.*good;
    housing.oil_conductance *= kOil.*good;
    housing.fin_factor *= kFins.*good;
    const double loss = mean * (1 / efficiency - 1) / (1 / unit.efficiency.nominal - 1);
    const auto state = heat::steady_state(housing, [&](double) { return loss; });
    if (!state) return kRunaway;
    if (good == &Coefficient::nominal) {
      const double rise = state->housing_temperature - housing.ambient_temperature;
      unit.heat = HeatBalance{loss,
                              state->housing_temperature,
                              rise != 0 ? state->flow.convection / rise : 0,
                              housing.area,
                              housing.flange_conductance,
                              housing.sun_power,
                              housing.emissivity,
                              housing.oil_conductance};
    }
    return state->oil_temperature;
  };
  unit.heat.reset();
  unit.oil_temperature = {settled(unit.efficiency.nominal, &Coefficient::nominal),
                          settled(unit.efficiency.high, &Coefficient::high),
                          settled(unit.efficiency.low, &Coefficient::low), kPractice};
}

}  // namespace lobewise::incumbent
