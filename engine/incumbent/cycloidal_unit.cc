#include "engine/incumbent/cycloidal_unit.h"

#include <cmath>

#include "engine/incumbent/unit_estimates.h"
#include "engine/incumbent/unit_heat.h"

namespace lobewise::incumbent {
namespace {

constexpr const char* kSource = "our own loss model over the sizes of the demo range; ends common practice, no source";
constexpr const char* kPractice = "common practice, no source";
constexpr Coefficient kLobes{0.02, 0.01, 0.05, kSource};
constexpr Coefficient kBearings{0.005, 0.002, 0.01, kSource};
constexpr Coefficient kDrag{0.025, 0.012, 0.045, kSource};
constexpr double kReferenceSpeed = 1500 * 2 * kPi / 60;
constexpr double kMassAtOne = 0.12, kMassExponent = 0.9, kMassScatter = 0.35;
constexpr double kBoxDensity = 2200;  // kg/m3

Coefficient times(const Coefficient& c, double factor) {
  return {c.nominal * factor, c.low * factor, c.high * factor, c.source};
}

}  // namespace

GearUnit cycloidal_unit(const UnitInService& unit, const UnitDuty& duty) {
  GearUnit result;
  result.kind = unit.kind;
  result.ratio = unit.ratio.value_or(duty.input_speed / duty.output_speed);
  result.plate_torque = unit.rated_torque;
  result.plate_power = unit.rated_torque ? std::nullopt : unit.rated_power;
  result.design_torque = design_torque(unit, duty, result.assumptions);
  const int stages = unit.stages.value_or(result.ratio > kMostOfOneStage ? 2 : 1);
  // Drag goes with the speed of each eccentric.
  double speeds = 0, speed = duty.output_speed * result.ratio;
  for (int i = 0; i < stages; ++i, speed /= std::pow(result.ratio, 1.0 / stages)) speeds += speed / kReferenceSpeed;
  result.losses.teeth = times(kLobes, stages);
  result.losses.bearings = times(kBearings, stages);
  result.losses.idle = times(kDrag, speeds);
  total_losses(result, duty);
  const double mass = kMassAtOne * std::pow(result.design_torque, kMassExponent);
  result.mass = unit.mass ? Coefficient{*unit.mass, *unit.mass, *unit.mass, "stated"}
                          : Coefficient{mass, mass * (1 - kMassScatter), mass * (1 + kMassScatter), kPractice};
  result.length = result.width = result.height = std::cbrt(result.mass.nominal / kBoxDensity);
  result.output_shaft_diameter = shaft_diameter_for(result.design_torque);
  estimate_temperature(result, duty);
  return result;
}

}  // namespace lobewise::incumbent
