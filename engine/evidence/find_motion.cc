// motion, motor: what it shakes at, and whether the motor starts it and stays inside its limits.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/evidence/questions.h"
#include "engine/motion/excitation.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Clear distance of the natural frequency from an excitation. Common practice, no source.
constexpr double kClearOfResonance = 0.15;
/// A start longer than this heats a cage motor badly. Common practice, no source.
constexpr double kLongStart = 10;

std::vector<motion::Excitation> excitations(const Drive& drive, std::size_t stage) {
  const auto& g = drive.build.stages[stage].stage->geometry;
  const double input = drive.output_speed * drive.build.ratio_behind(stage) * g.lobes;
  return motion::stage_excitations({g.lobes, g.pins, g.discs, motion::Fixed::ring}, input);
}

/// Distance of the torsional natural frequency from the nearest excitation that adds up, as a share of it.
double clearance(const Drive& drive, const Evaluation& e) {
  const double natural = drive::torsion_of(drive, e.coefficients).natural_frequency / (2 * kPi);
  double nearest = 1;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i)
    for (const motion::Excitation& x : excitations(drive, i))
      if (x.frequency > 0 && x.sum != motion::Sum::cancels)
        nearest = std::min(nearest, std::abs(natural / x.frequency - 1));
  return nearest;
}

}  // namespace

std::vector<Check> motion_checks(const Drive& drive, const Evaluation& e) {
  return {{"distance of the natural frequency from what excites it",
           clearance(drive, e),
           kClearOfResonance,
           Quantity::share,
           false,
           {},
           {}}};
}

void write_motion(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  out.answer = {
      "It gives {} of torque per unit of twist and loses {} on reversal; coupled to motor and machine it swings at {}.",
      {{t.stiffness, Quantity::torsional_stiffness},
       {2 * t.play, Quantity::angle},
       {t.natural_frequency / (2 * kPi), Quantity::frequency}}};
  out.working.push_back({"k",
                         "stiffness at the output between half and full torque",
                         "k = 0.5 T / (beta(T) - beta(T/2))",
                         {{"T", "torque", drive.requirement.torque, Quantity::torque}},
                         t.stiffness,
                         Quantity::torsional_stiffness,
                         "derived, docs/theory/mesh.md; range of torque common practice"});
  out.working.push_back({"lost motion",
                         "turn of the output between +3 % and -3 % of the torque",
                         "beta(+3 %) - beta(-3 %)",
                         {},
                         2 * t.play,
                         Quantity::angle,
                         "common practice, no source (the 3 %)"});
  out.working.push_back({"f_n",
                         "torsional natural frequency of motor, reducer and machine, flanks closed",
                         "f_n = sqrt(k (1/J_1 + 1/J_2)) / 2 pi",
                         {{"k", "stiffness", t.stiffness, Quantity::torsional_stiffness},
                          {"J_1", "motor side at the output", t.motor_inertia, Quantity::inertia},
                          {"J_2", "machine", t.load_inertia, Quantity::inertia}},
                         t.natural_frequency / (2 * kPi),
                         Quantity::frequency,
                         "derived, docs/theory/motion.md"});
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i)
    for (const motion::Excitation& x : excitations(drive, i)) {
      if (x.frequency <= 0) continue;
      const char* sum = x.sum == motion::Sum::adds      ? "; the discs add up"
                        : x.sum == motion::Sum::cancels ? "; the discs cancel each other"
                                                        : "";
      out.working.push_back({"f",
                             fmt::format("{}{}", x.name, sum),
                             "f = order n_1",
                             {{"order", "per input revolution", x.order, Quantity::number}},
                             x.frequency,
                             Quantity::frequency,
                             "derived, docs/theory/motion.md"});
    }
  const auto& g = drive.build.last().geometry;
  if (g.discs == 2)
    out.notes.push_back(
        {g.lobes % 2 == 1
             ? "Two discs and an odd lobe count: both discs mesh in the same phase, their transmission errors add up."
             : "Two discs and an even lobe count: the discs mesh in opposite phase, their transmission errors largely "
               "cancel.",
         {}});
  if (!drive.build.frame().sound_level) {
    out.notes.push_back(
        {"Sound cannot be judged: this range holds no measured value, and none can be computed honestly.", {}});
  } else {
    out.notes.push_back(
        {fmt::format("Sound: {:.0f} dB(A) at 1 m, as measured by the range's maker.", *drive.build.frame().sound_level),
         {}});
  }
  out.left_out = {drive.tables.back()->model, "Shafts and couplings outside the reducer, which lower the frequency."};
}

