// motor: whether it starts the machine and stays inside its limits.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/formula/record.h"
#include "engine/demand/cautions.h"
#include "engine/drive/motor_starts.h"
#include "engine/evidence/cold_start.h"
#include "engine/evidence/motor_charts.h"
#include "engine/evidence/questions.h"
#include "engine/motion/simulate.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using enquiry::said;

/// Heat of starts and running. Starts that nobody said break no promise.
Check heat_check(const Drive& drive, const drive::MotorStarts& starts) {
  Check check;
  check.name = "heat of running and of the starts over what the motor sheds";
  check.figure = starts.load;
  check.limit = 1;
  check.quantity = Quantity::share;
  check.basis = said(drive.requirement, "duty.starts_per_hour") ? Basis::promise : Basis::assumed;
  check.of_order = true;
  return check;
}

void starts_working(const Drive& drive, const drive::MotorStarts& starts, Working& working) {
  using namespace formula;
  constexpr const char* kSource = "derived, docs/theory/cold.md; shares common practice, no source";
  const Term shed = input("P_V", "losses of the motor at what is left of its rating", starts.shed, Quantity::power);
  const Term running =
      input("P_run", "its losses while running, averaged over the duty", starts.running, Quantity::power);
  const Term q = input("q", "cooling while it starts and stops, share", drive::kCoolingAtStarts.nominal);
  const auto heat = [&] { return input("W", "heat of one start", starts.heat, Quantity::energy); };
  if (starts.bare > 0) {
    const Term stator = input("rho", "heat of the stator over that of the cage", drive::kStatorHeat.nominal);
    const Term own =
        input("J_M", "inertia of the motor and what turns with it", starts.motor_inertia, Quantity::inertia);
    const Term load = input("J_X", "of the machine, at the motor shaft", starts.load_inertia, Quantity::inertia);
    const Term synchronous = input("w_s", "synchronous speed", drive.motor->synchronous_speed, Quantity::angular_speed);
    const Term spare =
        named("K_M", "what is left of the motor's torque to speed up", Quantity::share,
              max(Term(drive::kLeastToSpare),
                  Term(1.0) - input("T_L", "load while it speeds up", starts.load_torque, Quantity::torque) /
                                  input("T_H", "mean of locked rotor, pull-up and breakdown", starts.motor_torque,
                                        Quantity::torque)),
              kSource);
    record(working, "W", "heat of one start, cage and stator", Quantity::energy,
           drive::heat_of_start(stator, own, load, synchronous, spare), kSource);
    const Term bare =
        named("Z_0", "starts an hour of the bare motor", Quantity::per_hour,
              Term(3600.0) * q * shed / drive::heat_of_start(stator, own, Term(0.0), synchronous, Term(1.0)), kSource);
    record(working, "Z", "starts an hour that it bears besides running", Quantity::per_hour,
           drive::permissible_starts(
               bare, named("K_J", "by inertia", Quantity::share, own / (own + load), kSource), spare,
               named("K_P", "by its load", Quantity::share, max(Term(0.0), Term(1.0) - running / shed), kSource)),
           kSource);
  }
  record(working, "h", "heat of running and of the starts asked for, over what is shed", Quantity::share,
         (running + input("z", "starts an hour", drive.requirement.starts_per_hour, Quantity::per_hour) / Term(3600.0) *
                        heat() / q) /
             shed,
         kSource);
}

void starts_words(const Drive& drive, const drive::MotorStarts& starts, Finding& out) {
  const bool many = starts.load > 1 && drive.requirement.starts_per_hour > 0;
  out.notes.push_back(
      {fmt::format(
           "By its heat it bears about {{}} starts an hour besides running (common practice, no source); {{}} "
           "are {}.{}",
           said(drive.requirement, "duty.starts_per_hour") ? "asked for" : "taken, nobody said how many",
           many ? " A motor built for frequent starts, an inverter that speeds it up gently, or a clutch between "
                  "a motor that keeps running and the machine would bear more."
                : ""),
       {{starts.permissible, Quantity::number}, {drive.requirement.starts_per_hour, Quantity::per_hour}}});
  if (!many) return;
  out.answer.pattern += " It bears {} starts an hour, not the {} asked for.";
  out.answer.values.push_back({starts.permissible, Quantity::number});
  out.answer.values.push_back({drive.requirement.starts_per_hour, Quantity::per_hour});
}

