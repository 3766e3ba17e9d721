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

void physics(Given<R>& in, Demand& out) {
  const double radius = in(&R::inner_diameter) / 2, length = in(&R::length), fill = in(&R::fill),
               density = in(&R::density);
  const double speed = in(&R::speed), shell = in(&R::shell_mass);
  if (!in.ok()) return;
  plausible(in);
  if (!in.ok()) return;
  if (speed * speed * radius > kThrown * kThrown * kGravity)
    out.cautions.push_back({"doubt_drum_speed",
                            "Above about three quarters of its critical speed the bed is thrown rather than leaning, "
                            "and the figures here no longer hold: check speed and diameter."});
  Working& w = out.working;
  const Bed bed = bed_of(radius, fill);
  const double mass = step(w, "m", "mass of the bed", "m = rho L A",
                           {{"rho", "bulk density", density, Quantity::density},
                            {"L", "length", length, Quantity::length},
                            {"A", "segment", bed.area, Quantity::area}},
                           density * length * bed.area, Quantity::mass, kDerived);
  step(w, "r_c", "lever of the bed's centroid", "r_c = 2 R sin^3 a / (3 (a - sin a cos a))",
       {{"R", "inner radius", radius, Quantity::length}, {"a", "half angle", bed.half_angle, Quantity::angle}},
       bed.lever, Quantity::length, kDerived);
  const double angle = in(&R::dynamic_angle);
  const double lift = step(w, "T_L", "torque of the leaning bed", "T_L = m g r_c sin th",
                           {{"th", "dynamic angle", angle, Quantity::angle}},
                           mass * kGravity * bed.lever * std::sin(angle), Quantity::torque, kDerived);
  const double tyre = in(&R::tyre_diameter, {2.3 * radius, 2.1 * radius, 2.6 * radius, kCommonPractice}) / 2;
  const double trunnion_angle = in(&R::trunnion_angle), ratio = in(&R::journal_ratio),
               friction = in(&R::bearing_friction);
  const double trunnion =
      step(w, "T_R", "torque of the trunnion bearings", "T_R = mu (d_j / d_r) (m + m_s) g R_t / cos b",
           {{"mu", "bearing friction", friction},
            {"d_j / d_r", "journal over roller", ratio},
            {"m_s", "drum", shell, Quantity::mass},
            {"R_t", "tyre radius", tyre, Quantity::length},
            {"b", "trunnion angle", trunnion_angle, Quantity::angle}},
           friction * ratio * (mass + shell) * kGravity * tyre / std::cos(trunnion_angle), Quantity::torque, kDerived);
  out.torque.value = step(w, "T", "running torque at the drum's axis", "T = T_L + T_R", {}, lift + trunnion,
                          Quantity::torque, kDerived);
  out.speed.value = speed;
  step(w, "P_rule", "US dryer rule, for comparison (lifting flights and drive losses included)",
       "P = N (4.75 d w + 0.1925 D W + 0.33 W) / 1e5 hp", {},
       dryer_rule_power(speed, 2 * radius, mass, 2 * tyre, mass + shell), Quantity::power,
       "Perry, rotary dryers, from memory");
  const double start_angle =
      in(&R::start_angle, {std::min(angle + 15 * kDegree, kPi / 2), std::min(angle + 5 * kDegree, kPi / 2),
                           std::min(angle + 35 * kDegree, kPi / 2), kCommonPractice});
  out.starting_torque.value =
      step(w, "T_0", "torque to carry the rested bed up until it slides", "T_0 = m g r_c sin th_0 + 1.5 T_R",
           {{"th_0", "start angle", start_angle, Quantity::angle}},
           mass * kGravity * bed.lever * std::sin(start_angle) + 1.5 * trunnion, Quantity::torque, kCommonPractice);
  out.inertia.value = step(
      w, "J", "inertia at the axis: shell as a ring, bed at its lever", "J = m_s R^2 + m (r_c^2 + 0.1 R^2)", {},
      shell * radius * radius + mass * (bed.lever * bed.lever + 0.1 * radius * radius), Quantity::inertia, kDerived);
  out.holding_torque.value =
      step(w, "T_b", "torque to hold the raised bed, no friction credited", "T_b = m g r_c sin th_0", {},
           mass * kGravity * bed.lever * std::sin(start_angle), Quantity::torque, kDerived);
  out.runback_torque.value = step(w, "T_r", "torque with which the bed swings the drum back", "T_r = max(0, T_L - T_R)",
                                  {}, std::max(0.0, lift - trunnion), Quantity::torque, kDerived);
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

Bed bed_of(double radius, double fill) {
  double a = std::cbrt(1.5 * kPi * fill);  // small-angle start; the function rises monotonically
  a = std::min(a, kPi / 2);
  for (int i = 0; i < 50; ++i) {
    const double residual = a - std::sin(a) * std::cos(a) - kPi * fill;
    a -= residual / (2 * std::sin(a) * std::sin(a));
    if (std::fabs(residual) < 1e-14) break;
  }
  const double s = std::sin(a);
  return {a, radius * radius * kPi * fill, 2 * radius * s * s * s / (3 * kPi * fill)};
}

double dryer_rule_power(double speed, double shell_diameter, double bed_mass, double ring_diameter, double total_mass) {
  constexpr double kHorsepower = 745.6998715822702, kFoot = 0.3048, kPound = 0.45359237;
  const double rpm = speed * 60 / (2 * kPi), w = bed_mass / kPound, W = total_mass / kPound;
  return kHorsepower * rpm * (4.75 * shell_diameter / kFoot * w + 0.1925 * ring_diameter / kFoot * W + 0.33 * W) / 1e5;
}

Result<Demand> compute(const RotaryDrum& drum) { return with_ranges(drum, numbers(), physics); }

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