std::vector<Check> motor_checks(const Drive& drive, const Evaluation& e) {
  if (!drive.motor) return {};
  const drive::Motor& motor = *drive.motor;
  const double left = drive::derating(drive.requirement.ambient_high, drive.requirement.altitude);
  std::vector<Check> checks;
  checks.push_back(
      {"shaft power at full load", e.full.input_power(), motor.rated_power * left, Quantity::power, true, {}, {}});
  const double factor = std::min(motor.locked_rotor, motor.pull_up) * e.coefficients.motor_torque_factor *
                        drive::start_share(drive.requirement.starting);
  const double available = factor * motor.rated_torque * drive.build.ratio() * e.full.efficiency();
  checks.push_back({"torque the motor gives at rest, at the driven shaft",
                    available,
                    drive::kSpareStartTorque * drive.requirement.demand.starting_torque.value,
                    Quantity::torque,
                    false,
                    {},
                    {}});
  return checks;
}

void write_motor(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  if (!drive.motor) {
    out.answer = {"No motor of the tables fits: " + drive.motor_errors.front().message, {}};
    out.missing.push_back("a motor: " + drive.motor_errors.front().message);
    return;
  }
  const drive::Motor& motor = *drive.motor;
  out.answer = {fmt::format("A {}-pole motor of {{}} is loaded with {{}} of its rating.", motor.poles),
                {{motor.rated_power, Quantity::power}, {e.full.input_power() / motor.rated_power, Quantity::share}}};
  out.working.push_back({"P_1",
                         "power at the motor shaft at full load",
                         "P_1 = P_2 / eta",
                         {{"P_2", "power of the machine", e.full.output_power, Quantity::power},
                          {"eta", "efficiency of the reducer", e.full.efficiency(), Quantity::share}},
                         e.full.input_power(),
                         Quantity::power,
                         "derived, definition"});
  out.working.push_back(
      {"P_N",
       "what is left of the rating at this temperature and altitude",
       "P_N k",
       {{"P_N", "rating", motor.rated_power, Quantity::power},
        {"T_a", "surroundings", drive.requirement.ambient_high, Quantity::temperature},
        {"h", "altitude", drive.requirement.altitude, Quantity::length}},
       motor.rated_power * drive::derating(drive.requirement.ambient_high, drive.requirement.altitude),
       Quantity::power,
       "[iec60034_1] reference conditions from memory; slopes common practice, no source"});
  out.working.push_back({"T_LR",
                         "locked-rotor torque over rated torque, least value of the standard",
                         "T_LR / T_N",
                         {},
                         motor.locked_rotor,
                         Quantity::number,
                         motor.torque_source});
  out.working.push_back({"eta_m",
                         "efficiency of the motor at full load of its rating, least value",
                         "table",
                         {},
                         motor.efficiency,
                         Quantity::share,
                         motor.efficiency_source});
  if (context.start) {
    if (context.start->started) {
      out.notes.push_back({"It reaches its speed {} after switching on and takes {} of heat into the rotor each time.",
                           {{*context.start->started, Quantity::time}, {context.start->rotor_heat, Quantity::energy}}});
      if (*context.start->started > kLongStart)
        out.notes.push_back({"That is a long start: ask the motor's supplier how many are allowed in a row.", {}});
      // Permissible starts an hour: rotor and stator may take about the losses of rated running for 20 % of the time.
      // Common practice, no source.
      const double rated_loss = motor.rated_power * (1 / motor.efficiency - 1);
      const double starts = 0.3 * rated_loss * 3600 / (2 * context.start->rotor_heat + 1e-9);
      out.notes.push_back(
          {"By its heat it bears about {} starts an hour besides running (common practice, no source); {} are asked "
           "for.",
           {{std::min(600.0, std::floor(starts)), Quantity::number},
            {drive.requirement.starts_per_hour, Quantity::per_hour}}});
    } else {
      out.notes.push_back(
          {"In the simulation it does not reach its speed: the load torque or the inertia is too large for this way of "
           "starting.",
           {}});
    }
  } else if (!context.start_problem.empty()) {
    out.notes.push_back({"The start could not be simulated: " + context.start_problem, {}});
  }
  if (!motor.frame.empty()) {
    const auto& frames = drive.build.frame().motor_frames;
    if (drive.build.stages.size() == 1 && !frames.empty() && motor.frequency == 50 &&
        std::find(frames.begin(), frames.end(), motor.frame) == frames.end())
      out.notes.push_back(
          {fmt::format(
               "Standard frame {} is not among the flanges of this reducer; an adapter or a coupling is needed.",
               motor.frame),
           {}});
  }
  out.left_out = {"The electrical transient of the first periods; voltage drop of the supply line."};
  out.cautions.push_back(
      {"motor_start",
       "A motor may start without warning when power returns: lock it out before work on drive or machine."});
}

}  // namespace lobewise::evidence
