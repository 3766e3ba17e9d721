#include "engine/demand/machines/measured_drive.h"

#include <fmt/format.h>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/demand/cautions.h"
#include "engine/demand/measured.h"

namespace lobewise::demand {
namespace {

using D = MeasuredDrive;

constexpr const char* kSettlingQuestion =
    "What power or current does the motor take in the heaviest steady running? One reading turns the bound into a "
    "load.";

const Fields<D>& numbers() {
  static const Fields<D> list{
      number<&D::rated_power>("rated_power", "Rated power", "Of the motor that was measured.", Quantity::power,
                              {10, 1e7}, {}, "What does the motor's nameplate say?"),
      number<&D::rated_speed>("rated_speed", "Rated speed", "Of the motor that was measured.", Quantity::angular_speed,
                              {10, 700}, {}, "What speed does the motor's nameplate say?"),
      number<&D::rated_current>("rated_current", "Rated current", "Nameplate, for the connection it runs in.",
                                Quantity::current, {0.05, 5000}, {},
                                "What current does the nameplate say for this voltage?"),
      number<&D::power_factor>("power_factor", "Power factor", "Nameplate.", Quantity::number, {0.3, 0.97},
                               {0.83, 0.75, 0.90, kCommonPractice}, "What power factor does the nameplate say?"),
      number<&D::efficiency>("efficiency", "Motor efficiency", "Nameplate.", Quantity::share, {0.3, 0.99},
                             {0.90, 0.80, 0.95, kCommonPractice}, "Which efficiency class is the motor?"),
      number<&D::measured_current>("measured_current", "Measured current", "One phase, heaviest steady running.",
                                   Quantity::current, {0.01, 1e4}, {}, ""),
      number<&D::measured_power>("measured_power", "Measured power", "Electric, heaviest steady running.",
                                 Quantity::power, {1, 1e7}, {}, ""),
      number<&D::measured_torque>("measured_torque", "Measured torque", "At the driven shaft, heaviest steady running.",
                                  Quantity::torque, {0, 1e7}, {}, ""),
      number<&D::load_share>("load_share", "Load of the motor", "Share of its rated torque, when nothing was measured.",
                             Quantity::share, {0.05, 1.5}, kLoadOfRating,
                             "What current does the motor draw in the heaviest steady running?"),
      number<&D::speed>("speed", "Driven speed", "Of the driven shaft.", Quantity::angular_speed, {0.001, 700}, {},
                        "How fast does the driven shaft turn?"),
      number<&D::train_efficiency>("train_efficiency", "Efficiency of the present train",
                                   "Gear unit and belt from motor to driven shaft.", Quantity::share, {0.2, 1},
                                   {0.90, 0.75, 0.96, kCommonPractice},
                                   "What gear unit is in service: worm or helical, and how many stages?"),
      number<&D::start_factor>("start_factor", "Start factor", "Torque to break away over running torque.",
                               Quantity::number, {0.5, 6}, {1.8, 1.2, 2.5, kCommonPractice},
                               "Does it start loaded, and does it hesitate?"),
      number<&D::run_up_time>("run_up_time", "Run-up time", "From rest to full speed, direct on line.", Quantity::time,
                              {0.05, 120}, {1.0, 0.3, 3.0, kCommonPractice},
                              "How long does it take to reach full speed?"),
  };
  return list;
}

/// A motor gives more than its rating for moments only; beyond this a steady reading is a mistake. Common practice, no
/// source: overload relays trip at 1.2 times their setting.
constexpr double kNoSteadyOverload = 2;

/// Readings that cannot be those of this motor, each with the field that it contradicts.
void contradictions(Given<D>& in) {
  const D& m = in.machine();
  const auto refuse = [&](const char* field, double value, Quantity quantity, const std::string& what) {
    in.fail(input_error(in.path(field), format_quantity(value, quantity, UnitSystem::si), what));
  };
  const auto times = [](double ratio) { return format_number(ratio, 3); };
  if (m.measured_current && m.rated_current && *m.measured_current > kNoSteadyOverload * *m.rated_current)
    refuse(
        "measured_current", *m.measured_current, Quantity::current,
        fmt::format("A motor of {} ({}) does not draw {} times that in steady running: one of the two is misread, or "
                    "the reading is that of a start.",
                    format_quantity(*m.rated_current, Quantity::current, UnitSystem::si), in.path("rated_current"),
                    times(*m.measured_current / *m.rated_current)));
  if (m.measured_power && m.rated_power && *m.measured_power > kNoSteadyOverload * *m.rated_power)
    refuse("measured_power", *m.measured_power, Quantity::power,
           fmt::format("A motor of {} ({}) does not take {} times that in steady running: one of the two is misread.",
                       format_quantity(*m.rated_power, Quantity::power, UnitSystem::si), in.path("rated_power"),
                       times(*m.measured_power / *m.rated_power)));
  if (m.measured_torque && m.rated_power && m.speed &&
      *m.measured_torque * *m.speed > kNoSteadyOverload * *m.rated_power)
    refuse("measured_torque", *m.measured_torque, Quantity::torque,
           fmt::format("At {} ({}) that is {}, {} times what the motor's plate says ({}, {}): one of the three is "
                       "misread.",
                       format_quantity(*m.speed, Quantity::angular_speed, UnitSystem::si), in.path("speed"),
                       format_quantity(*m.measured_torque * *m.speed, Quantity::power, UnitSystem::si),
                       times(*m.measured_torque * *m.speed / *m.rated_power),
                       format_quantity(*m.rated_power, Quantity::power, UnitSystem::si), in.path("rated_power")));
  constexpr double kNothing = 0.005;  // a motor that turns at all gives more
  if (m.measured_torque && m.rated_power && m.speed && *m.measured_torque > 0 &&
      *m.measured_torque * *m.speed < kNothing * *m.rated_power)
    refuse("measured_torque", *m.measured_torque, Quantity::torque,
           fmt::format("At {} ({}) that is {} of a motor of {} ({}), less than it loses idling: one of the three is "
                       "misread.",
                       format_quantity(*m.speed, Quantity::angular_speed, UnitSystem::si), in.path("speed"),
                       format_quantity(*m.measured_torque * *m.speed, Quantity::power, UnitSystem::si),
                       format_quantity(*m.rated_power, Quantity::power, UnitSystem::si), in.path("rated_power")));
  // Three phases of 200 to 690 V: 0.8 to 10 A a kilowatt; motors above 100 kW may be fed with thousands of volts.
  constexpr double kFewestAmps = 0.6e-3, kMostAmps = 15e-3, kHighVoltage = 100e3;
  if (m.rated_current && m.rated_power) {
    const double amps = *m.rated_current / *m.rated_power;
    if (amps > kMostAmps || (amps < kFewestAmps && *m.rated_power < kHighVoltage))
      refuse("rated_current", *m.rated_current, Quantity::current,
             fmt::format("A three-phase motor of {} ({}) is not rated for {} A a kilowatt: one of the two is misread.",
                         format_quantity(*m.rated_power, Quantity::power, UnitSystem::si), in.path("rated_power"),
                         times(1e3 * amps)));
  }
  if (m.load_share)
    for (const auto measured : {&D::measured_current, &D::measured_power, &D::measured_torque})
      if (in.said(measured))
        in.contradict(&D::load_share, measured, "the share is for when nothing was measured; the measurement rules.");
}

template <class X>
void physics(Given<D>& in, Demand& out) {
  using namespace formula;
  contradictions(in);
  const int ways = in.said(&D::measured_current) + in.said(&D::measured_power) + in.said(&D::measured_torque);
  if (ways > 1)
    in.fail(input_error(in.path("measured_current"), "",
                        "Give only one of measured current, measured power and measured torque."));
  const X speed = in.term<X>("w", &D::speed);
  Working& w = out.working;
  X torque = 0.0, spare = 0.0;  // to spare while running up, at the driven shaft
  if (in.said(&D::measured_torque)) {
    torque = in.term<X>("T", &D::measured_torque);
    spare = torque;
  } else {
    const X power = in.term<X>("P_n", &D::rated_power), turning = in.term<X>("w_n", &D::rated_speed);
    const X train = in.machine().train ? in.term<X>("eta", &D::train_efficiency, *in.machine().train)
                                       : in.term<X>("eta", &D::train_efficiency);
    X current = 1.0;
    if (in.said(&D::measured_current)) current = in.term<X>("I_n", &D::rated_current);
    if (!in.ok()) return;
    const X rated = record(w, "T_n", "rated torque of the motor", Quantity::torque, power / turning, kDerived);
    X at_motor = 0.0;
    if (in.said(&D::measured_current)) {
      const Coefficient usual = no_load_current_share(in(&D::power_factor));
      const X share =
          as<X>("k_0", "no-load current over rated current",
                in.assume({in.path("no_load_current"), "No-load current not said, taken from the power factor.",
                           usual.nominal, usual.low, usual.high, Quantity::share, usual.source},
                          "What current does the motor draw uncoupled?"),
                Quantity::share);
      const X idle = record(w, "I_0", "no-load current", Quantity::current, share * current, usual.source);
      at_motor = record(w, "T_m", "motor torque from current", Quantity::torque,
                        torque_from_current(in.term<X>("I", &D::measured_current), rated, current, idle), kDerived);
    } else if (ways == 0) {
      if (!in.said(&D::load_share)) {
        out.settled_by = kSettledByReading;
        in.ask({in.path("measured_power"), kSettlingQuestion, 1});
      }
      at_motor = record(w, "T_m", "motor torque from its rating, nothing was measured", Quantity::torque,
                        in.term<X>("k", &D::load_share) * rated, kDerived);
    } else {
      const X losses = record(w, "L_n", "losses of the motor at its rating", Quantity::power,
                              rated_losses(power, in.term<X>("eta_m", &D::efficiency)), kDerived);
      const X share =
          as<X>("k", "share of the losses that does not depend on load",
                in.assume({in.path("fixed_losses"), "Share of the motor's losses that does not depend on load, taken.",
                           kFixedLossShare.nominal, kFixedLossShare.low, kFixedLossShare.high, Quantity::share,
                           kFixedLossShare.source}),
                Quantity::share);
      at_motor = record(w, "T_m", "motor torque from electric power", Quantity::torque,
                        torque_from_power(in.term<X>("P", &D::measured_power), rated, power, losses, share), kDerived);
    }
    const X ratio = record(w, "i", "motor speed over driven speed", Quantity::number, turning / speed, kDerived);
    torque = record(w, "T", "running torque at the driven shaft", Quantity::torque, at_motor * train * ratio, kDerived);
    spare = record(w, "T_u", "torque to spare while it runs up: the motor's rating", Quantity::torque,
                   rated * train * ratio, "common practice, no source");
    if (value(at_motor) > 1.1 * value(rated)) {
      if (ways > 0)
        in.ask(
            {in.path(in.said(&D::measured_current) ? "measured_current" : "measured_power"),
             fmt::format("The motor would carry {:.0f} % of its rating: is the reading right, and the plate it is held "
                         "against ({})?",
                         100 * value(at_motor) / value(rated),
                         in.path(in.said(&D::measured_current) ? "rated_current" : "rated_power")),
             0.6});
      out.cautions.push_back({"motor_overloaded",
                              "The motor that was measured runs above its rating: check the reading, the connection "
                              "and the voltage, and do not simply copy its size."});
    }
  }
  if (!in.ok()) return;
  out.torque.value = value(torque);
  out.speed.value = value(speed);
  const X start = in.term<X>("k_T", &D::start_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque", Quantity::torque, start * torque, kCommonPractice));
  const X run_up = in.term<X>("t", &D::run_up_time);
  out.inertia.value = value(
      record(w, "J", "inertia that the torque to spare brings to speed in the run-up time, the motor's own included",
             Quantity::inertia, spare * run_up / speed, "derived; spare torque common practice, no source"));
  if (in.machine().can_run_back.value_or(true)) {
    out.holding_torque.value =
        value(record(w, "T_b", "holding torque: all of the running torque", Quantity::torque, torque, kCommonPractice));
    out.runback_torque.value = value(
        record(w, "T_rb", "torque that turns it back without power", Quantity::torque, 0.8 * torque, kCommonPractice));
    out.cautions.push_back(runback_caution());
    if (!in.machine().can_run_back)
      in.ask({in.path("can_run_back"), "Can the load turn the shaft back when the power fails?", 0.5});
  }
  classify_by_feed(in, out, in.machine().feed, "", "");
  out.jam.sudden = true;
  out.jam.angle = {0.3, 0.03, 2.0, "machine not known: wide range taken"};
  out.jam.text = "The machine is known by a measurement only; how it jams must be asked.";
  in.ask({in.path("jam"), "Has it ever jammed, on what, and what broke?", 0.3});
  out.cautions.push_back(
      stored_energy_caution("what this machine holds: nobody said what hangs, stands raised, is wound up or under "
                            "pressure in it",
                            "ask the plant for each, and have it lowered, blocked, slackened or vented before the "
                            "coupling is opened"));
  out.cautions.push_back({"measurement",
                          "Amps show a mean over seconds: starts, jams and shocks are not in them. Measure in the "
                          "heaviest hour of the heaviest day, all three phases."});
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const MeasuredDrive& drive) {
  return with_ranges(drive, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::MeasuredDrive>() {
  using demand::MeasuredDrive;
  static const RecordType type = demand::record_type(
      demand::numbers(),
      {field<&MeasuredDrive::feed>("feed", "Load", "How evenly the machine is loaded."),
       field<&MeasuredDrive::can_run_back>("can_run_back", "Can run back",
                                           "Whether the load can turn the shaft back without power.")});
  return type;
}
