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

template <class X>
void physics(Given<C>& in, Demand& out) {
  using namespace formula;
  const X length = in.term<X>("L", &C::length), v = in.term<X>("v", &C::speed),
          sprocket = in.term<X>("D", &C::sprocket_diameter), load = in.term<X>("q_l", &C::load);
  const X slope = in.term<X>("d", &C::slope), chain = in.term<X>("q_c", &C::chain_mass),
          mu = in.term<X>("mu", &C::chain_friction);
  const X mu_load = in.said(&C::load_friction) ? in.term<X>("mu_l", &C::load_friction) : mu;
  if (!in.ok()) return;
  Working& w = out.working;
  const X g = gravity<X>();
  const X friction = record(w, "F_R", "friction of both runs and the load", Quantity::force,
                            g * length * (2.0 * chain * mu + load * mu_load) * cos(slope), kDerived);
  const X lift = record(w, "F_St", "lift of the load", Quantity::force, g * length * load * sin(slope), kDerived);
  if (value(friction) + value(lift) > kPullPerMass * value(chain)) {
    in.contradict(&C::chain_mass, &C::load,
                  "a chain of that mass would break under that load on that length; check "
                  "chain mass, load, length and slope.");
    return;
  }
  const X empty =
      record(w, "F_0", "pull when empty", Quantity::force, 2.0 * g * length * chain * mu * cos(slope), kDerived);
  out.speed.value = value(record(w, "w", "sprocket speed", Quantity::angular_speed, 2.0 * v / sprocket, kDerived));
  const X full = record(w, "F", "chain pull, full", Quantity::force, friction + lift, kDerived);
  out.torque.value = value(
      record(w, "T", "running torque at the sprocket", Quantity::torque, max(full, empty) * sprocket / 2.0, kDerived));
  const X breakaway = in.term<X>("k", &C::breakaway_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque", Quantity::torque,
                   max(breakaway * friction + lift, breakaway * empty) * sprocket / 2.0, kCommonPractice));
  out.inertia.value = value(record(w, "J", "inertia at the sprocket, sprockets as a tenth", Quantity::inertia,
                                   1.1 * (2.0 * chain + load) * length * pow(sprocket / 2.0, 2.0), kCommonPractice));
  out.holding_torque.value = value(record(w, "T_b", "holding torque, no friction credited", Quantity::torque,
                                          abs(lift) * sprocket / 2.0, kCommonPractice));
  if (value(lift) > 0) {
    out.runback_torque.value = value(record(w, "T_r", "torque that turns it back without power", Quantity::torque,
                                            max(0.0, lift - friction) * sprocket / 2.0, kDerived));
    record(w, "mu_c", "friction below which it runs back", Quantity::number, load * tan(slope) / (2.0 * chain + load),
           kDerived);
    for (auto caution : {runback_caution, backstop_caution, holding_caution}) out.cautions.push_back(caution());
  } else if (value(lift) < 0) {
    out.overhauling_torque.value =
        value(record(w, "T_g", "torque with which the load drives the sprocket, half the friction credited",
                     Quantity::torque, max(0.0, -lift - 0.5 * friction) * sprocket / 2.0, kCommonPractice));
    out.cautions.push_back(downhill_caution());
  }
  out.cautions.push_back(stored_energy_caution(
      value(lift) > 0   ? "the chain wound up by its load, and the load on the slope, which draws it back"
      : value(lift) < 0 ? "the chain wound up by its load, and the load on the slope, which draws it on"
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

Result<Demand> compute(const ChainConveyor& conveyor) {
  return with_ranges(conveyor, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ChainConveyor>() {
  using demand::ChainConveyor;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ChainConveyor::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
