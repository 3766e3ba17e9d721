#include "engine/demand/machines/chain_conveyor.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using C = ChainConveyor;
constexpr const char* kFrictionPractice =
    "common practice, no source: 0.10 rolling, 0.15 steel on lubricated rail, 0.30 dry or dirty";

const Fields<C>& numbers() {
  static const Fields<C> list{
      number<&C::length>("length", "Length", "Between the sprockets, along the slope.", Quantity::length, {0.5, 500},
                         {}, "How long is it between the sprockets?"),
      number<&C::speed>("speed", "Chain speed", "Speed of the chain.", Quantity::speed, {0.001, 3}, {},
                        "How fast does the chain run?"),
      number<&C::sprocket_diameter>("sprocket_diameter", "Sprocket diameter", "Pitch circle of the drive sprocket.",
                                    Quantity::length, {0.05, 3}, {},
                                    "What are pitch and tooth count of the drive sprocket?"),
      number<&C::load>("load", "Load", "On each metre of the carrying run.", Quantity::line_mass, {0, 20000}, {},
                       "What lies on a metre of it at most?"),
      number<&C::slope>("slope", "Slope", "Upward positive.", Quantity::angle, {-kPi / 4, kPi / 4},
                        {0, 0, 0, "taken level"}, ""),
      number<&C::chain_mass>("chain_mass", "Chain mass", "All strands with slats, one run.", Quantity::line_mass,
                             {0.5, 2000}, {}, "What do chain and slats weigh per metre?"),
      number<&C::chain_friction>("chain_friction", "Chain friction", "Chain on its rail.", Quantity::number,
                                 {0.02, 0.6}, {0.15, 0.10, 0.30, kFrictionPractice},
                                 "Does the chain slide or roll, and is it lubricated?"),
      number<&C::load_friction>("load_friction", "Load friction", "Load over its bed; as the chain when it is carried.",
                                Quantity::number, {0.02, 1}, {}, ""),
      number<&C::breakaway_factor>("breakaway_factor", "Breakaway factor", "Friction at start over running.",
                                   Quantity::number, {1, 3}, {1.5, 1.2, 2.0, kCommonPractice},
                                   "Does it start loaded, cold or after weeks at rest?"),
  };
  return list;
}

/// Pull that breaks a steel chain over its mass a metre [N/(kg/m)]: sigma/(rho k) with 800 MPa, 7850 kg/m3 and twice
/// the mass of its straight links (k = 2). Derived; slats that carry nothing only lower it.
constexpr double kPullPerMass = 51e3;

void physics(Given<C>& in, Demand& out) {
  const double length = in(&C::length), v = in(&C::speed), radius = in(&C::sprocket_diameter) / 2, load = in(&C::load);
  const double slope = in(&C::slope), chain = in(&C::chain_mass), mu = in(&C::chain_friction);
  const double mu_load = in.said(&C::load_friction) ? in(&C::load_friction) : mu;
  if (!in.ok()) return;
  Working& w = out.working;
  const double friction =
      step(w, "F_R", "friction of both runs and the load", "F_R = g L (2 q_c mu + q_l mu_l) cos d",
           {{"L", "length", length, Quantity::length},
            {"q_c", "chain, one run", chain, Quantity::line_mass},
            {"q_l", "load", load, Quantity::line_mass},
            {"mu", "chain friction", mu},
            {"mu_l", "load friction", mu_load},
            {"d", "slope", slope, Quantity::angle}},
           kGravity * length * (2 * chain * mu + load * mu_load) * std::cos(slope), Quantity::force, kDerived);
  const double lift =
      step(w, "F_St", "lift of the load", "F_St = g L q_l sin d", {{"d", "slope", slope, Quantity::angle}},
           kGravity * length * load * std::sin(slope), Quantity::force, kDerived);
  if (friction + lift > kPullPerMass * chain) {
    in.contradict(&C::chain_mass, &C::load,
                  "a chain of that mass would break under that load on that length; check "
                  "chain mass, load, length and slope.");
    return;
  }
  const double empty = 2 * kGravity * length * chain * mu * std::cos(slope);
  const double running = std::max(friction + lift, empty);
  out.speed.value = step(w, "w", "sprocket speed", "w = 2 v / D",
                         {{"v", "chain speed", v, Quantity::speed}, {"D", "sprocket", 2 * radius, Quantity::length}},
                         v / radius, Quantity::angular_speed, kDerived);
  step(w, "F", "chain pull, full", "F = F_R + F_St", {}, friction + lift, Quantity::force, kDerived);
  out.torque.value =
      step(w, "T", "running torque at the sprocket", "T = max(F, F_empty) D / 2",
           {{"F_empty", "pull when empty", empty, Quantity::force}}, running * radius, Quantity::torque, kDerived);
  const double breakaway = in(&C::breakaway_factor);
  out.starting_torque.value =
      step(w, "T_0", "breakaway torque", "T_0 = (k F_R + F_St) D / 2", {{"k", "breakaway factor", breakaway}},
           std::max(breakaway * friction + lift, breakaway * empty) * radius, Quantity::torque, kCommonPractice);
  out.inertia.value = step(w, "J", "inertia at the sprocket, sprockets as a tenth", "J = 1.1 (2 q_c + q_l) L (D / 2)^2",
                           {}, 1.1 * (2 * chain + load) * length * radius * radius, Quantity::inertia, kCommonPractice);
  out.holding_torque.value = step(w, "T_b", "holding torque, no friction credited", "T_b = |F_St| D / 2", {},
                                  std::fabs(lift) * radius, Quantity::torque, kCommonPractice);
  if (lift > 0) {
    out.runback_torque.value =
        step(w, "T_r", "torque that turns it back without power", "T_r = max(0, F_St - F_R) D / 2", {},
             std::max(0.0, lift - friction) * radius, Quantity::torque, kDerived);
    step(w, "mu_c", "friction below which it runs back", "mu_c = q_l tan d / (2 q_c + q_l)", {},
         load * std::tan(slope) / (2 * chain + load), Quantity::number, kDerived);
    for (auto caution : {runback_caution, backstop_caution, holding_caution}) out.cautions.push_back(caution());
  } else if (lift < 0) {
    out.overhauling_torque.value =
        step(w, "T_g", "torque with which the load drives the sprocket, half the friction credited",
             "T_g = max(0, -F_St - 0.5 F_R) D / 2", {}, std::max(0.0, -lift - 0.5 * friction) * radius,
             Quantity::torque, kCommonPractice);
    out.cautions.push_back(downhill_caution());
  }
  out.cautions.push_back(stored_energy_caution(
      lift > 0   ? "the chain wound up by its load, and the load on the slope, which draws it back"
      : lift < 0 ? "the chain wound up by its load, and the load on the slope, which draws it on"
                 : "the chain wound up by its load and its take-up",
      "run it empty, slacken the take-up, and hold the chain with a puller before coupling, brake or backstop is "
      "opened"));
  classify_by_feed(in, out, in.machine().feed, "chain carrying pieces", "chain dragging bulk");
  out.jam.sudden = true;
  out.jam.angle = {0.1, 0.01, 0.4, "common practice, no source: chain stretch and slack"};
  out.jam.text = "A slat or load catches on the frame; only chain stretch and slack soften the stop.";
  out.cautions.push_back(jam_caution());
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const ChainConveyor& conveyor) { return with_ranges(conveyor, numbers(), physics); }

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ChainConveyor>() {
  using demand::ChainConveyor;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ChainConveyor::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
