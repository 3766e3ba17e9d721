#include "engine/demand/machines/rotary_drum.h"

#include <fmt/format.h>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using R = RotaryDrum;
constexpr double kDegree = kPi / 180;
constexpr double kThrown = 0.75;  ///< of the critical speed; common practice of drum mills, no source

const Fields<R>& numbers() {
  static const Fields<R> list{
      number<&R::inner_diameter>("inner_diameter", "Inner diameter", "Inside shell or screen.", Quantity::length,
                                 {0.2, 8}, {}, "What is the inner diameter of the drum?"),
      number<&R::length>("length", "Length", "Filled length.", Quantity::length, {0.2, 200}, {},
                         "How long is the drum?"),
      number<&R::fill>("fill", "Fill", "Share of the cross-section that the bed takes.", Quantity::share, {0.005, 0.6},
                       {}, "How full is the drum at most?"),
      number<&R::density>("density", "Bulk density", "Of the bed.", Quantity::density, {50, 6000}, {},
                          "What does a cubic metre of the material weigh?"),
      number<&R::speed>("speed", "Drum speed", "Turning speed of the drum.", Quantity::angular_speed, {0.01, 10}, {},
                        "How fast does the drum turn?"),
      number<&R::shell_mass>("shell_mass", "Drum mass", "Everything that turns, without the bed.", Quantity::mass,
                             {10, 3e6}, {}, "What does the empty drum weigh?"),
      number<&R::dynamic_angle>("dynamic_angle", "Dynamic angle", "Slope of the moving bed.", Quantity::angle,
                                {0.3, 1.3}, {35 * kDegree, 28 * kDegree, 45 * kDegree, kCommonPractice},
                                "Is the material free-flowing, or sticky and wet?"),
      number<&R::start_angle>("start_angle", "Start angle", "To which a rested bed climbs before it first slides.",
                              Quantity::angle, {0.3, kPi / 2}, {}, "Does the bed set while the drum stands?"),
      number<&R::tyre_diameter>("tyre_diameter", "Tyre diameter", "Running ring.", Quantity::length, {0.2, 9}, {}, ""),
      number<&R::trunnion_angle>("trunnion_angle", "Trunnion angle", "Between the vertical and a roller.",
                                 Quantity::angle, {0.3, 1.2},
                                 {30 * kDegree, 30 * kDegree, 35 * kDegree, kCommonPractice}, ""),
      number<&R::journal_ratio>("journal_ratio", "Journal ratio", "Journal over roller diameter of the trunnions.",
                                Quantity::number, {0.1, 1}, {0.35, 0.25, 0.45, kCommonPractice}, ""),
      number<&R::bearing_friction>("bearing_friction", "Bearing friction",
                                   "0.005 rolling, 0.02 plain and oiled, 0.1 plain and dry.", Quantity::number,
                                   {0.001, 0.2}, {0.02, 0.005, 0.08, kCommonPractice},
                                   "Do the trunnions run in rolling or plain bearings, and how are they lubricated?"),
  };
  return list;
}

/// What no drum can do.
void plausible(Given<R>& in) {
  const R& m = in.machine();
  if (*m.speed * *m.speed * *m.inner_diameter / 2 >= kGravity)
    in.contradict(&R::speed, &R::inner_diameter,
                  fmt::format("above the critical speed the bed turns with the shell; for that diameter it is {}.",
                              format_quantity(std::sqrt(2 * kGravity / *m.inner_diameter), Quantity::angular_speed,
                                              UnitSystem::si)));
  if (m.tyre_diameter && *m.tyre_diameter < *m.inner_diameter)
    in.contradict(&R::tyre_diameter, &R::inner_diameter, "the running ring lies around the shell, not inside it.");
  if (m.start_angle && m.dynamic_angle && *m.start_angle < *m.dynamic_angle)
    in.contradict(&R::start_angle, &R::dynamic_angle,
                  "a rested bed climbs at least to the slope at which it slides while moving.");
}

/// Half the angle that the bed takes of the circle: the solution of its own equation.
template <class X>
X half_angle(Working& working, const X& fill) {
  using namespace formula;
  const double angle = bed_half_angle(value(fill));
  const X solution = as<X>("a", "half angle of the bed", angle, Quantity::angle);
  if constexpr (std::is_same_v<X, Term>)
    record_solved(working, "a", "half angle of the bed, whose segment is the fill", Quantity::angle, angle,
                  bed_residual(solution, fill), 1e-12, kDerived);
  return solution;
}

