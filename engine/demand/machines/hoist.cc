#include "engine/demand/machines/hoist.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using H = Hoist;
constexpr const char* kNone = "taken as none";

const Fields<H>& numbers() {
  static const Fields<H> list{
      number<&H::load_mass>("load_mass", "Load", "Heaviest load.", Quantity::mass, {1, 1e6}, {},
                            "What is the heaviest load?"),
      number<&H::dead_mass>("dead_mass", "Dead mass", "Hook, cage, skip, rope.", Quantity::mass, {0, 1e6}, {},
                            "What do hook, cage or skip weigh?"),
      number<&H::counterweight>("counterweight", "Counterweight", "Hangs against the load.", Quantity::mass, {0, 1e6},
                                {0, 0, 0, kNone}, ""),
      number<&H::guide_friction>("guide_friction", "Guide friction", "Resistance along the way.", Quantity::force,
                                 {0, 1e6}, {0, 0, 0, kNone}, ""),
      number<&H::speed>("speed", "Lifting speed", "Of the load.", Quantity::speed, {0.001, 20}, {},
                        "How fast must the load travel?"),
      number<&H::drum_diameter>("drum_diameter", "Drum diameter", "To the centre of the rope, outermost layer.",
                                Quantity::length, {0.03, 5}, {},
                                "What is the diameter of the drum, and how many layers does the rope make?"),
      number<&H::falls>("falls", "Falls", "Rope parts that carry the load.", Quantity::number, {1, 16},
                        {1, 1, 1, "one taken"}, "How is the rope reeved?"),
      number<&H::efficiency>("efficiency", "Rope efficiency", "Drum and sheaves.", Quantity::share, {0.2, 1}, {},
                             "Do the sheaves run on rolling bearings?"),
      number<&H::start_time>("start_time", "Start time", "From rest to full speed.", Quantity::time, {0.05, 60},
                             {1.0, 0.5, 2.0, kCommonPractice},
                             "How quickly does it start: directly on line or with an inverter?"),
      number<&H::slope>("slope", "Slope", "Of the way, to the horizontal; vertical when not given.", Quantity::angle,
                        {0.02, kPi / 2 + 1e-9}, {kPi / 2, kPi / 2, kPi / 2, "taken vertical"}, ""),
      number<&H::drum_mass>("drum_mass", "Drum mass", "Rotating part on the slow shaft.", Quantity::mass, {0, 1e5}, {},
                            ""),
  };
  return list;
}