/// What a cold start comes to; when it fails, said at once and with what mends it.
void cold_words(const Drive& drive, const Evaluation& e, Finding& out) {
  const double temperature = drive::coldest(drive, e.coefficients);
  const drive::ColdStart start = drive::cold_start(drive, temperature, e.coefficients);
  const std::vector<Text> remedies = cold_remedies(drive, e);
  const ColdVerdict verdict = cold_verdict(drive, temperature);
  const bool good = verdict.starts && verdict.quick;
  out.notes.push_back(
      {"On the coldest day, {}, the oil has {}: where the motor has least to spare a start asks {} of its {}, of which "
       "{} before anything "
       "turns and {} of drag, largest at {}.",
       {{temperature, Quantity::temperature},
        {drive.oil.nu(temperature, 1), Quantity::kinematic_viscosity},
        {start.asked(), Quantity::torque},
        {start.given, Quantity::torque},
        {start.rest.torque, Quantity::torque},
        {start.drag.total(), Quantity::torque},
        {start.drag_speed, Quantity::angular_speed}}});
  if (good) return;
  append(out.answer,
         {" On the coldest day, {}, it gives {} on its way up where machine and cold oil ask for {}.",
          {{temperature, Quantity::temperature}, {start.given, Quantity::torque}, {start.asked(), Quantity::torque}}});
  if (!remedies.empty()) append(out.answer, prefixed(" What mends it: ", remedies.front()));
  for (const Text& remedy : remedies)
    out.notes.push_back(prefixed("Would mend the start on the coldest day: ", remedy));
}

/// What the drive that stands there proves of the start.
void today_words(const Drive& drive, Finding& out) {
  if (!drive.today) return;
  out.notes.push_back(
      {"A motor of {} starts this machine today: where the torque to break away was taken and not said, no more than "
       "{} is counted, and no more than {} at full load.",
       {{drive.today->motor_power, Quantity::power},
        {drive.requirement.demand.starting_torque.high, Quantity::torque},
        {drive.requirement.demand.torque.high, Quantity::torque}}});
}

/// Load and efficiency of the motor, what is left of its rating and what its tables give.
void motor_working(const Drive& drive, const Evaluation& e, Working& working) {
  using namespace formula;
  const drive::Motor& motor = *drive.motor;
  const Term power = record(working, "P_1", "power at the motor shaft at full load", Quantity::power,
                            input("P_2", "power of the machine", e.full.output_power, Quantity::power) /
                                input("eta", "efficiency of the reducer", e.full.efficiency(), Quantity::share),
                            "derived, definition");
  const Term rating = input("P_N", "rating", motor.rated_power, Quantity::power);
  record(
      working, "P_left", "what is left of the rating at this temperature and altitude", Quantity::power,
      rating * drive::derating_of(input("T_a", "surroundings", drive.requirement.ambient_high, Quantity::temperature),
                                  input("h", "altitude", drive.requirement.altitude, Quantity::length)),
      "[iec60034_1] reference conditions from memory; slopes common practice, no source");
  const std::vector<WorkingInput> row{{"P_N", "rating", motor.rated_power, Quantity::power},
                                      {"f", "frequency", motor.frequency, Quantity::frequency},
                                      {"poles", "poles", static_cast<double>(motor.poles), Quantity::number}};
  record_looked_up(working, "T_LR", "locked-rotor torque over rated torque, least value of the standard",
                   Quantity::number, motor.locked_rotor, "data/motor_torque_minima.csv, the row of its rating", row,
                   motor.torque_source);
  record_looked_up(working, "eta_m", "efficiency of the motor at full load of its rating, least value", Quantity::share,
                   motor.efficiency, "data/motor_efficiency.csv, the row of its class and the nearest rating", row,
                   motor.efficiency_source);
  record(working, "eta_part", "efficiency of the motor at this load", Quantity::share,
         drive::part_load_efficiency_of(
             named("x", "load over rating", Quantity::share, power / rating, "derived, definition"),
             input("eta_m", "at its rating", motor.efficiency, Quantity::share),
             input("f", "fixed share of the losses", drive::kFixedLossShare, Quantity::share)),
         "common practice, no source (f 0.25 to 0.5)");
}