template <class X>
void physics(Given<R>& in, Demand& out) {
  using namespace formula;
  const X diameter = in.term<X>("D", &R::inner_diameter), length = in.term<X>("L", &R::length),
          fill = in.term<X>("phi", &R::fill), density = in.term<X>("rho", &R::density);
  const X speed = in.term<X>("w", &R::speed), shell = in.term<X>("m_s", &R::shell_mass);
  if (!in.ok()) return;
  plausible(in);
  if (!in.ok()) return;
  if (value(speed) * value(speed) * value(diameter) / 2 > kThrown * kThrown * kGravity)
    out.cautions.push_back({"doubt_drum_speed",
                            "Above about three quarters of its critical speed the bed is thrown rather than leaning, "
                            "and the figures here no longer hold: check speed and diameter."});
  Working& w = out.working;
  const X g = gravity<X>();
  const X radius = record(w, "R", "inner radius", Quantity::length, diameter / 2.0, kDerived);
  const X half = half_angle<X>(w, fill);
  const X segment = record(w, "A", "section of the bed", Quantity::area, bed_area(radius, fill), kDerived);
  const X mass = record(w, "m", "mass of the bed", Quantity::mass, density * length * segment, kDerived);
  const X lever =
      record(w, "r_c", "lever of the bed's centroid", Quantity::length, bed_lever(radius, half, fill), kDerived);
  const X angle = in.term<X>("th", &R::dynamic_angle);
  const X lift =
      record(w, "T_L", "torque of the leaning bed", Quantity::torque, mass * g * lever * sin(angle), kDerived);
  const double wide = value(diameter);
  const X tyre = in.term<X>("D_t", &R::tyre_diameter, {1.15 * wide, 1.05 * wide, 1.3 * wide, kCommonPractice});
  const X trunnion_angle = in.term<X>("b", &R::trunnion_angle), ratio = in.term<X>("k_j", &R::journal_ratio),
          friction = in.term<X>("mu", &R::bearing_friction);
  const X trunnion = record(w, "T_R", "torque of the trunnion bearings", Quantity::torque,
                            friction * ratio * (mass + shell) * g * tyre / 2.0 / cos(trunnion_angle), kDerived);
  out.torque.value =
      value(record(w, "T", "running torque at the drum's axis", Quantity::torque, lift + trunnion, kDerived));
  out.speed.value = value(speed);
  record(w, "P_rule", "US dryer rule, for comparison (lifting flights and drive losses included)", Quantity::power,
         dryer_rule_power<X>(speed, diameter, mass, tyre, mass + shell), "Perry, rotary dryers, from memory");
  const double running = value(angle);
  const X start_angle = in.term<X>("th_0", &R::start_angle,
                                   {std::min(running + 15 * kDegree, kPi / 2), std::min(running + 5 * kDegree, kPi / 2),
                                    std::min(running + 35 * kDegree, kPi / 2), kCommonPractice});
  const X raised = record(w, "T_b", "torque to hold the raised bed, no friction credited", Quantity::torque,
                          mass * g * lever * sin(start_angle), kDerived);
  out.starting_torque.value = value(record(w, "T_0", "torque to carry the rested bed up until it slides",
                                           Quantity::torque, raised + 1.5 * trunnion, kCommonPractice));
  out.inertia.value =
      value(record(w, "J", "inertia at the axis: shell as a ring, bed at its lever", Quantity::inertia,
                   shell * pow(radius, 2.0) + mass * (pow(lever, 2.0) + 0.1 * pow(radius, 2.0)), kDerived));
  out.holding_torque.value = value(raised);
  out.runback_torque.value = value(record(w, "T_r", "torque with which the bed swings the drum back", Quantity::torque,
                                          max(0.0, lift - trunnion), kDerived));
  if (!in.machine().kind) in.ask({in.path("kind"), "Is it a screening, mixing or drying drum?", 0});
  const DrumKind kind = in.machine().kind.value_or(DrumKind::trommel);
  out.shock_class = ShockClass::uneven;
  out.shock_reason = "tumbling bed";
  out.practice_machine = kind == DrumKind::trommel       ? "sieving drum"
                         : kind == DrumKind::mixing_drum ? "mixing drum"
                                                         : "drying or cooling drum";
  out.jam.angle = {0.8, 0.2, 3, "common practice, no source: the bed or a trunnion binds over part of a turn"};
  out.jam.text =
      "A bed that has set, or a binding tyre, builds up torque over part of a turn; an object between tyre and roller "
      "or in the mesh stops it suddenly.";
  out.cautions.push_back({"rocking",
                          "The raised bed swings the drum back when power fails: it rocks, and may drive the motor. "
                          "Let it come to rest before touching it; an inching drive needs a brake."});
  if (kind == DrumKind::kiln_or_dryer)
    out.cautions.push_back({"hot_drum",
                            "A hot drum must keep turning or it bends: provide an auxiliary drive, with an overrunning "
                            "clutch that keeps it from being driven too fast."});
  out.cautions.push_back(
      stored_energy_caution("the bed that stands raised on one side",
                            "let the drum rock until it stands still, then wedge it at the tyres before the mesh, "
                            "coupling or brake is opened"));
  for (auto caution : {holding_caution, guard_caution}) out.cautions.push_back(caution());
}

}  // namespace

double bed_half_angle(double fill) {
  double a = std::cbrt(1.5 * kPi * fill);  // small-angle start; the function rises monotonically
  a = std::min(a, kPi / 2);
  for (int i = 0; i < 50; ++i) {
    const double residual = bed_residual(a, fill);
    a -= residual / (2 * std::sin(a) * std::sin(a));
    if (std::fabs(residual) < 1e-14) break;
  }
  return a;
}

Result<Demand> compute(const RotaryDrum& drum) {
  return with_ranges(drum, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::DrumKind>() {
  static const std::vector<Choice> words{{"trommel", "screening drum"},
                                         {"mixing_drum", "mixing or tumbling drum"},
                                         {"kiln_or_dryer", "kiln, dryer or cooler"}};
  return words;
}

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::RotaryDrum>() {
  using demand::RotaryDrum;
  static const RecordType type =
      demand::record_type(demand::numbers(), {field<&RotaryDrum::kind>("kind", "Kind", "What the drum does.")});
  return type;
}
