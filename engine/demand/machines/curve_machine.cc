#include "engine/demand/machines/curve_machine.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using C = CurveMachine;

const Fields<C>& numbers() {
  static const Fields<C> list{
      number<&C::rated_power>("rated_power", "Rated power", "At the shaft, rated point.", Quantity::power, {1, 1e8}, {},
                              "What shaft power does the data sheet give at its rated point?"),
      number<&C::rated_speed>("rated_speed", "Rated speed", "At the rated point.", Quantity::angular_speed,
                              {0.01, 1000}, {}, "At what speed is that?"),
      number<&C::speed>("speed", "Speed", "Of service.", Quantity::angular_speed, {0.01, 1000}, {},
                        "At what speed will it run?"),
      number<&C::breakaway_share>("breakaway_share", "Breakaway share", "Torque at rest over torque at speed.",
                                  Quantity::number, {0, 5}, {},
                                  "Does it start unloaded, against a closed or open valve, or full and cold?"),
      number<&C::stored_energy_time>("stored_energy_time", "Stored energy time",
                                     "Kinetic energy at speed over running power.", Quantity::time, {0, 200}, {},
                                     "What is the rotor's inertia?"),
      number<&C::inertia>("inertia", "Inertia", "Of the rotor, at its shaft.", Quantity::inertia, {0, 1e7}, {},
                          "What is the rotor's inertia?"),
  };
  return list;
}

struct Law {
  double exponent;  ///< torque ~ speed^exponent
  Default breakaway, energy_time;
  ShockClass shock;
  const char* reason;
  const char* practice;
};

Law law_of(CurveKind kind) {
  switch (kind) {
    case CurveKind::centrifugal_pump:
      return {2,
              {0.2, 0.1, 0.3, kCommonPractice},
              {0.1, 0.05, 0.4, kCommonPractice},
              ShockClass::steady,
              "steady flow",
              "centrifugal pump"};
    case CurveKind::fan:
      return {2,    {0.15, 0.05, 0.25, kCommonPractice}, {6, 2, 20, kCommonPractice}, ShockClass::steady, "steady flow",
              "fan"};
    case CurveKind::displacement_pump:
      return {0,
              {1.3, 1.0, 2.0, kCommonPractice},
              {0.05, 0.02, 0.2, kCommonPractice},
              ShockClass::steady,
              "nearly steady displacement",
              "displacement pump"};
    case CurveKind::extruder:
      return {0,
              {1.6, 1.2, 2.5, kCommonPractice},
              {0.05, 0.02, 0.2, kCommonPractice},
              ShockClass::uneven,
              "stiff melt, cold starts",
              "plastics extruder"};
  }
  return {};
}

/// Torque of the curve at a speed within it, straight lines between its points.
template <class X>
X on_curve(const C& machine, const X& speed) {
  using namespace formula;
  const std::vector<double>&x = machine.curve_speeds, &y = machine.curve_torques;
  std::size_t i = 1;
  while (i + 1 < x.size() && x[i] < value(speed)) ++i;
  const X w_1 = as<X>("w_1", "point of the curve below", x[i - 1], Quantity::angular_speed),
          w_2 = as<X>("w_2", "point of the curve above", x[i], Quantity::angular_speed);
  return lerp(as<X>("T_1", "torque at the point below", y[i - 1], Quantity::torque),
              as<X>("T_2", "torque at the point above", y[i], Quantity::torque), (speed - w_1) / (w_2 - w_1));
}

/// Highest torque of the curve on the way up to a speed within it.
template <class X>
X on_the_way_up(const C& machine, double speed) {
  const auto past = std::upper_bound(machine.curve_speeds.begin(), machine.curve_speeds.end(), speed);
  const auto end = machine.curve_torques.begin() + (past - machine.curve_speeds.begin());
  if constexpr (std::is_same_v<X, formula::Term>)
    return largest(formula::inputs("T_k", "torques of the curve up to that speed", {machine.curve_torques.begin(), end},
                                   Quantity::torque));
  else
    return *std::max_element(machine.curve_torques.begin(), end);
}

