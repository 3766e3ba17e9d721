#include "engine/drive/shocks.h"

#include <algorithm>
#include <cmath>

#include "engine/motion/shock.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::drive {
namespace {

/// Inertia behind the reducer when the machine's own is not known: as much as the motor's at the output. Ranges travel
/// with the demand; this only keeps the closed forms defined.
double load_inertia(const Drive& drive, double motor_inertia) {
  const double known = drive.requirement.demand.inertia.value;
  return known > 0 ? known : motor_inertia;
}

motion::StartingMethod method_of(enquiry::Starting starting) {
  motion::StartingMethod method;
  switch (starting) {
    case enquiry::Starting::direct:
      break;
    case enquiry::Starting::star_delta:
      method.kind = motion::Starting::star_delta;
      break;
    case enquiry::Starting::soft_starter:
      method.kind = motion::Starting::soft_start;
      method.ramp_time = 5;  // s, common practice, no source
      break;
    case enquiry::Starting::inverter:
      method.kind = motion::Starting::inverter;
      method.ramp_time = 5;
      break;
  }
  return method;
}

Result<motion::MotorCurve> curve_of(const Motor& motor, const Coefficients& c) {
  motion::MotorCatalogue catalogue;
  catalogue.synchronous_speed = motor.synchronous_speed;
  catalogue.rated_torque = motor.rated_torque;
  catalogue.rated_speed = motor.rated_speed;
  catalogue.locked_rotor_torque = motor.rated_torque * motor.locked_rotor * c.motor_torque_factor;
  catalogue.pull_up_torque = motor.rated_torque * motor.pull_up * c.motor_torque_factor;
  catalogue.breakdown_torque = motor.rated_torque * std::max(1.05, motor.breakdown * c.motor_torque_factor);
  return motion::MotorCurve::from_catalogue(catalogue);
}

double working_efficiency(const Drive& drive, const Coefficients& c) {
  constexpr double kWarm = kZeroCelsius + 60;  // efficiency of a unit in service, only for the simulated start
  const Running now = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  return running_losses(drive.build, drive.tables, drive.oil, now, kWarm, c).efficiency();
}

motion::Scenario scenario_of(const Drive& drive, const Torsion& torsion) {
  motion::Scenario scenario;
  scenario.chain.size = 2;
  scenario.chain.inertia = {torsion.motor_inertia, torsion.load_inertia};
  motion::Link& link = scenario.chain.link[0];
  link.stiffness = torsion.stiffness;
  link.play = torsion.play;
  link.damping = motion::damping_from_ratio(motion::kDampingRatio.nominal, torsion.stiffness, torsion.motor_inertia,
                                            torsion.load_inertia);
  const demand::Demand& demand = drive.requirement.demand;
  // What would turn the shaft back is active; the rest is friction.
  scenario.load.active = std::min(demand.runback_torque.value, drive.requirement.torque);
  scenario.load.friction = drive.requirement.torque - scenario.load.active;
  scenario.tolerance = 1e-6;
  return scenario;
}

}  // namespace

Torsion torsion_of(const Drive& drive, const Coefficients& c) {
  Torsion out;
  const double ratio = drive.build.ratio();
  if (drive.motor) out.motor_inertia = drive.motor->inertia * c.motor_inertia_factor * ratio * ratio;
  double compliance = 0;
  double torque = drive.requirement.torque;
  for (std::size_t i = drive.build.stages.size(); i-- > 0;) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const double behind = drive.build.ratio_behind(i);
    const double to_output = behind * stage.geometry.lobes;
    out.motor_inertia += stage.input_inertia * to_output * to_output;
    compliance += 1 / (drive.tables[i]->stiffness(torque) * c.stiffness_factor * behind * behind);
    out.play += 0.5 * drive.tables[i]->lost_motion * c.play_factor / behind;
    torque /= stage.geometry.lobes;
  }
  out.stiffness = 1 / compliance;
  out.load_inertia = load_inertia(drive, out.motor_inertia);
  out.natural_frequency = motion::natural_frequency(out.stiffness, out.motor_inertia, out.load_inertia);
  return out;
}

