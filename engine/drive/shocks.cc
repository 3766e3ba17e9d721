#include "engine/drive/shocks.h"

#include <algorithm>
#include <cmath>

#include "engine/motion/shock.h"
#include "engine/strength/shaft.h"

namespace lobewise::drive {
namespace {

/// Inertia behind the reducer when the machine's own is not known: as much as the motor's at the output. Ranges travel
/// with the demand; this only keeps the closed forms defined.
double load_inertia(const Drive& drive, double motor_inertia, const Coefficients& c) {
  const double known = drive.requirement.demand.inertia.value;
  return known > 0 ? known * c.load_inertia_factor : motor_inertia;
}

double speed_share(const Drive& drive) {
  return drive.requirement.starting == enquiry::Starting::inverter && drive.motor
             ? drive.input_speed / drive.motor->rated_speed
             : 1.0;
}

double working_efficiency(const Drive& drive, const Coefficients& c) {
  constexpr double kWarm = kZeroCelsius + 60;  // efficiency of a unit in service, only for the simulated start
  const Running now = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  return running_losses(drive.build, drive.tables, drive.oil, now, kWarm, c).efficiency();
}

/// Torque of the load that would turn the shaft back; the rest is friction.
double active_load(const Drive& drive) {
  return std::min(drive.requirement.demand.runback_torque.value, drive.requirement.torque);
}

/// Output behind the ideal in one stage, without what the flanks are apart [rad].
struct StageTwist {
  const StageTable& table;
  double touching;  ///< rotation at which the flanks touch: the two lowest levels, carried on to no torque

  explicit StageTwist(const StageTable& of) : table(of) {
    const MeshLevel &first = of.levels[0], &second = of.levels[1];
    const double slope = (second.rotation - first.rotation) / (second.torque - first.torque);
    touching = std::clamp(first.rotation - slope * first.torque, 0.0, first.rotation);
  }
  [[nodiscard]] double operator()(double torque) const {
    const MeshLevel& first = table.levels[0];
    if (torque < first.torque) return (first.rotation - touching) * torque / first.torque;
    return table.at(torque, &MeshLevel::rotation) - touching;
  }
};

double shaft_compliance(const Drive& drive, const Coefficients& c) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  double compliance = 1 / strength::torsional_stiffness(shaft.seat_diameter, shaft.span + shaft.overhang) +
                      1 / strength::torsional_stiffness(shaft.diameter, shaft.length / 2);
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const double to_output = drive.build.ratio_behind(i) * stage.geometry.lobes;
    compliance +=
        1 / (strength::torsional_stiffness(stage.input_shaft_diameter, stage.input_span) * to_output * to_output);
  }
  const enquiry::Coupled& coupled = drive.requirement.coupled;
  const double ratio = drive.build.ratio();
  if (coupled.link_stiffness) compliance += 1 / (*coupled.link_stiffness * c.link_factor);
  if (coupled.motor_coupling) compliance += 1 / (*coupled.motor_coupling * ratio * ratio);
  return compliance;
}

/// @param shock  torque expected at the peak: the spring meets the characteristic there and at the working torque
motion::Scenario scenario_of(const Drive& drive, const Coefficients& c, double shock) {
  const Torsion torsion = torsion_of(drive, c);
  const motion::Characteristic chain = characteristic_of(drive, c);
  motion::Scenario scenario;
  scenario.chain.size = 2;
  scenario.chain.inertia = {torsion.motor_inertia, torsion.load_inertia};
  motion::Link& link = scenario.chain.link[0];
  const double torque = drive.requirement.torque;
  const motion::CubicSpring spring = motion::cubic_through(chain, torque, std::max(2 * torque, shock));
  link.stiffness = spring.linear;
  link.cubic = spring.cubic;
  link.play = chain.free_angle();
  link.damping = motion::damping_from_ratio(motion::kDampingRatio.nominal * c.damping_factor, torsion.stiffness,
                                            torsion.motor_inertia, torsion.load_inertia);
  scenario.load.active = active_load(drive);
  scenario.load.friction = drive.requirement.torque - scenario.load.active;
  scenario.drive.ratio = drive.build.ratio();
  scenario.tolerance = 1e-6;
  return scenario;
}

