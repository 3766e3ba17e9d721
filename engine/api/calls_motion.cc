// motion.*: motor, run-up, shock in the drive.
#include "engine/api/calls.h"
#include "engine/motion/run_up.h"
#include "engine/motion/shock.h"
#include "engine/motion/simulate.h"

namespace lobewise::api {
namespace {

constexpr model::Limits kSlip{1e-300, 1};
constexpr model::Limits kRatioFromOne{1, 1e6};

/// Catalogue of a motor, fields of `in` itself or of a record inside it.
motion::MotorCatalogue read_motor(Arguments& in) {
  motion::MotorCatalogue motor;
  motor.synchronous_speed = in.number("synchronous_speed", Quantity::angular_speed, kPositive);
  motor.rated_torque = in.number("rated_torque", Quantity::torque, kPositive);
  motor.rated_speed = in.number("rated_speed", Quantity::angular_speed, kPositive);
  motor.locked_rotor_torque = in.number("locked_rotor_torque", Quantity::torque, kPositive);
  motor.pull_up_torque = in.number("pull_up_torque", Quantity::torque, kPositive);
  motor.breakdown_torque = in.number("breakdown_torque", Quantity::torque, kPositive);
  motor.pull_up_share = in.number_or("pull_up_share", Quantity::share, motor.pull_up_share, {0.01, 0.99});
  return motor;
}

void add_motor_calls(Registry& registry) {
  registry.add("motion.breakdown_slip", "Slip at breakdown from the rated point", [](Arguments& in, Json& out) {
    const double slip = in.number("rated_slip", Quantity::number, kSlip);
    const double ratio = in.number("breakdown_ratio", Quantity::number, kRatioFromOne);
    if (in.ok()) out["slip"] = motion::breakdown_slip(slip, ratio);
  });
  registry.add("motion.motor_torque", "Torque of a motor at a speed", [](Arguments& in, Json& out) {
    const double speed = in.number("speed", Quantity::angular_speed);
    const motion::MotorCatalogue catalogue = read_motor(in);
    const double voltage = in.number_or("voltage_ratio", Quantity::share, 1, {0, 2});
    if (!in.ok()) return;
    const auto motor = motion::MotorCurve::from_catalogue(catalogue);
    if (!motor) return in.refuse(motor.errors());
    out["torque"] = voltage * voltage * motor->torque(speed);
  });
  registry.add("motion.kloss_run_up_time", "Run-up time of a pure Kloss motor without load",
               [](Arguments& in, Json& out) {
                 const double inertia = in.number("inertia", Quantity::inertia, kPositive);
                 const double speed = in.number("synchronous_speed", Quantity::angular_speed, kPositive);
                 const double torque = in.number("breakdown_torque", Quantity::torque, kPositive);
                 const double slip = in.number("breakdown_slip", Quantity::number, kPositive);
                 const double end = in.number("slip_end", Quantity::number, kSlip);
                 if (in.ok()) out["time"] = motion::kloss_run_up_time(inertia, speed, torque, slip, end);
               });
  registry.add("motion.run_up_time", "Run-up time as one rigid body; load torque stated at the rated speed",
               [](Arguments& in, Json& out) {
                 const double inertia = in.number("inertia", Quantity::inertia, kPositive);
                 Arguments record = in.record("motor");
                 const motion::MotorCatalogue catalogue = read_motor(record);
                 in.absorb(record);
                 motion::SpeedLoad load;
                 load.torque = in.number_or("load_torque", Quantity::torque, 0, kNotNegative);
                 load.exponent = in.number_or("load_exponent", Quantity::number, 0, kNotNegative);
                 const double final_speed = in.number("final_speed", Quantity::angular_speed, kPositive);
                 if (!in.ok()) return;
                 load.reference_speed = catalogue.rated_speed;
                 const auto motor = motion::MotorCurve::from_catalogue(catalogue);
                 if (!motor) return in.refuse(motor.errors());
                 const auto result = motion::run_up(inertia, *motor, load, final_speed);
                 if (!result) return in.refuse(result.errors());
                 out["time"] = result->time;
                 out["rotor_heat"] = result->rotor_heat;
               });
  registry.add("motion.brake_stop", "Stop under constant braking", [](Arguments& in, Json& out) {
    const double inertia = in.number("inertia", Quantity::inertia, kPositive);
    const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
    const double brake = in.number("brake_torque", Quantity::torque, kNotNegative);
    const double load = in.number_or("load_torque", Quantity::torque, 0);
    if (brake + load <= 0) in.refuse("brake_torque", "brake and load together must slow the drive down");
    if (!in.ok()) return;
    const motion::BrakeStop stop = motion::brake_stop(inertia, speed, brake, load);
    out["time"] = stop.time;
    out["angle"] = stop.angle;
    out["brake_heat"] = stop.heat;
  });
}

struct Near {
  double speed = 0, stiffness = 1, inertia = 1;
};
Near read_near(Arguments& in) {
  return {in.number("speed", Quantity::angular_speed, kNotNegative),
          in.number("stiffness", Quantity::torsional_stiffness, kPositive),
          in.number("inertia", Quantity::inertia, kPositive)};
}

void add_jam_calls(Registry& registry) {
  registry.add("motion.jam_linear", "Peak torque of a jam that stops the output at once", [](Arguments& in, Json& out) {
    const Near near = read_near(in);
    const double initial = in.number_or("initial_torque", Quantity::torque, 0, kNotNegative);
    const std::string drive = in.text_or("drive", "constant", {"constant", "off", "unwound"});
    if (!in.ok()) return;
    const auto kind = drive == "constant" ? motion::JamDrive::constant
                      : drive == "off"    ? motion::JamDrive::off
                                          : motion::JamDrive::unwound;
    out["peak_torque"] = motion::jam_linear(near.speed, near.stiffness, near.inertia, initial, kind);
  });
  registry.add("motion.damped_jam", "Peak spring torque of a jam of a damped chain without drive",
               [](Arguments& in, Json& out) {
                 const Near near = read_near(in);
                 const double damping = in.number("damping", Quantity::number, kNotNegative);
                 if (in.ok()) {
                   out["peak_torque"] = motion::damped_jam(near.speed, near.stiffness, near.inertia, damping);
                 }
               });
  registry.add("motion.jam_after_play", "Jam with open flanks", [](Arguments& in, Json& out) {
    const Near near = read_near(in);
    const double play = in.number("play", Quantity::angle, kNotNegative);
    const double torque = in.number("drive_torque", Quantity::torque, kNotNegative);
    if (!in.ok()) return;
    const motion::Impact impact = motion::jam_after_play(near.speed, near.stiffness, near.inertia, play, torque);
    out["impact_speed"] = impact.impact_speed;
    out["peak_torque"] = impact.peak_torque;
  });
  registry.add("motion.jam_hardening", "Jam against a hardening chain without drive", [](Arguments& in, Json& out) {
    const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
    const double inertia = in.number("inertia", Quantity::inertia, kPositive);
    const double linear = in.number("linear", Quantity::torsional_stiffness, kPositive);
    const double cubic = in.number_or("cubic", Quantity::number, 0, kNotNegative);
    if (in.ok()) out["peak_torque"] = motion::jam_hardening(speed, inertia, linear, cubic);
  });
  registry.add("motion.jam_within_angle", "Jam that stops the output within an angle", [](Arguments& in, Json& out) {
    const Near near = read_near(in);
    const double angle = in.number("angle", Quantity::angle, kNotNegative);
    const double initial = in.number_or("initial_torque", Quantity::torque, 0, kNotNegative);
    if (in.ok()) {
      out["peak_torque"] = motion::jam_within_angle(near.speed, near.stiffness, near.inertia, angle, initial);
    }
  });
}

void add_swing_calls(Registry& registry) {
  registry.add("motion.natural_frequency", "Natural frequency of two inertias on one spring",
               [](Arguments& in, Json& out) {
                 const double stiffness = in.number("stiffness", Quantity::torsional_stiffness, kPositive);
                 const double inertia_1 = in.number("inertia_1", Quantity::inertia, kPositive);
                 const double inertia_2 = in.number("inertia_2", Quantity::inertia, kPositive);
                 if (in.ok()) out["omega"] = motion::natural_frequency(stiffness, inertia_1, inertia_2);
               });
  registry.add("motion.step_torque", "Torque suddenly on one of two inertias", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque);
    const double inertia_1 = in.number("inertia_1", Quantity::inertia, kPositive);
    const double inertia_2 = in.number("inertia_2", Quantity::inertia, kPositive);
    if (!in.ok()) return;
    const motion::StepResponse response = motion::step_torque(torque, inertia_1, inertia_2);
    out["mean_torque"] = response.mean_torque;
    out["peak_torque"] = response.peak_torque;
  });
  registry.add("motion.start_through_play", "The same through play", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque, kNotNegative);
    const double inertia_1 = in.number("inertia_1", Quantity::inertia, kPositive);
    const double inertia_2 = in.number("inertia_2", Quantity::inertia, kPositive);
    const double stiffness = in.number("stiffness", Quantity::torsional_stiffness, kPositive);
    const double play = in.number("play", Quantity::angle, kNotNegative);
    if (!in.ok()) return;
    const motion::Impact impact = motion::start_through_play(torque, inertia_1, inertia_2, stiffness, play);
    out["impact_speed"] = impact.impact_speed;
    out["peak_torque"] = impact.peak_torque;
  });
  registry.add("motion.load_drop", "Load torque vanishes while the drive keeps pulling", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque);
    const double inertia_1 = in.number("inertia_1", Quantity::inertia, kPositive);
    const double inertia_2 = in.number("inertia_2", Quantity::inertia, kPositive);
    if (!in.ok()) return;
    const motion::LoadDrop drop = motion::load_drop(torque, inertia_1, inertia_2);
    out["mean_torque"] = drop.mean_torque;
    out["minimum_torque"] = drop.minimum_torque;
  });
}

