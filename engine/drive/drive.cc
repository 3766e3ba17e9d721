#include "engine/drive/drive.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/drive/cold.h"
#include "engine/drive/job_motor.h"
#include "engine/range/bearing.h"

namespace lobewise::drive {
namespace {

/// The usual fill, or the first food-grade one where food is near (its absence shows in `lubrication`).
range::Lubricant lubricant_of(const range::Frame& frame, bool food_area) {
  if (food_area)
    for (const range::Lubricant& fill : frame.lubricants)
      if (fill.food_grade) return fill;
  return frame.lubricants.empty() ? range::Lubricant{} : frame.lubricants.front();
}

/// How the oil reaches the bearings of an upright shaft. Jet or pump and a full housing double the bearings' no-load
/// friction; a full housing wets all of the discs. Source: list of f_0 in public source code (losses/coefficients.h).
void reach_upright(Drive& drive) {
  if (drive.requirement.orientation == enquiry::Orientation::horizontal) return;
  const std::optional<range::UprightLubrication> how = drive.build.frame().upright_lubrication;
  const bool flooded = how == range::UprightLubrication::flooded;
  if (flooded || how == range::UprightLubrication::pump) drive.oil.f0_factor = 2;
  if (flooded) drive.oil.wetted_share = 1;
}

/// Torque at the output shaft that the motor of today starts with its usual spare, when this unit, which has its own
/// drag, passes it on no better than the unit of today.
double most_at_start(const Drive& drive) {
  const RunsToday& today = *drive.today;
  const ColdStart start = cold_start(drive, kNormalTemperature, {});
  const double output_speed = drive.input_speed / drive.build.ratio();
  const double at_output = today.motor_torque / kSpareStartTorque * today.motor_speed / output_speed -
                           start.drag.total() * drive.build.ratio();
  return std::max(0.0, at_output * std::min(today.passes, start.rest.efficiency));
}

}  // namespace

Speeds speeds_with(const enquiry::Requirement& requirement, double ratio, int poles,
                   std::optional<double> rated_speed) {
  const double wanted = requirement.speed * ratio;
  const double power = requirement.motor_power.value_or(requirement.torque * requirement.speed / 0.9);
  const std::optional<double> typical = typical_speed(power, requirement.frequency, poles);
  const double synchronous = 2 * kPi * requirement.frequency / (poles / 2.0);
  const double at_mains = rated_speed               ? *rated_speed
                          : requirement.motor_speed ? *requirement.motor_speed
                                                    : typical.value_or(synchronous);
  const double low = at_mains * requirement.inverter_low / requirement.frequency;
  const double high = at_mains * requirement.inverter_high / requirement.frequency;
  const double input = low < high ? std::clamp(wanted, low, high) : at_mains;
  return {poles, input, input / wanted - 1};
}

Running Drive::running(const enquiry::Block& block, const Coefficients& c) const {
  const range::OutputShaft& shaft = build.frame().output;
  Running now;
  now.torque = block.torque * c.torque_factor;
  now.speed = block.speed * (1 + speed_error);
  // The radial load of a chain, belt or pinion grows with the torque it passes on.
  const double radial = radial_force * (requirement.torque > 0 ? now.torque / requirement.torque : 1);
  now.radial_inside = std::abs(radial * radial_position / shaft.span);
  now.radial_outside = std::abs(radial * (shaft.span + radial_position) / shaft.span);
  now.axial = requirement.axial_force;
  return now;
}

std::vector<double> torques_at_stages(const Build& build, double torque) {
  std::vector<double> torques(build.stages.size());
  for (std::size_t i = torques.size(); i-- > 0;) {
    torques[i] = torque;
    torque /= build.stages[i].stage->geometry.lobes * guessed_efficiency(build);
  }
  return torques;
}

Result<Drive> assemble(const enquiry::Requirement& requirement, const Build& build, const TableSource& tables) {
  Drive drive;
  drive.requirement = requirement;
  drive.build = build;
  Errors errors;
  const auto take = [&](const range::Bearing& bearing, const char* path, strength::RollingBearing& into) {
    const Result<strength::RollingBearing> rated = range::rolling_bearing(bearing, path);
    if (rated)
      into = *rated;
    else
      errors.insert(errors.end(), rated.errors().begin(), rated.errors().end());
  };
  const range::OutputShaft& shaft = build.frame().output;
  take(shaft.bearing_inside, "output.bearing_inside", drive.output_inside);
  take(shaft.bearing_outside, "output.bearing_outside", drive.output_outside);
  const std::vector<double> torques = torques_at_stages(build, requirement.torque);
  drive.tables.resize(build.stages.size());
  for (std::size_t i = build.stages.size(); i-- > 0;) {
    const range::Stage& stage = *build.stages[i].stage;
    StageBearings bearings;
    take(stage.eccentric_bearing, "stage.eccentric_bearing", bearings.eccentric);
    take(stage.input_bearing, "stage.input_bearing", bearings.input);
    drive.bearings.insert(drive.bearings.begin(), bearings);
    Result<std::shared_ptr<const StageTable>> table = tables(stage);
    if (table)
      drive.tables[i] = shared_at(stage, **table, torques[i]);
    else
      errors.insert(errors.end(), table.errors().begin(), table.errors().end());
  }
  const Result<Oil> oil = oil_of(lubricant_of(build.frame(), requirement.food_area));
  if (!oil) errors.insert(errors.end(), oil.errors().begin(), oil.errors().end());
  if (!errors.empty()) return errors;
  drive.oil = *oil;
  drive.oil.exposed = requirement.washed_down || requirement.dusty;
  reach_upright(drive);
  drive.radial_force = requirement.radial_force;
  const double position = requirement.position >= 0 ? requirement.position : shaft.length / 2;
  drive.radial_position = shaft.overhang + position;

  JobMotor chosen = motor_for(requirement, build);
  drive.input_speed = chosen.input_speed;
  drive.speed_error = chosen.error;
  drive.today = runs_today(requirement);
  if (drive.today) bound(drive.requirement, *drive.today, most_at_start(drive));
  if (!requirement.motor_power)
    chosen = motor_with(requirement, build, chosen.poles, [&](const Motor& candidate) {
      drive.motor = candidate;
      return cold_start(drive, kNormalTemperature, {}).ratio() >= kSpareStartTorque;
    });
  drive.motor = chosen.motor ? std::optional(*chosen.motor) : std::nullopt;
  if (!chosen.motor) drive.motor_errors = chosen.motor.errors();
  drive.input_speed = chosen.input_speed;
  drive.speed_error = chosen.error;
  drive.output_speed = drive.input_speed / build.ratio();
  return drive;
}

}  // namespace lobewise::drive