Result<motion::Scenario> start_scenario(const Drive& drive, const Coefficients& c, const motion::StartingMethod& way) {
  if (!drive.motor) return drive.motor_errors;
  const Result<motion::MotorCurve> curve = motor_curve_of(drive, c);
  if (!curve) return curve.errors();
  const double efficiency = working_efficiency(drive, c);
  motion::Scenario scenario = scenario_of(drive, c, peaks(drive, 0, efficiency, c).start);
  scenario.drive.motor = *curve;
  scenario.drive.efficiency = efficiency;
  scenario.drive.starting = way;
  const double share = start_play(drive).nominal;
  scenario.flanks = share > 0.75   ? motion::InitialFlanks::opposite
                    : share > 0.25 ? motion::InitialFlanks::middle
                                   : motion::InitialFlanks::wound;
  scenario.wound_torque = active_load(drive);
  return scenario;
}

Result<motion::Outcome> simulate_start_by(const Drive& drive, const Coefficients& c,
                                          const motion::StartingMethod& way) {
  Result<motion::Scenario> scenario = start_scenario(drive, c, way);
  if (!scenario) return scenario.errors();
  // Long enough for a heavy start: rigid run-up on the rated torque as the measure.
  const double accelerating =
      std::max(0.25, drive.motor->pull_up - 0.8) * drive.motor->rated_torque * drive.build.ratio();
  const double inertia = scenario->chain.inertia[0] + scenario->chain.inertia[1];
  double run_up = inertia * drive.output_speed / accelerating;
  if (way.kind == motion::Starting::star_delta) run_up *= 3;
  scenario->duration = std::clamp(3 * run_up, 0.3, 20.0) + 1.5 * way.ramp_time;
  scenario->sample_interval = scenario->duration / 400;
  scenario->after_start = 1.5;  // to be seen at speed, and no more
  return motion::simulate(*scenario);
}

/// Running at full load when something happens after a tenth of a period; followed over several periods.
Result<motion::Outcome> simulate_event(const Drive& drive, const Coefficients& c, bool on_mains,
                                       std::vector<motion::Event> events, double lasting, double shock) {
  motion::Scenario scenario = scenario_of(drive, c, shock);
  scenario.speed = drive.output_speed;
  scenario.flanks = motion::InitialFlanks::wound;
  scenario.wound_torque = drive.requirement.torque;
  scenario.drive.torque = drive.requirement.torque;
  if (on_mains && drive.motor) {
    const Result<motion::MotorCurve> curve = motor_curve_of(drive, c);
    if (!curve) return curve.errors();
    scenario.drive.motor = *curve;
    scenario.drive.efficiency = working_efficiency(drive, c);
    scenario.drive.starting = starting_method(drive.requirement.starting);
  }
  const Torsion torsion = torsion_of(drive, c);
  const double period = 2 * kPi * std::sqrt(torsion.motor_inertia / torsion.stiffness);
  for (motion::Event& event : events) event.time = 0.1 * period;
  scenario.duration = 0.1 * period + lasting + 1.5 * period;
  scenario.sample_interval = scenario.duration / 400;
  scenario.events = std::move(events);
  return motion::simulate(scenario);
}

}  // namespace

motion::StartingMethod starting_method(enquiry::Starting starting) {
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

Result<motion::MotorCurve> motor_curve_of(const Drive& drive, const Coefficients& c) {
  if (!drive.motor) return drive.motor_errors;
  const Motor& motor = *drive.motor;
  motion::MotorCatalogue catalogue;
  const double slip = motor.synchronous_speed - motor.rated_speed;
  catalogue.synchronous_speed = motor.synchronous_speed * speed_share(drive);
  catalogue.rated_torque = motor.rated_torque;
  catalogue.rated_speed = catalogue.synchronous_speed - slip;
  catalogue.locked_rotor_torque = motor.rated_torque * motor.locked_rotor * c.motor_torque_factor;
  catalogue.pull_up_torque = motor.rated_torque * motor.pull_up * c.motor_torque_factor;
  catalogue.breakdown_torque = motor.rated_torque * std::max(1.05, motor.breakdown * c.motor_torque_factor);
  return motion::MotorCurve::from_catalogue(catalogue);
}

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
    out.lost_motion += drive.tables[i]->lost_motion(torque) * c.play_factor / behind;
    torque /= stage.geometry.lobes;
  }
  out.mesh_stiffness = 1 / compliance;
  out.shaft_stiffness = 1 / shaft_compliance(drive, c);
  out.stiffness = motion::in_series(out.mesh_stiffness, out.shaft_stiffness);
  out.load_inertia = load_inertia(drive, out.motor_inertia, c);
  out.natural_frequency = motion::natural_frequency(out.stiffness, out.motor_inertia, out.load_inertia);
  return out;
}