/// Chain of inertias driven by a constant torque, turning at `speed`; the last is jammed at `stop_time` within
/// `stop_angle`. Wound: every link carries the load torque or, where none is given, the drive's.
void simulate_jam(Arguments& in, Json& out) {
  motion::Scenario scenario;
  const std::vector<double> inertias = in.numbers("inertias", Quantity::inertia, kPositive);
  std::vector<motion::Link> links;
  for (Arguments& record : in.records("links")) {
    motion::Link link;
    link.stiffness = record.number("linear", Quantity::torsional_stiffness, kPositive);
    link.cubic = record.number_or("cubic", Quantity::number, 0, kNotNegative);
    link.damping = record.number_or("damping", Quantity::number, 0, kNotNegative);
    link.play = record.number_or("play", Quantity::angle, 0, kNotNegative);
    in.absorb(record);
    links.push_back(link);
  }
  scenario.drive.torque = in.number_or("drive_torque", Quantity::torque, 0);
  scenario.load.active = in.number_or("load_torque", Quantity::torque, 0);
  scenario.speed = in.number("speed", Quantity::angular_speed);
  scenario.duration = in.number("duration", Quantity::time, {1e-9, 1e4});
  const double stop_time = in.number_or("stop_time", Quantity::time, 0, kNotNegative);
  const double stop_angle = in.number_or("stop_angle", Quantity::angle, 0, kNotNegative);
  const bool wound = in.flag_or("wound", false);
  if (!in.ok()) return;
  if (inertias.size() < 2 || inertias.size() > motion::kMaxInertias) {
    return in.refuse("inertias", "2 to " + std::to_string(motion::kMaxInertias) + " inertias are needed");
  }
  if (links.size() + 1 != inertias.size()) return in.refuse("links", "one link between every two inertias is needed");
  scenario.chain.size = static_cast<int>(inertias.size());
  std::copy(inertias.begin(), inertias.end(), scenario.chain.inertia.begin());
  std::copy(links.begin(), links.end(), scenario.chain.link.begin());
  if (wound) {
    scenario.flanks = motion::InitialFlanks::wound;
    scenario.wound_torque = scenario.load.active != 0 ? scenario.load.active : scenario.drive.torque;
  }
  scenario.events = {{motion::EventKind::jam, stop_time, stop_angle}};
  const auto outcome = motion::simulate(scenario);
  if (!outcome) return in.refuse(outcome.errors());
  out["spring_peak"] = Json::array();
  for (std::size_t l = 0; l < links.size(); ++l) out["spring_peak"].push_back(outcome->links[l].spring_peak);
  out["energy_error"] = outcome->energy_error;
  out["steps"] = outcome->steps;
}

}  // namespace

void add_motion_calls(Registry& registry) {
  add_motor_calls(registry);
  add_jam_calls(registry);
  add_swing_calls(registry);
  registry.add("motion.simulate_jam", "Spring peaks of a chain whose last inertia is brought to rest", simulate_jam);
}

}  // namespace lobewise::api
