#include "engine/demand/machines/roller_conveyor.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using R = RollerConveyor;

const Fields<R>& numbers() {
  static const Fields<R> list{
      number<&R::load_mass>("load_mass", "Load", "All unit loads that stand on the driven rollers at once.",
                            Quantity::mass, {0, 1e6}, {}, "How many loads of what weight stand on it at once?"),
      number<&R::rollers_mass>("rollers_mass", "Rollers", "Rotating mass of all driven rollers.", Quantity::mass,
                               {0, 1e5}, {}, "How many rollers, and how heavy?"),
      number<&R::roller_diameter>("roller_diameter", "Roller diameter", "Outside.", Quantity::length, {0.01, 1}, {},
                                  "What is the roller diameter?"),
      number<&R::speed>("speed", "Speed", "Of the load.", Quantity::speed, {0.005, 5}, {},
                        "How fast do the loads travel?"),
      number<&R::resistance>("resistance", "Running resistance",
                             "Share of the weight: 0.03 steel-bottomed, 0.05 wooden pallets, 0.08 soft cartons.",
                             Quantity::number, {0.005, 0.3}, {0.05, 0.03, 0.08, kCommonPractice},
                             "What is the underside of the load: steel, wood, carton?"),
      number<&R::drive_loss>("drive_loss", "Drive loss factor", "Roller-to-roller chains or line shaft.",
                             Quantity::number, {1, 3}, {1.25, 1.10, 1.50, kCommonPractice},
                             "How many rollers are chained one behind the other?"),
      number<&R::breakaway_factor>("breakaway_factor", "Breakaway factor", "Start over running.", Quantity::number,
                                   {1, 4}, {1.8, 1.3, 2.5, kCommonPractice},
                                   "Do pallets stand for hours before it starts?"),
      number<&R::slip_friction>("slip_friction", "Slip friction", "Load on turning rollers.", Quantity::number,
                                {0.05, 1}, {0.30, 0.20, 0.50, kCommonPractice},
                                "Are loads ever stopped against an end stop with the rollers turning?"),
  };
  return list;
}

template <class X>
void physics(Given<R>& in, Demand& out) {
  using namespace formula;
  const X load = in.term<X>("m", &R::load_mass), rollers = in.term<X>("m_r", &R::rollers_mass),
          diameter = in.term<X>("d", &R::roller_diameter), v = in.term<X>("v", &R::speed);
  if (!in.ok()) return;
  Working& w = out.working;
  if (in.said(&R::resistance) && in.said(&R::slip_friction) && *in.machine().resistance > *in.machine().slip_friction) {
    in.contradict(&R::resistance, &R::slip_friction, "the rollers would slip under a load that never moves.");
    return;
  }
  const X resistance = in.term<X>("w_r", &R::resistance), loss = in.term<X>("k", &R::drive_loss), g = gravity<X>();
  const X force =
      record(w, "F", "running resistance", Quantity::force, resistance * g * (load + rollers), kCommonPractice);
  const X torque = record(w, "T", "running torque of all rollers, with the losses of their drive", Quantity::torque,
                          loss * force * diameter / 2.0, kCommonPractice);
  out.torque.value = value(torque);
  out.speed.value = value(record(w, "w", "roller speed", Quantity::angular_speed, 2.0 * v / diameter, kDerived));
  const X breakaway = in.term<X>("k_0", &R::breakaway_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque", Quantity::torque, breakaway * torque, kCommonPractice));
  out.inertia.value = value(record(w, "J", "inertia at the rollers, load and roller shells at the rim",
                                   Quantity::inertia, (load + rollers) * pow(diameter / 2.0, 2.0), kDerived));
  const X slip = in.term<X>("mu", &R::slip_friction);
  out.jam.slip_torque = value(record(w, "T_s", "torque when the load is held and the rollers slip", Quantity::torque,
                                     loss * slip * load * g * diameter / 2.0, kDerived));
  out.shock_class = ShockClass::steady;
  out.shock_reason = "unit loads placed on turning rollers";
  out.practice_machine = "rollers under parcels";
  out.jam.angle = {3, 1, 6, "common practice, no source: rollers slip under a held load"};
  out.jam.text = "A load against a stop lets the rollers slip; a broken or wedged roller chain stops them at once.";
  out.cautions.push_back(
      stored_energy_caution("loads that press on a stop or stand on a falling stretch, and the wound-up roller chains",
                            "take the loads off or block them before the chain or the coupling is opened"));
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const RollerConveyor& conveyor) {
  return with_ranges(conveyor, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::RollerConveyor>() {
  static const RecordType type = demand::record_type(demand::numbers());
  return type;
}