motion::Characteristic characteristic_of(const Drive& drive, const Coefficients& c) {
  const double shafts = shaft_compliance(drive, c);
  double play = 0;
  std::vector<StageTwist> twists;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    twists.emplace_back(*drive.tables[i]);
    play += twists[i].touching * c.play_factor / drive.build.ratio_behind(i);
  }
  std::vector<motion::TwistPoint> points;
  for (const MeshLevel& level : drive.tables.back()->levels) {
    double twist = shafts * level.torque;
    for (std::size_t i = 0; i < twists.size(); ++i) {
      const double behind = drive.build.ratio_behind(i);
      twist += twists[i](level.torque / behind) / (behind * c.stiffness_factor);
    }
    points.push_back({level.torque, twist});
  }
  return {play, std::move(points)};
}

Coefficient start_play(const Drive& drive) {
  if (drive.requirement.reversing) return {1, 1, 1, "derived: a reversal crosses all the play"};
  if (active_load(drive) > 0) return {0, 0, 1, "derived: a load that would run back holds the flanks together"};
  return {0.5, 0, 1, "derived: where the flanks lie after a stop is chance"};
}

namespace {

/// What holds a drive back while it starts.
struct Resistance {
  double efficiency = 1;  ///< of the reducer
  double breakaway = 0;   ///< of the machine, at least what it takes while it runs [N m]
  double drag = 0;        ///< of the oil once it turns, at the output [N m]
  double creeping = 0;    ///< of the oil while the flanks meet, at the output, less than the motor gives [N m]
};

/// Fills all of a start; the rest is left alone. Precondition: there is a motor.
void fill_start(const Drive& drive, const Torsion& t, const motion::Characteristic& chain, const Resistance& against,
                const Coefficients& c, Peaks& out) {
  const enquiry::Requirement& requirement = drive.requirement;
  const double working = requirement.torque * c.torque_factor;
  const Motor& motor = *drive.motor;
  const motion::StartingMethod way = starting_method(requirement.starting);
  const double at_output = motor.rated_torque * drive.build.ratio() * against.efficiency;
  const double locked_rotor = motor.locked_rotor * c.motor_torque_factor * at_output;
  const double breakdown = std::max(0.0, motor.breakdown * c.motor_torque_factor * at_output - against.drag);
  const double limit = way.torque_limit * at_output;
  const double sum = t.motor_inertia + t.load_inertia;
  const double held = active_load(drive);
  const double breakaway = against.breakaway;
  /// Torque of the chain while both inertias speed up under a torque of the motor.
  const auto speeding_up = [&](double pull) { return (pull * t.load_inertia + working * t.motor_inertia) / sum; };
  out.pull_jam = std::max(working, breakdown);
  double wound = std::min(held, locked_rotor);
  bool slowly = false;  // the torque grows over many swings of the chain
  switch (way.kind) {
    case motion::Starting::direct:
      out.pull = locked_rotor - against.creeping;
      break;
    case motion::Starting::star_delta:
      // Delta comes on near breakdown, after a pause that let the chain go slack: it swings to twice its mean.
      out.pull = locked_rotor * way.star_factor - against.creeping;
      out.speeding_up = speeding_up(breakdown);
      out.run_up = 2 * out.speeding_up;
      break;
    case motion::Starting::soft_start:
      out.pull = locked_rotor * way.initial_voltage * way.initial_voltage - against.creeping;
      out.run_up = out.speeding_up = std::max(breakaway, speeding_up(breakdown));
      break;
    case motion::Starting::inverter:
      out.pull = std::min(breakaway, limit);
      out.run_up = out.speeding_up =
          std::min(limit - against.drag, working + t.load_inertia * drive.output_speed / way.ramp_time);
      out.pull_jam = std::max(working, std::min(breakdown, limit));
      wound = out.pull;
      slowly = true;
      break;
  }
  wound = std::min(wound, slowly ? out.pull : held);
  out.breakaway = std::max(breakaway, wound);
  const auto first = [&](double share) {
    FirstSwing swing;
    swing.play = slowly ? 0 : share * 2 * chain.free_angle();
    swing.wound = slowly || swing.play == 0 ? wound : 0;
    swing.peak = motion::start_peak(chain, out.pull, swing.play, swing.wound, t.motor_inertia, t.load_inertia,
                                    {out.breakaway, working});
    return swing;
  };
  out.first = first(std::clamp(start_play(drive).nominal + c.start_play_shift, 0.0, 1.0));
  out.first_bound = first(1);
  out.start = out.first.peak;
  out.start_bound = out.first_bound.peak;
  if (way.kind == motion::Starting::direct && breakdown > working) {
    // What is left of the first swing when the motor passes its breakdown.
    const double time = 0.8 * sum * drive.output_speed / (0.5 * (locked_rotor + breakdown) - working);
    const double swing = std::max(0.0, out.start - speeding_up(locked_rotor));
    const double left =
        time > 0 ? std::exp(-motion::kDampingRatio.nominal * c.damping_factor * t.natural_frequency * time) : 1;
    out.speeding_up = speeding_up(breakdown);
    out.run_up = out.speeding_up + swing * left;
  }
  out.start = std::max(out.start, out.run_up);
  out.start_bound = std::max(out.start_bound, out.start);
}

}  // namespace

