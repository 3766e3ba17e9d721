#include "engine/evidence/cold_start.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/shocks.h"
#include "engine/losses/cold.h"
#include "engine/motion/simulate.h"

namespace lobewise::evidence {
namespace {

using drive::ColdStart;
using drive::Drive;
using drive::kNormalTemperature;
using drive::kSpareStartTorque;
using enquiry::said;

/// Scale of the margin of a temperature that must not fall too low [K].
constexpr double kFlowScale = 40;

bool inverter(const Drive& drive) { return drive.requirement.starting == enquiry::Starting::inverter; }

/// A start that fails only with the torque that was taken to break the machine away, and not with the least that it may
/// be, breaks no promise.
Basis basis_of_start(const Drive& drive, double ratio, const drive::Coefficients& c) {
  const demand::Figure& torque = drive.requirement.demand.starting_torque;
  if (ratio >= kSpareStartTorque || torque.low >= torque.value) return Basis::promise;
  drive::Coefficients least = c;
  least.start_factor = torque.low / torque.value;
  return drive::cold_start(drive, kNormalTemperature, least).ratio() < kSpareStartTorque ? Basis::promise
                                                                                         : Basis::assumed;
}

}  // namespace

std::vector<Check> start_checks(const Drive& drive, const Evaluation& e) {
  const drive::Coefficients& c = e.coefficients;
  const ColdStart usual = drive::cold_start(drive, kNormalTemperature, c);
  const ColdStart& cold = e.cold;
  std::vector<Check> checks;
  Check day;
  day.name = "least torque of the motor while starting over what machine and oil ask, on a usual day";
  day.figure = usual.ratio();
  day.limit = kSpareStartTorque;
  day.at_most = false;
  day.basis = basis_of_start(drive, usual.ratio(), c);
  Check night = day;
  night.name = "least torque of the motor while starting over what machine and oil ask, on the coldest day";
  night.figure = cold.ratio();
  night.basis = said(drive.requirement, "site.ambient_low") ? Basis::promise : Basis::assumed;
  night.of_order = true;
  checks = {day, night};
  if (!inverter(drive)) {
    Check long_start = night;
    long_start.name = "time of a start on the coldest day, as it heats the motor";
    long_start.figure = drive::cold_run_up(drive, cold, c).time;
    long_start.limit = drive::kLockedRotorTime.nominal;
    long_start.quantity = Quantity::time;
    long_start.at_most = true;
    checks.push_back(long_start);
  }
  return checks;
}

Check flow_check(const Drive& drive, const Evaluation& e) {
  const drive::PourPoint pour = drive::pour_point(drive.oil.fill);
  Check check;
  check.name = drive.oil.grease() ? "coldest surroundings against what the grease is made for"
                                  : "coldest surroundings against what the oil still flows at";
  check.figure = drive::coldest(drive, e.coefficients);
  check.limit = pour.lowest;
  check.quantity = Quantity::temperature;
  check.at_most = false;
  check.zero = pour.lowest - kFlowScale;
  const bool certain = pour.stated || check.figure < pour.lowest + (pour.at.low - pour.at.nominal);
  check.basis = certain && said(drive.requirement, "site.ambient_low") ? Basis::promise : Basis::assumed;
  check.of_order = true;
  return check;
}

ColdVerdict cold_verdict(const Drive& drive, double temperature) {
  ColdVerdict out;
  out.flows = temperature >= drive::pour_point(drive.oil.fill).lowest;
  if (!drive.motor) return out;
  const ColdStart start = drive::cold_start(drive, temperature, {});
  out.starts = start.ratio() >= kSpareStartTorque;
  const drive::ColdRunUp run_up = drive::cold_run_up(drive, start, {});
  out.quick = !run_up.sticks && run_up.time <= drive::kLockedRotorTime.nominal;
  return out;
}

void append(Text& text, const Text& more) {
  text.pattern += more.pattern;
  text.values.insert(text.values.end(), more.values.begin(), more.values.end());
}

Text prefixed(const char* words, Text text) {
  text.pattern = words + text.pattern + ".";
  return text;
}

namespace {

/// What the motor gives at the speed where it has least to spare.
void record_given(const Drive& drive, const ColdStart& start, const drive::Coefficients& c, Working& working) {
  using namespace formula;
  const drive::Motor& motor = *drive.motor;
  const Term rated = input("T_N", "rated torque", motor.rated_torque, Quantity::torque);
  const Term typical = input("f", "motors of today over the least of the standard", c.motor_torque_factor);
  const Term breakdown = input("t_b", "breakdown over rated torque", motor.breakdown);
  if (inverter(drive)) {
    record(working, "T_M", "torque of the motor on its way up, on an inverter", Quantity::torque,
           min(input("g", "limit of the inverter over the rated torque", motion::kInverterTorqueLimit.nominal) * rated,
               max(Term(1.05), typical * breakdown) * rated),
           "common practice, no source (limit 1.2 to 2)");
    return;
  }
  const Result<motion::MotorCurve> curve = drive::motor_curve_of(drive, c);
  if (!curve) return;
  const auto speed = [](const char* symbol, const char* meaning, double value) {
    return input(symbol, meaning, value, Quantity::angular_speed);
  };
  const Term at = speed("w_M", "speed of the motor there", start.speed);
  const Term pull_up_at = speed("w_p", "of its pull-up torque", curve->pull_up_speed());
  const Term breakdown_at = speed("w_b", "of its breakdown", curve->breakdown_speed());
  const Term locked = input("t_LR", "locked rotor over rated torque", motor.locked_rotor);
  const Term pull_up = input("t_PU", "pull-up over rated torque", motor.pull_up);
  const Term u = (at - pull_up_at) / (breakdown_at - pull_up_at);
  const Term share = choose_between(
      less(at, pull_up_at), typical * (pull_up + (locked - pull_up) * pow(Term(1.0) - at / pull_up_at, Term(2.0))),
      typical * pull_up +
          (max(Term(1.05), typical * breakdown) - typical * pull_up) * pow(u, Term(2.0)) * (Term(3.0) - Term(2.0) * u));
  const bool star = drive.requirement.starting == enquiry::Starting::star_delta;
  record(working, "T_M", "torque of the motor where it has least to spare on its way up", Quantity::torque,
         share * rated * pow(input("U", "voltage over rated voltage", c.voltage_factor), Term(2.0)) *
             input("s", "left by the way of starting", star ? motion::kStarFactor.nominal : 1),
         "[motor_tables] least torques, curve derived, docs/theory/motion.md; factor common practice, no source (1 to "
         "1.8)");
}

}  // namespace

void cold_working(const Drive& drive, const Evaluation& e, Working& working) {
  using namespace formula;
  constexpr const char *kDerived = "derived, docs/theory/cold.md", *kDefinition = "derived, definition";
  const drive::Coefficients& c = e.coefficients;
  const double temperature = drive::coldest(drive, c);
  const ColdStart start = drive::cold_start(drive, temperature, c);
  const drive::Rest& rest = start.rest;
  const drive::LossPlaces& friction = rest.friction;

  const Term machine = input("T_B", "torque that breaks the machine away", rest.machine, Quantity::torque);
  const Term ratio = input("i", "ratio", drive.build.ratio());
  record(working, "T_0", "torque at the motor shaft before anything turns, on the coldest day", Quantity::torque,
         machine / ratio +
             input("M_lobe", "stuck friction of the lobes, at the motor shaft", friction.lobes, Quantity::torque) +
             input("M_pin", "of the output pins", friction.output_pins, Quantity::torque) +
             input("M_bear", "of all bearings",
                   friction.eccentric_bearings + friction.input_bearings + friction.output_bearings, Quantity::torque) +
             input("M_seal", "of the seals", friction.seals, Quantity::torque),
         "derived: the running losses without any film, bearings and seals at rest twice as stiff (common practice, no "
         "source), docs/theory/cold.md");
  record(working, "eta_0", "what arrives of the motor's torque at rest", Quantity::share,
         machine / (ratio * input("T_0", "torque at the motor shaft", rest.torque, Quantity::torque)),
         "derived, definition");

  const drive::ColdTurning turning(drive, temperature, c);
  const auto nu = [&] {
    return input("nu", "viscosity on the coldest day", turning.nu(), Quantity::kinematic_viscosity);
  };
  const auto eta = [&] { return input("eta", "the same, dynamic", turning.eta(), Quantity::dynamic_viscosity); };
  const auto falls = [&] { return input("b", "share by which it falls with every kelvin", turning.falls()); };
  const auto k = [&] { return input("k", "heat conductivity of oil, W/(m K)", losses::kOilConductivity.nominal); };
  const auto speed = [&] {
    return input("w_1", "speed of the motor at which the oil resists most", start.drag_speed, Quantity::angular_speed);
  };
  if (start.drag_speed > 0) {
    std::vector<double> moments, shares;
    int number = 0;
    for (const drive::ColdTurning::Bearing& part : turning.bearings()) {
      const Term share = input("r", "speed of its rings over that of the motor", part.speed_share);
      const Term diameter = input("d_m", "pitch diameter", part.bearing->pitch_diameter, Quantity::length);
      const Term w = named("w", "speed of its rings", Quantity::angular_speed, speed() * share, kDefinition);
      const Term flow = named("x", "viscosity times speed, mm2/s and 1/min", Quantity::number,
                              Term(1e6) * nu() * w * Term(30.0) / pi<Term>(), kDefinition);
      const Term heating = named("L", "heat in its inlets", Quantity::number,
                                 losses::nahme_number(eta(), falls(),
                                                      named("u", "mean speed of its surfaces", Quantity::speed,
                                                            w * diameter / Term(4.0), "derived: pure rolling"),
                                                      k()),
                                 "[murch1975] from memory");
      const std::string symbol = fmt::format("M_{}", ++number);
      moments.push_back(
          record(working, symbol.c_str(), "no-load moment of a bearing in the cold oil", Quantity::torque,
                 losses::cold_no_load_moment(input("f_0", "by its kind and lubricant", part.f_0), diameter, flow,
                                             heating, input("c", "nominal", c.cold_factor)),
                 "[palmgren1959] up to x = 3e6, from there with heat in the inlet, docs/theory/cold.md")
              .value());
      shares.push_back(part.count * part.speed_share);
    }
    double gap_moment = 0;
    for (const drive::ColdTurning::Gap& gap : turning.gaps()) {
      const Term lever = input("e", "eccentricity, seen from the motor", gap.speed_per_input, Quantity::length);
      const Term stress = losses::gap_stress(
          eta(), falls(), named("U", "speed of the walls of a gap", Quantity::speed, speed() * lever, kDefinition),
          input("s", "gap", losses::kDiscGap, Quantity::length), k());
      gap_moment +=
          record(working, fmt::format("M_g{}", gap_moment > 0 ? 2 : 1).c_str(),
                 "moment of the oil sheared at the faces of the discs", Quantity::torque,
                 stress * input("A", "wetted faces, times the factor for squeezing", gap.area, Quantity::area) * lever,
                 kDerived)
              .value();
    }
    record(working, "M_D", "drag of the cold oil where it is largest, at the motor shaft", Quantity::torque,
           sum(inputs("M", "bearings, one after the other", moments, Quantity::torque) *
               inputs("q", "number of each, times its speed over that of the motor", shares)) +
               input("M_g", "gaps", gap_moment, Quantity::torque),
           kDerived);
  }
  record(working, "T_A", "asked of the motor there, where it has least to spare on its way up", Quantity::torque,
         input("T_0", "at rest", rest.torque, Quantity::torque) +
             input("M_D", "drag", start.drag.total(), Quantity::torque),
         kDerived);
  if (!drive.motor) return;
  record_given(drive, start, c, working);
  record(working, "S", "least torque of the motor over that", Quantity::number,
         input("T_M", "least torque of the motor on its way up", start.given, Quantity::torque) /
             input("T_A", "asked", start.asked(), Quantity::torque),
         kDerived);
  if (inverter(drive)) return;
  const drive::ColdRunUp run_up = drive::cold_run_up(drive, start, c);
  record_followed(
      working, "t_A", "time of that start, as it heats the motor", Quantity::time, run_up.time,
      "J dw over what is left of the motor's torque, from rest to 95 % of its speed; time in star counts a third",
      {{"T_A", "asked", start.asked(), Quantity::torque},
       {"T_N", "rated torque of the motor", drive.motor->rated_torque, Quantity::torque}},
      kDerived);
}

Chart cold_chart(const Drive& drive, const Evaluation& e) {
  Chart chart{"cold_start",
              "A start over the temperature of the surroundings",
              "Surroundings, with unit and oil as cold",
              "Torque at the motor shaft",
              Quantity::temperature,
              Quantity::torque,
              {},
              false,
              false,
              false};
  constexpr double kStep = 2;
  const double coldest = drive::coldest(drive, e.coefficients);
  const double from = kZeroCelsius + 10 * std::floor((std::min(coldest, kZeroCelsius - 20) - kZeroCelsius) / 10);
  const double to = kZeroCelsius + 30;
  Series most{"machine and oil ask where the motor has least to spare", {}, {}, false};
  Series rest{"of that before anything turns", {}, {}, false};
  const int steps = static_cast<int>(std::lround((to - from) / kStep));
  Series motor{"the motor gives there", {}, {}, true};
  for (int i = 0; i <= steps; ++i) {
    const double temperature = from + kStep * i;
    const ColdStart start = drive::cold_start(drive, temperature, e.coefficients);
    most.x.push_back(temperature), most.y.push_back(start.asked());
    rest.x.push_back(temperature), rest.y.push_back(start.rest.torque);
    motor.x.push_back(temperature), motor.y.push_back(start.given);
  }
  const double highest = std::max(motor.y.front(), most.y.front());
  chart.series = {std::move(most), std::move(rest), std::move(motor)};
  const double lowest = drive::pour_point(drive.oil.fill).lowest;
  if (lowest >= from)
    chart.series.push_back({drive.oil.grease() ? "the grease is made for {} and more" : "the oil flows from {} on",
                            {lowest, lowest},
                            {0, highest},
                            true,
                            {{lowest, Quantity::temperature}}});
  chart.series.push_back({"coldest day, {}",
                          {coldest},
                          {drive::cold_start(drive, coldest, e.coefficients).asked()},
                          false,
                          {{coldest, Quantity::temperature}}});
  return chart;
}

}  // namespace lobewise::evidence
