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

void physics(Given<H>& in, Demand& out) {
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
  const double load = in(&H::load_mass), v = in(&H::speed), radius = in(&H::drum_diameter) / 2;
  in.whole(&H::falls);
  if (in.said(&H::start_time) && v > kGravity * *in.machine().start_time)
    in.contradict(&H::start_time, &H::speed, "the load would be started harder than it falls.");
  if (!in.ok()) return;
  Working& w = out.working;
  const double dead = in(&H::dead_mass, {0.05 * load, 0.02 * load, 0.25 * load, kCommonPractice});
  const double counter = in(&H::counterweight), friction = in(&H::guide_friction), falls = in(&H::falls),
               slope = in(&H::slope);
  const double usual = 0.96 * std::pow(0.98, falls - 1);
  const double efficiency = in(&H::efficiency, {usual, 0.93 * usual, std::min(1.0, 1.03 * usual), kCommonPractice});
  const double weight = step(w, "F_G", "unbalanced weight along the way", "F_G = g (m + m_0 - m_c) sin a",
                             {{"m", "load", load, Quantity::mass},
                              {"m_0", "dead mass", dead, Quantity::mass},
                              {"m_c", "counterweight", counter, Quantity::mass},
                              {"a", "slope", slope, Quantity::angle}},
                             kGravity * (load + dead - counter) * std::sin(slope), Quantity::force, kDerived);
  const double empty = kGravity * (dead - counter) * std::sin(slope);
  // The empty return against a heavy counterweight may be the harder way.
  const double pull = std::max(weight, -empty) + friction;
  step(w, "F", "pull on the load", "F = max(F_G, -F_G,empty) + F_R",
       {{"F_R", "guide friction", friction, Quantity::force}}, pull, Quantity::force, kDerived);
  step(w, "P_L", "power at the load", "P_L = F v", {{"v", "speed", v, Quantity::speed}}, pull * v, Quantity::power,
       kDerived);
  const double arm = radius / falls;
  out.torque.value = step(w, "T", "torque at the drum, lifting", "T = F D / (2 z eta)",
                          {{"F", "pull", pull, Quantity::force},
                           {"D", "drum", 2 * radius, Quantity::length},
                           {"z", "falls", falls},
                           {"eta", "rope efficiency", efficiency, Quantity::share}},
                          pull * arm / efficiency, Quantity::torque, kDerived);
  out.speed.value = step(w, "w", "drum speed", "w = 2 v z / D", {{"v", "speed", v, Quantity::speed}}, v / arm,
                         Quantity::angular_speed, kDerived);
  out.starting_torque.value =
      out.torque.value;  // rope systems break away at their running torque; acceleration comes on top
  const double drum_guess = 300 * std::pow(2 * radius, 3);
  const double drum = in(&H::drum_mass, {drum_guess, 0.5 * drum_guess, 2 * drum_guess, kCommonPractice});
  out.inertia.value = step(w, "J", "inertia at the drum", "J = (m + m_0 + m_c) (D / 2z)^2 + m_d (D / 2)^2",
                           {{"m_d", "drum", drum, Quantity::mass}},
                           (load + dead + counter) * arm * arm + drum * radius * radius, Quantity::inertia, kDerived);
  const double start_time = in(&H::start_time);
  const double starting =
      step(w, "T_a", "torque at the drum while it accelerates the load", "T_a = T + J w / t",
           {{"T", "torque at the drum", out.torque.value, Quantity::torque},
            {"J", "inertia", out.inertia.value, Quantity::inertia},
            {"w", "drum speed", out.speed.value, Quantity::angular_speed},
            {"t", "start time", start_time, Quantity::time}},
           out.torque.value + out.inertia.value * out.speed.value / start_time, Quantity::torque, kDerived);
  if (in.said(&H::start_time)) out.starting_in_time = starting;
  const double static_torque = std::max(weight, -empty) * arm;
  out.holding_torque.value = step(w, "T_b", "static torque of the load, no friction credited", "T_b = F_G D / 2z", {},
                                  static_torque, Quantity::torque, kDerived);
  step(w, "T_B", "usual brake size at the drum", "T_B = 1.5 T_b", {}, 1.5 * static_torque, Quantity::torque,
       "common practice, no source; the lifting code decides");
  step(w, "T_p", "torque under the static test load", "T_p = 1.25 T_b", {}, 1.25 * static_torque, Quantity::torque,
       "Directive 2006/42/EC Annex I 4.1.3, from memory");
  const double lowering = std::max(0.0, std::max(weight, -empty) - friction) * arm * efficiency;
  out.overhauling_torque.value = step(w, "T_l", "torque with which the lowered load drives the drum",
                                      "T_l = (F_G - F_R) D eta / 2z", {}, lowering, Quantity::torque, kDerived);
  out.runback_torque.value = out.overhauling_torque.value;
  out.shock_class = ShockClass::uneven;
  out.shock_reason = "loads are picked up and stopped many times an hour";
  out.practice_machine = slope < kPi / 2 - 0.01 ? "winch on an incline" : "hoist";
  out.jam.sudden = true;
  out.jam.angle = {0.3, 0.05, 1.5,
                   "common practice, no source: rope stretch when the load catches or the hook meets its stop"};
  out.jam.text =
      "The load catches, or the hook block runs into its stop: only the rope's stretch softens it. Load and travel "
      "limiters must act first.";
  out.cautions.push_back(stored_energy_caution(
      counter > 0 ? "the hung load and the counterweight against it" : "the hung load",
      counter > 0 ? "set the load down, pin or prop the counterweight, and slacken the rope before the brake is opened"
                  : "set the load down and slacken the rope before the brake is opened"));
  if (counter > load + dead)
    out.cautions.push_back({"doubt_counterweight",
                            "The counterweight is heavier than load and dead mass together: nothing would ever come "
                            "down by itself. Check the three masses."});
  for (auto caution : {lifting_caution, holding_caution, jam_caution, guard_caution}) out.cautions.push_back(caution());
  out.cautions.push_back(no_people_caution());
}

}  // namespace

Result<Demand> compute(const Hoist& hoist) { return with_ranges(hoist, numbers(), physics); }

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