/// Current, for whoever lays the supply line.
void current_working(const Drive& drive, Finding& out) {
  using namespace formula;
  const drive::Motor& motor = *drive.motor;
  const double voltage = drive.requirement.voltage.value_or(drive::usual_voltage(motor.frequency));
  record(out.working, "I_N", "rated current", Quantity::current,
         input("P_N", "rating", motor.rated_power, Quantity::power) /
             (sqrt(Term(3.0)) *
              input("U_N", drive.requirement.voltage ? "voltage" : "voltage, taken", voltage, Quantity::voltage) *
              input("eta_m", "efficiency at its rating", motor.efficiency, Quantity::share) *
              input("cosphi", "power factor", drive::typical_power_factor(motor.poles))),
         "derived, definition; power factor common practice, no source");
  const double share = drive.requirement.starting == enquiry::Starting::star_delta ? motion::kStarFactor.nominal : 1;
  const double current = drive::rated_current(motor, voltage);
  if (drive.requirement.starting == enquiry::Starting::direct ||
      drive.requirement.starting == enquiry::Starting::star_delta)
    out.notes.push_back(
        {"At {} it draws about {}, at the first moment {} to {}: the supply line must stand that without "
         "its voltage falling, the torque falls with its square.",
         {{voltage, Quantity::voltage},
          {current, Quantity::current},
          {drive::kLockedRotorCurrent.low * share * current, Quantity::current},
          {drive::kLockedRotorCurrent.high * share * current, Quantity::current}}});
  else
    out.notes.push_back({"At {} it draws about {}.", {{voltage, Quantity::voltage}, {current, Quantity::current}}});
}

}  // namespace

std::vector<Check> motor_checks(const Drive& drive, const Evaluation& e) {
  if (!drive.motor) return {};
  const drive::Motor& motor = *drive.motor;
  const double left = drive::derating(drive.requirement.ambient_high, drive.requirement.altitude);
  std::vector<Check> checks;
  checks.push_back(
      {"shaft power at full load", e.full.input_power(), motor.rated_power * left, Quantity::power, true, {}, {}});
  for (Check& check : start_checks(drive, e)) checks.push_back(std::move(check));
  checks.push_back(heat_check(drive, drive::motor_starts(drive, e.full, e.coefficients)));
  if (const auto& in_time = drive.requirement.demand.starting_in_time) {
    const double given = drive::cold_start(drive, drive::kNormalTemperature, e.coefficients).given *
                         drive.build.ratio() * e.full.efficiency();
    Check check{"torque the motor gives while it starts, for the time asked for",
                given,
                *in_time,
                Quantity::torque,
                false,
                {},
                {}};
    check.of_order = true;
    checks.push_back(std::move(check));
  }
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
  out.answer = {"A {}-pole motor of {} is loaded with {} of its rating.",
                {{static_cast<double>(motor.poles), Quantity::number},
                 {motor.rated_power, Quantity::power},
                 {e.full.input_power() / motor.rated_power, Quantity::share}}};
  motor_working(drive, e, out.working);
  cold_working(drive, e, out.working);
  const drive::MotorStarts starts = drive::motor_starts(drive, e.full, e.coefficients);
  starts_working(drive, starts, out.working);
  current_working(drive, out);
  out.notes.push_back({motor.frequency == 50
                           ? "IEC rating at {}; the least torques and efficiencies are those of its standard, a motor "
                             "of today has about {} times the torque ({} to {})."
                           : "NEMA rating at {}; the least torques and efficiencies are those of its standard, a motor "
                             "of today has about {} times the torque ({} to {}).",
                       {{motor.frequency, Quantity::frequency},
                        {drive::kTypicalStartTorque.nominal, Quantity::number},
                        {drive::kTypicalStartTorque.low, Quantity::number},
                        {drive::kTypicalStartTorque.high, Quantity::number}}});
  const double left = drive::derating(drive.requirement.ambient_high, drive.requirement.altitude);
  if (left < 1) out.notes.push_back({"Warm or thin air leaves {} of its rating.", {{left, Quantity::share}}});
  if (drive.requirement.starting == enquiry::Starting::inverter)
    out.notes.push_back(
        {"On an inverter: below about half speed the motor's own fan no longer cools it; above the mains "
         "frequency its torque falls.",
         {}});
  starts_words(drive, starts, out);
  cold_words(drive, e, out);
  today_words(drive, out);
  out.charts = motor_charts(context);
  out.charts.push_back(cold_chart(drive, e));
  if (context.start) {
    if (context.start->started) {
      out.notes.push_back({"It reaches its speed {} after switching on and takes {} of heat into the rotor each time.",
                           {{*context.start->started, Quantity::time}, {context.start->rotor_heat, Quantity::energy}}});
      if (*context.start->started > kLongStart)
        out.notes.push_back({"That is a long start: ask the motor's supplier how many are allowed in a row.", {}});
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
  out.left_out = {
      "The electrical transient of the first periods; voltage drop of the supply line.",
      "In the cold: the machine's own grease and oil; the cage, which is colder too and gives some 0.4 % less torque a "
      "kelvin (from memory) until it has warmed, within a second or two; warming of the oil while it starts."};
  const demand::Caution lockout = demand::lockout_caution();
  out.cautions.push_back({lockout.key, lockout.text});
}

}  // namespace lobewise::evidence