template <class X>
void physics(Given<H>& in, Demand& out) {
  using namespace formula;
  const std::optional<bool>& people = in.machine().lifts_people;
  if (!people)
    in.fail(
        input_error(in.path("lifts_people"), "",
                    "Say whether people are ever lifted or carried; nothing is worked out before that is answered."));
  else if (*people)
    in.fail(input_error(in.path("lifts_people"), "yes",
                        "Lifting or carrying people is refused here: passenger lifts, platforms and man-riding hoists "
                        "have their own codes "
                        "and need a specialist who is allowed to release them."));
  const X load = in.term<X>("m", &H::load_mass), v = in.term<X>("v", &H::speed),
          diameter = in.term<X>("D", &H::drum_diameter);
  in.whole(&H::falls);
  if (in.said(&H::start_time) && value(v) > kGravity * *in.machine().start_time)
    in.contradict(&H::start_time, &H::speed, "the load would be started harder than it falls.");
  if (!in.ok()) return;
  Working& w = out.working;
  const double hung = value(load);
  const X dead = in.term<X>("m_0", &H::dead_mass, {0.05 * hung, 0.02 * hung, 0.25 * hung, kCommonPractice});
  const X counter = in.term<X>("m_c", &H::counterweight), friction = in.term<X>("F_R", &H::guide_friction),
          falls = in.term<X>("z", &H::falls), slope = in.term<X>("a", &H::slope);
  const double usual = 0.96 * std::pow(0.98, value(falls) - 1);
  const X efficiency =
      in.term<X>("eta", &H::efficiency, {usual, 0.93 * usual, std::min(1.0, 1.03 * usual), kCommonPractice});
  const X g = gravity<X>();
  const X weight = record(w, "F_G", "unbalanced weight along the way", Quantity::force,
                          g * (load + dead - counter) * sin(slope), kDerived);
  // The empty return against a heavy counterweight may be the harder way.
  const X empty = record(w, "F_C", "pull of the counterweight on the empty return", Quantity::force,
                         g * (counter - dead) * sin(slope), kDerived);
  const X hard = record(w, "F_S", "unbalanced weight, the harder way", Quantity::force, max(weight, empty), kDerived);
  const X pull = record(w, "F", "pull on the load", Quantity::force, hard + friction, kDerived);
  record(w, "P_L", "power at the load", Quantity::power, pull * v, kDerived);
  const X torque = record(w, "T", "torque at the drum, lifting", Quantity::torque,
                          pull * diameter / (2.0 * falls * efficiency), kDerived);
  out.torque.value = value(torque);
  const X speed = record(w, "w", "drum speed", Quantity::angular_speed, 2.0 * v * falls / diameter, kDerived);
  out.speed.value = value(speed);
  out.starting_torque.value =
      out.torque.value;  // rope systems break away at their running torque; acceleration comes on top
  const double drum_guess = 300 * std::pow(value(diameter), 3);
  const X drum = in.term<X>("m_d", &H::drum_mass, {drum_guess, 0.5 * drum_guess, 2 * drum_guess, kCommonPractice});
  const X inertia =
      record(w, "J", "inertia at the drum", Quantity::inertia,
             (load + dead + counter) * pow(diameter / (2.0 * falls), 2.0) + drum * pow(diameter / 2.0, 2.0), kDerived);
  out.inertia.value = value(inertia);
  const X start_time = in.term<X>("t", &H::start_time);
  const X starting = record(w, "T_a", "torque at the drum while it accelerates the load", Quantity::torque,
                            torque + inertia * speed / start_time, kDerived);
  if (in.said(&H::start_time)) out.starting_in_time = value(starting);
  const X holding = record(w, "T_b", "static torque of the load, no friction credited", Quantity::torque,
                           hard * diameter / (2.0 * falls), kDerived);
  out.holding_torque.value = value(holding);
  record(w, "T_B", "usual brake size at the drum", Quantity::torque, 1.5 * holding,
         "common practice, no source; the lifting code decides");
  record(w, "T_p", "torque under the static test load", Quantity::torque, 1.25 * holding,
         "Directive 2006/42/EC Annex I 4.1.3, from memory");
  out.overhauling_torque.value =
      value(record(w, "T_l", "torque with which the lowered load drives the drum", Quantity::torque,
                   max(0.0, hard - friction) * diameter * efficiency / (2.0 * falls), kDerived));
  out.runback_torque.value = out.overhauling_torque.value;
  out.shock_class = ShockClass::uneven;
  out.shock_reason = "loads are picked up and stopped many times an hour";
  out.practice_machine = value(slope) < kPi / 2 - 0.01 ? "winch on an incline" : "hoist";
  out.jam.sudden = true;
  out.jam.angle = {0.3, 0.05, 1.5,
                   "common practice, no source: rope stretch when the load catches or the hook meets its stop"};
  out.jam.text =
      "The load catches, or the hook block runs into its stop: only the rope's stretch softens it. Load and travel "
      "limiters must act first.";
  out.cautions.push_back(stored_energy_caution(
      value(counter) > 0 ? "the hung load and the counterweight against it" : "the hung load",
      value(counter) > 0
          ? "set the load down, pin or prop the counterweight, and slacken the rope before the brake is opened"
          : "set the load down and slacken the rope before the brake is opened"));
  if (value(counter) > value(load) + value(dead))
    out.cautions.push_back({"doubt_counterweight",
                            "The counterweight is heavier than load and dead mass together: nothing would ever come "
                            "down by itself. Check the three masses."});
  for (auto caution : {lifting_caution, holding_caution, jam_caution, guard_caution}) out.cautions.push_back(caution());
  out.cautions.push_back(no_people_caution());
}

}  // namespace

Result<Demand> compute(const Hoist& hoist) {
  return with_ranges(hoist, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::Hoist>() {
  using demand::Hoist;
  static const RecordType type = demand::record_type(
      demand::numbers(),
      {field<&Hoist::lifts_people>("lifts_people", "Lifts people",
                                   "Whether people are ever lifted or carried. Must be answered; yes is refused.")});
  return type;
}