Peaks peaks(const Drive& drive, double jam_angle, double efficiency, const Coefficients& c) {
  const Torsion t = torsion_of(drive, c);
  const motion::Characteristic chain = characteristic_of(drive, c);
  const enquiry::Requirement& requirement = drive.requirement;
  const double working = requirement.torque * c.torque_factor;
  Peaks out;
  out.pull_jam = working;
  if (drive.motor) {
    const double breakaway = std::max(working, requirement.demand.starting_torque.value * c.torque_factor);
    fill_start(drive, t, chain, {efficiency, breakaway, 0}, c, out);
    // Reversed at full speed on the mains; a motor that brakes passes on T i/eta. A soft starter and an inverter bring
    // it to rest first.
    const motion::Starting way = starting_method(requirement.starting).kind;
    if (way == motion::Starting::direct || way == motion::Starting::star_delta)
      out.plugging =
          motion::reversal_peak(chain, out.pull / (efficiency * efficiency), working, t.motor_inertia, t.load_inertia);
  }
  out.jam = motion::jam_within(chain, out.pull_jam, working, t.motor_inertia, drive.output_speed, jam_angle);
  out.jam_rigid =
      std::max(out.jam, motion::jam_at_once(chain, out.pull_jam, working, t.motor_inertia, drive.output_speed));
  if (requirement.demand.jam.slip_torque)
    out.jam = std::min(out.jam, std::max(working, *requirement.demand.jam.slip_torque));
  return out;
}

ColdPeak cold_peak(const Drive& drive, const ColdStart& cold, const Coefficients& c) {
  const double working = drive.requirement.torque * c.torque_factor;
  const double ratio = drive.build.ratio();
  const double per_input = ratio * cold.rest.efficiency;  // output torque that a torque of the motor gives
  const double most = cold.drag.total();
  const Torsion t = torsion_of(drive, c);
  const motion::Characteristic chain = characteristic_of(drive, c);
  Resistance against{cold.rest.efficiency, std::max(working, cold.rest.machine), per_input * most, 0};
  Peaks start;
  fill_start(drive, t, chain, against, c, start);
  ColdPeak out;
  // An inverter brings the torque up so slowly that nothing meets with speed.
  if (drive.requirement.starting != enquiry::Starting::inverter) {
    // Largest speed of the motor's side before the chain stops it, by energy; half of it is below the mean over the
    // way, by angle 2/3 while it is free and pi/4 while it winds up.
    const double play = std::clamp(start_play(drive).nominal + c.start_play_shift, 0.0, 1.0) * 2 * chain.free_angle();
    const double speed = std::sqrt((2 * start.pull * play + start.pull * start.pull / t.stiffness) / t.motor_inertia);
    const double drag = per_input * ColdTurning(drive, cold.temperature, c).at(0.5 * speed * ratio).total();
    // What it gives less what the oil takes at the speed that is left: one step from above, which is enough where the
    // drag grows at most as the speed does.
    against.creeping = start.pull * drag / (start.pull + drag);
    out.drag = against.creeping / per_input;
    fill_start(drive, t, chain, against, c, start);
  }
  const bool later = start.run_up >= start.start;
  out.pull = start.pull;
  out.torque = start.start;
  out.first = start.first;
  out.breakaway = start.breakaway;
  out.speeding_up = start.speeding_up;
  out.run_up = start.run_up;
  out.given = later ? start.pull_jam / per_input + most : start.pull / per_input + out.drag;
  out.input = 1 / per_input + (later ? most : out.drag) / out.torque;
  return out;
}