Peaks peaks(const Drive& drive, double jam_angle, const Coefficients& c) {
  const Torsion t = torsion_of(drive, c);
  const double speed = drive.output_speed;
  const double working = drive.requirement.torque * c.torque_factor;
  Peaks out;
  if (drive.motor) {
    double pull = drive.motor->rated_torque * drive.motor->locked_rotor * c.motor_torque_factor * drive.build.ratio();
    if (drive.requirement.starting == enquiry::Starting::star_delta) pull *= motion::kStarFactor.nominal;
    if (drive.requirement.starting == enquiry::Starting::soft_starter ||
        drive.requirement.starting == enquiry::Starting::inverter)
      pull = std::min(pull, motion::kInverterTorqueLimit.nominal * drive.motor->rated_torque * drive.build.ratio());
    // All the play to cross, then the spring; the load holds against it.
    out.start = std::max(
        pull, motion::start_through_play(pull, t.motor_inertia, t.load_inertia, t.stiffness, 2 * t.play).peak_torque);
  }
  out.jam = motion::jam_within_angle(speed, t.stiffness, t.motor_inertia, jam_angle, working);
  out.jam_rigid = motion::jam_linear(speed, t.stiffness, t.motor_inertia, working, motion::JamDrive::constant);
  if (drive.requirement.demand.jam.slip_torque)
    out.jam = std::min(out.jam, std::max(working, *drive.requirement.demand.jam.slip_torque));
  return out;
}

double pin_bending_stress(const range::Stage& stage, double force) {
  const auto support = stage.pins_guided ? strength::PinSupport::guided : strength::PinSupport::cantilever;
  return strength::pin_bending(force, 2 * stage.output_pin_radius, stage.pin_lever_far, support).stress;
}

PeakEffect effect_of(const Drive& drive, double torque) {
  PeakEffect out;
  out.bearing_static = 1e9;
  double at = torque;
  for (std::size_t i = drive.build.stages.size(); i-- > 0;) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const StageTable& table = *drive.tables[i];
    out.lobe_pressure = std::max(out.lobe_pressure, table.pressure_at(at, &MeshLevel::lobe_pressure));
    out.pin_pressure = std::max(out.pin_pressure, table.pressure_at(at, &MeshLevel::pin_pressure));
    out.pin_stress = std::max(out.pin_stress, pin_bending_stress(stage, table.at(at, &MeshLevel::pin_force)));
    out.bearing_static = std::min(out.bearing_static,
                                  drive.bearings[i].eccentric.rating.C_0 / table.at(at, &MeshLevel::bearing_largest));
    if (i + 1 == drive.build.stages.size())
      out.loaded = std::min<double>(table.at(at, &MeshLevel::loaded_mean), stage.geometry.rollers());
    at /= stage.geometry.lobes;
  }
  const double d = drive.build.frame().output.diameter;
  out.shaft_stress = std::sqrt(3.0) * 16 * torque / (kPi * d * d * d);
  return out;
}

Result<motion::Outcome> simulate_start(const Drive& drive, const Coefficients& c) {
  if (!drive.motor) return drive.motor_errors;
  const Torsion torsion = torsion_of(drive, c);
  const Result<motion::MotorCurve> curve = curve_of(*drive.motor, c);
  if (!curve) return curve.errors();
  motion::Scenario scenario = scenario_of(drive, torsion);
  scenario.drive.motor = *curve;
  scenario.drive.ratio = drive.build.ratio();
  scenario.drive.efficiency = working_efficiency(drive, c);
  scenario.drive.starting = method_of(drive.requirement.starting);
  scenario.flanks = motion::InitialFlanks::opposite;
  // Long enough for a heavy start: rigid run-up on the rated torque as the measure.
  const double accelerating =
      std::max(0.25, drive.motor->pull_up - 0.8) * drive.motor->rated_torque * drive.build.ratio();
  const double run_up = (torsion.motor_inertia + torsion.load_inertia) * drive.output_speed / accelerating;
  scenario.duration = std::clamp(3 * run_up, 0.3, 20.0) + 1.5 * scenario.drive.starting.ramp_time;
  scenario.sample_interval = scenario.duration / 400;
  return motion::simulate(scenario);
}

Result<motion::Outcome> simulate_jam(const Drive& drive, double jam_angle, const Coefficients& c) {
  const Torsion torsion = torsion_of(drive, c);
  motion::Scenario scenario = scenario_of(drive, torsion);
  scenario.drive.torque = drive.requirement.torque;
  scenario.speed = drive.output_speed;
  scenario.flanks = motion::InitialFlanks::wound;
  scenario.wound_torque = drive.requirement.torque;
  const double stop_time = 2 * jam_angle / drive.output_speed;
  const double period = 2 * kPi * std::sqrt(torsion.motor_inertia / torsion.stiffness);
  scenario.duration = 0.1 * period + stop_time + 1.5 * period;
  scenario.events = {{motion::EventKind::jam, 0.1 * period, jam_angle}};
  scenario.sample_interval = scenario.duration / 400;
  return motion::simulate(scenario);
}

}  // namespace lobewise::drive
