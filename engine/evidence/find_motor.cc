// motor: whether it starts the machine and stays inside its limits.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/motor_charts.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

}  // namespace

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
  out.working.push_back({"eta_part",
                         "efficiency of the motor at this load",
                         "eta = x/(x + (1/eta_m - 1)(f + (1 - f) x^2))",
                         {{"x", "load over rating", e.full.input_power() / motor.rated_power, Quantity::share},
                          {"eta_m", "at its rating", motor.efficiency, Quantity::share},
                          {"f", "fixed share of the losses", drive::kFixedLossShare, Quantity::share}},
                         drive::part_load_efficiency(motor, e.full.input_power() / motor.rated_power),
                         Quantity::share,
                         "common practice, no source (f 0.25 to 0.5)"});
  out.working.push_back(
      {"T_a",
       "torque at the driven shaft with which it starts: the least between rest and breakdown",
       "T_a = min(T_LR, T_PU) s f T_N i eta",
       {{"T_LR", "locked rotor over rated torque", motor.locked_rotor, Quantity::number},
        {"T_PU", "pull-up over rated torque", motor.pull_up, Quantity::number},
        {"f", "motors of today over the least of the standard", e.coefficients.motor_torque_factor, Quantity::number},
        {"s", "left by the way of starting", drive::start_share(drive.requirement.starting), Quantity::share},
        {"T_N", "rated torque", motor.rated_torque, Quantity::torque},
        {"i", "ratio", drive.build.ratio(), Quantity::number},
        {"eta", "efficiency of the reducer", e.full.efficiency(), Quantity::share}},
       motor_checks(drive, e).back().figure,
       Quantity::torque,
       "derived; factor common practice, no source"});
  out.notes.push_back(
      {fmt::format(
           "{} at {:.0f} Hz; the least torques and efficiencies are those of its standard, a motor of today has "
           "about 1.3 times the torque (1 to 1.8).",
           motor.frequency == 50 ? "IEC rating" : "NEMA rating", motor.frequency),
       {}});
  const double left = drive::derating(drive.requirement.ambient_high, drive.requirement.altitude);
  if (left < 1) out.notes.push_back({"Warm or thin air leaves {} of its rating.", {{left, Quantity::share}}});
  if (drive.requirement.starting == enquiry::Starting::inverter)
    out.notes.push_back(
        {"On an inverter: below about half speed the motor's own fan no longer cools it; above the mains "
         "frequency its torque falls.",
         {}});
  out.charts = motor_charts(context);
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
  } else {
    out.notes.push_back({"The start could not be simulated: " + context.start.errors().front().message, {}});
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