PeakEffect effect_of(const Drive& drive, double torque) {
  PeakEffect out;
  out.bearing_static = 1e9;
  double at = torque;
  for (std::size_t i = drive.build.stages.size(); i-- > 0;) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const StageTable& table = *drive.tables[i];
    const double hard = at * table.hardest_disc();
    out.lobe_pressure = std::max(out.lobe_pressure, table.pressure_at(hard, &MeshLevel::lobe_pressure));
    out.pin_pressure = std::max(out.pin_pressure, table.pressure_at(hard, &MeshLevel::pin_pressure));
    out.pin_stress = std::max(out.pin_stress, hardest_pin(stage, table, at).stress);
    out.bearing_static = std::min(out.bearing_static,
                                  drive.bearings[i].eccentric.rating.C_0 / table.at(hard, &MeshLevel::bearing_largest));
    if (i + 1 == drive.build.stages.size())
      out.loaded = std::min<double>(table.at(at, &MeshLevel::loaded_mean), stage.geometry.rollers());
    at /= stage.geometry.lobes;
  }
  return out;
}

double ShockRun::peak() const { return std::max(outcome->links[0].highest_torque, -outcome->links[0].lowest_torque); }

Result<motion::Outcome> simulate_start(const Drive& drive, const Coefficients& c) {
  return simulate_start_by(drive, c, starting_method(drive.requirement.starting));
}

Result<motion::Outcome> simulate_first_moments(const Drive& drive, const Coefficients& c) {
  const motion::StartingMethod way = starting_method(drive.requirement.starting);
  Result<motion::Scenario> scenario = start_scenario(drive, c, way);
  if (!scenario) return scenario.errors();
  const Torsion t = torsion_of(drive, c);
  const double pull = drive.motor->rated_torque * drive.build.ratio();
  const double crossing = 2 * std::sqrt(4 * scenario->chain.link[0].play * t.motor_inertia / pull);
  scenario->duration = std::max(way.ramp_time, crossing + 8 * 2 * kPi / t.natural_frequency);
  scenario->sample_interval = scenario->duration / 600;
  return motion::simulate(*scenario);
}

Result<motion::Outcome> simulate_jam(const Drive& drive, double jam_angle, const Coefficients& c) {
  const Torsion t = torsion_of(drive, c);
  const double pull = peaks(drive, jam_angle, working_efficiency(drive, c), c).pull_jam;
  const double shock = motion::jam_within(characteristic_of(drive, c), pull, drive.requirement.torque, t.motor_inertia,
                                          drive.output_speed, jam_angle);
  return simulate_event(drive, c, true, {{motion::EventKind::jam, 0, jam_angle}}, 2 * jam_angle / drive.output_speed,
                        shock);
}

std::vector<ShockRun> simulate_events(const Drive& drive, const Result<motion::Outcome>& start, const Coefficients& c) {
  std::vector<ShockRun> runs;
  if (!drive.motor) return runs;
  constexpr struct {
    enquiry::Starting way;
    const char *id, *label;
  } kWays[] = {{enquiry::Starting::direct, "direct", "start direct on line"},
               {enquiry::Starting::star_delta, "star_delta", "start in star, then delta"},
               {enquiry::Starting::soft_starter, "soft_start", "start with a soft starter"},
               {enquiry::Starting::inverter, "inverter", "start on an inverter's ramp"}};
  for (const auto& way : kWays)
    runs.push_back(
        {way.id, way.label,
         way.way == drive.requirement.starting ? start : simulate_start_by(drive, c, starting_method(way.way))});
  const Torsion t = torsion_of(drive, c);
  const double period = 2 * kPi / t.natural_frequency;
  const double shock = peaks(drive, 0, working_efficiency(drive, c), c).start_bound;
  const double brake = kBrakeShare.nominal * drive.motor->rated_torque * drive.build.ratio();
  runs.push_back(
      {"emergency_stop", "emergency stop with the brake of a brake motor",
       simulate_event(drive, c, false, {{motion::EventKind::motor_off, 0, 0}, {motion::EventKind::brake, 0, brake}},
                      8 * period, shock)});
  runs.push_back({"reversal", "reversal at full speed (plugging)",
                  simulate_event(drive, c, true, {{motion::EventKind::reversal, 0, 0}}, 8 * period, shock)});
  runs.push_back({"load_drop", "loss of the load at full torque",
                  simulate_event(drive, c, true, {{motion::EventKind::load_drop, 0, 0}}, 8 * period, shock)});
  return runs;
}

}  // namespace lobewise::drive
