#include "engine/evidence/evaluation.h"

#include <algorithm>
#include <cmath>

namespace lobewise::evidence {

Evaluation evaluate(const drive::Drive& drive, const drive::Coefficients& c, std::optional<double> oil_temperature) {
  Evaluation e;
  e.coefficients = c;
  const enquiry::Requirement& requirement = drive.requirement;
  if (oil_temperature) {
    e.oil_temperature = *oil_temperature;
  } else {
    e.warm = drive::steady(drive, requirement.ambient_high, c);
    if (e.warm && requirement.intermittent)
      e.cycle = drive::periodic(drive, requirement.ambient_high,
                                {requirement.intermittent->first, requirement.intermittent->second}, c);
    e.oil_temperature = e.cycle  ? e.cycle->oil_peak
                        : e.warm ? e.warm->oil_temperature
                                 : drive::lubricant_limit(drive.oil);
  }
  e.moment = drive.running({1, requirement.torque, requirement.speed}, c);
  e.full = drive::running_losses(drive.build, drive.tables, drive.oil, e.moment, e.oil_temperature, c);
  const drive::OutputDuty output =
      drive::output_duty(drive, e.oil_temperature, c, drive.radial_position, requirement.life);
  e.lives = drive::lives(drive, e.oil_temperature, c, output);
  e.peaks = drive::peaks(drive, requirement.demand.jam.angle.nominal * c.jam_angle_factor, e.full.efficiency(), c);
  e.working = drive::effect_of(drive, e.moment.torque);
  e.at_start = drive::effect_of(drive, std::max(e.peaks.start, e.moment.torque));
  e.at_jam = drive::effect_of(drive, std::max(e.peaks.jam, e.moment.torque));

  e.cold = drive::cold_start(drive, drive::coldest(drive, c), c);
  e.peak = drive::peak_case(drive, e.peaks, e.full, c, &e.cold);

  const range::OutputShaft& shaft = drive.build.frame().output;
  const double radial = drive.radial_force * c.torque_factor;
  const strength::ShaftLoad load{shaft.span, shaft.span + drive.radial_position, radial, requirement.axial_force, 0};
  e.reactions = strength::reactions(load);
  e.allowed = output.allowed(requirement.reliability, e.lives.hours, e.lives.log_rest(e.lives.hours));
  e.shaft_safety = output.seat().safety(radial);
  e.end_safety = output.end().safety(radial);
  e.key = strength::parallel_key({shaft.key_width, shaft.key_height, shaft.key_shaft_depth, shaft.key_length, true},
                                 e.moment.torque, shaft.diameter);
  e.slope = strength::shaft_bending(load, shaft.seat_diameter, 0).slope_B;
  return e;
}

double no_load_torque(const drive::Drive& drive, const Evaluation& e, double oil_temperature) {
  const drive::Running idle = drive.running({1, 0.0, drive.requirement.speed}, e.coefficients);
  return drive::running_losses(drive.build, drive.tables, drive.oil, idle, oil_temperature, e.coefficients)
             .places.total() /
         drive.input_speed;
}

}  // namespace lobewise::evidence
