#include "engine/evidence/evaluation.h"

#include <algorithm>
#include <cmath>

#include "engine/strength/torque_cycles.h"

namespace lobewise::evidence {

double endurance(const range::OutputShaft& shaft, double diameter) {
  // The size factor is tabulated between 2.79 mm and 254 mm; a larger shaft takes its end value, a larger tensile
  // strength the 700 MPa cap that the formula itself has.
  const double d = std::clamp(diameter, 2.79e-3, 0.254);
  const Result<double> limit = strength::endurance_limit(std::clamp(shaft.tensile_strength, 200e6, 2000e6), d, 0.9);
  return limit ? *limit : 0.1 * shaft.tensile_strength;
}

strength::OverhungShaft overhung_shaft(const drive::Drive& drive, const drive::Coefficients& c, double torque,
                                       double speed) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  strength::OverhungShaft s;
  s.span = shaft.span;
  s.C_A = drive.output_inside.rating.C * c.capacity_factor;
  s.C_B = drive.output_outside.rating.C * c.capacity_factor;
  s.C0_A = drive.output_inside.rating.C_0;
  s.C0_B = drive.output_outside.rating.C_0;
  s.life_exponent = drive.output_outside.element == strength::RollingElement::ball ? strength::kBallExponent
                                                                                   : strength::kRollerExponent;
  s.speed = speed;
  s.hours = drive.requirement.life / 3600;
  s.diameter_B = shaft.seat_diameter;
  s.S_e = endurance(shaft, shaft.seat_diameter);
  s.S_ut = shaft.tensile_strength;
  s.torque_mean = torque;
  s.K_f = strength::kShoulderBending.nominal;
  s.K_fs = strength::kShoulderTorsion.nominal;
  s.axial_force = drive.requirement.axial_force;
  return s;
}

double torque_amplitude(const drive::Drive& drive, double diameter) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const double hours = drive.requirement.life / 3600;
  std::vector<strength::TorqueCycles> cycles;
  for (const demand::Cycle& cycle : drive.requirement.spectrum.cycles)
    cycles.push_back({cycle.range / 2, cycle.count * hours});
  return strength::equivalent_amplitude(cycles,
                                        strength::woehler_exponent(shaft.tensile_strength, endurance(shaft, diameter)));
}

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
  e.lives = drive::lives(drive, e.oil_temperature, c);
  e.peaks = drive::peaks(drive, requirement.demand.jam.angle.nominal, e.full.efficiency(), c);
  e.working = drive::effect_of(drive, e.moment.torque);
  e.at_start = drive::effect_of(drive, std::max(e.peaks.start, e.moment.torque));
  e.at_jam = drive::effect_of(drive, std::max(e.peaks.jam, e.moment.torque));

  const range::OutputShaft& shaft = drive.build.frame().output;
  const double radial = drive.radial_force * c.torque_factor;
  const strength::ShaftLoad load{shaft.span, shaft.span + drive.radial_position, radial, requirement.axial_force, 0};
  e.reactions = strength::reactions(load);
  e.allowable = strength::allowable_overhung(overhung_shaft(drive, c, e.moment.torque, e.moment.speed), load.position);
  const auto safety = [&](double moment, double diameter, double K_f, double K_fs) {
    strength::FatigueLoad fatigue;
    fatigue.moment_amplitude = moment;
    (requirement.reversing ? fatigue.torque_amplitude : fatigue.torque_mean) = e.moment.torque;
    fatigue.torque_amplitude = std::max(fatigue.torque_amplitude, torque_amplitude(drive, diameter) * c.torque_factor);
    fatigue.K_f = K_f;
    fatigue.K_fs = K_fs;
    return strength::goodman_safety(fatigue, diameter, endurance(shaft, diameter), shaft.tensile_strength);
  };
  e.shaft_safety = safety(e.reactions.moment_B, shaft.seat_diameter, strength::kShoulderBending.nominal,
                          strength::kShoulderTorsion.nominal);
  // At the shoulder of the shaft end the lever is the position alone; the keyway begins there.
  const double end_lever = std::max(0.0, drive.radial_position - shaft.overhang);
  e.end_safety =
      safety(radial * end_lever, shaft.diameter, strength::kKeywayBending.nominal, strength::kKeywayTorsion.nominal);
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