template <class X>
void physics(Given<C>& in, Demand& out) {
  using namespace formula;
  const C& m = in.machine();
  if (!m.kind)
    in.fail(missing(in.path("kind"), "Kind", "Is it a centrifugal pump, a fan, a displacement pump or an extruder?"));
  const bool points = !m.curve_speeds.empty() || !m.curve_torques.empty();
  if (points) {
    if (m.curve_speeds.size() != m.curve_torques.size() || m.curve_speeds.size() < 2)
      in.fail(input_error(in.path("curve_torques"), "",
                          "The curve needs at least two points, with as many torques as speeds."));
    else if (!std::all_of(m.curve_torques.begin(), m.curve_torques.end(),
                          [](double t) { return std::isfinite(t) && t >= 0; }))
      in.fail(input_error(in.path("curve_torques"), "", "Torques of the curve must be zero or more."));
    else if (!(m.curve_speeds.front() >= 0) ||
             !std::is_sorted(m.curve_speeds.begin(), m.curve_speeds.end(), [](double a, double b) { return a <= b; }))
      in.fail(input_error(in.path("curve_speeds"), "", "Speeds of the curve must rise from zero or more."));
  }
  if (points)
    for (const auto member : {&C::rated_power, &C::rated_speed})
      if (in.said(member))
        in.fail(contradiction(in.said_at(member), {in.path("curve_torques"), "given"},
                              "the curve rules; say the curve or the rated point."));
  if (in.said(&C::inertia) && in.said(&C::stored_energy_time))
    in.contradict(&C::stored_energy_time, &C::inertia, "both say how heavy the rotor is; say one.");
  X power = 0.0, rated = 0.0;
  if (!points) {
    power = in.term<X>("P_n", &C::rated_power);
    rated = in.term<X>("w_n", &C::rated_speed);
  }
  if (!in.ok()) return;
  Working& w = out.working;
  const Law law = law_of(*m.kind);
  const double speed = in.said(&C::speed) ? in(&C::speed) : points ? m.curve_speeds.back() : value(rated);
  if (points && !(speed >= m.curve_speeds.front() && speed <= m.curve_speeds.back())) {
    in.fail(input_error(in.path("speed"), format_quantity(speed, Quantity::angular_speed, UnitSystem::si),
                        "The speed of service must lie on the curve."));
    return;
  }
  const X service = as<X>("w", "speed", speed, Quantity::angular_speed);
  const X torque = points
                       ? record(w, "T", "running torque, read from the curve", Quantity::torque, on_curve(m, service),
                                "curve as given, straight lines between points")
                       : record(w, "T", "running torque by the law of its kind", Quantity::torque,
                                power / rated * pow(service / rated, as<X>("x", "exponent of its law", law.exponent)),
                                "affinity laws, or constant torque");
  out.torque.value = value(torque);
  out.speed.value = speed;
  const X resting = in.term<X>("k", &C::breakaway_share, law.breakaway) * torque;
  out.starting_torque.value =
      points ? value(record(w, "T_0", "torque to break away, or the highest on the way up", Quantity::torque,
                            max(resting, on_the_way_up<X>(m, speed)), kCommonPractice))
             : value(record(w, "T_0", "torque to break away", Quantity::torque, resting, kCommonPractice));
  if (in.said(&C::inertia)) {
    out.inertia.value = in(&C::inertia);
  } else {
    const X time = in.term<X>("t", &C::stored_energy_time, law.energy_time);
    out.inertia.value = value(
        record(w, "J", "inertia by stored energy", Quantity::inertia, 2.0 * torque * time / service, kCommonPractice));
  }
  out.shock_class = law.shock;
  out.shock_reason = law.reason;
  out.practice_machine = law.practice;
  out.jam.sudden = *m.kind == CurveKind::displacement_pump || *m.kind == CurveKind::extruder;
  out.jam.angle = out.jam.sudden
                      ? Coefficient{0.5, 0.05, 3, "common practice, no source: foreign body or cold plug"}
                      : Coefficient{6, 1, 60, "common practice, no source: rotor rubs or takes in a foreign body"};
  out.jam.text =
      out.jam.sudden
          ? "A foreign body, a closed outlet or a cold plug stops it; a relief valve or rupture disc must act first."
          : "It seldom jams; a foreign body or rubbing rotor slows it over turns.";
  if (*m.kind == CurveKind::displacement_pump)
    out.cautions.push_back(
        {"relief_valve",
         "A displacement pump against a closed valve builds pressure until something breaks: relief valve."});
  if (*m.kind == CurveKind::extruder)
    out.cautions.push_back({"extruder_thrust",
                            "The screw's thrust is borne by its own thrust bearing, not by the reducer, unless the "
                            "reducer was made for it."});
  if (*m.kind == CurveKind::fan || *m.kind == CurveKind::centrifugal_pump)
    out.cautions.push_back({"windmilling",
                            "It may turn by draught or backflow with the drive off, also backwards, and start the "
                            "reducer running without a motor: block it before work."});
  out.cautions.push_back(
      *m.kind == CurveKind::extruder
          ? stored_energy_caution(
                "melt under pressure behind the die, which pushes the screw back",
                "run it empty while hot, vent the barrel, and let the pressure fall to nothing before "
                "the coupling is opened")
      : *m.kind == CurveKind::fan
          ? stored_energy_caution("the running-down rotor, and draught that turns it",
                                  "let it run down, close the damper and block the rotor before the coupling is opened")
          : stored_energy_caution("pressure and liquid standing above it, which turn it back",
                                  "close both valves, vent and drain it, and block the rotor before the coupling is "
                                  "opened"));
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const CurveMachine& machine) {
  return with_ranges(machine, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::CurveKind>() {
  static const std::vector<Choice> words{{"centrifugal_pump", "centrifugal pump"},
                                         {"fan", "fan or blower"},
                                         {"displacement_pump", "displacement pump"},
                                         {"extruder", "extruder"}};
  return words;
}

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::CurveMachine>() {
  using demand::CurveMachine;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&CurveMachine::kind>("kind", "Kind", "What the curve belongs to."),
                          field<&CurveMachine::curve_speeds>("curve_speeds", "Curve speeds", "Rising.",
                                                             Quantity::angular_speed, {0, 1000}),
                          field<&CurveMachine::curve_torques>("curve_torques", "Curve torques", "At those speeds.",
                                                              Quantity::torque, {0, 1e8})});
  return type;
}
