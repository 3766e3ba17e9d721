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

void physics(Given<R>& in, Demand& out) {
  const double load = in(&R::load_mass), rollers = in(&R::rollers_mass), radius = in(&R::roller_diameter) / 2,
               v = in(&R::speed);
  if (!in.ok()) return;
  Working& w = out.working;
  if (in.said(&R::resistance) && in.said(&R::slip_friction) && *in.machine().resistance > *in.machine().slip_friction) {
    in.contradict(&R::resistance, &R::slip_friction, "the rollers would slip under a load that never moves.");
    return;
  }
  const double resistance = in(&R::resistance), loss = in(&R::drive_loss);
  const double force = step(w, "F", "running resistance", "F = w g (m + m_r)",
                            {{"w", "running resistance", resistance},
                             {"m", "load", load, Quantity::mass},
                             {"m_r", "rollers", rollers, Quantity::mass}},
                            resistance * kGravity * (load + rollers), Quantity::force, kCommonPractice);
  out.torque.value = step(w, "T", "running torque of all rollers, with the losses of their drive", "T = k F d / 2",
                          {{"k", "drive loss", loss}, {"d", "roller diameter", 2 * radius, Quantity::length}},
                          loss * force * radius, Quantity::torque, kCommonPractice);
  out.speed.value = step(w, "w", "roller speed", "w = 2 v / d", {{"v", "speed", v, Quantity::speed}}, v / radius,
                         Quantity::angular_speed, kDerived);
  const double breakaway = in(&R::breakaway_factor);
  out.starting_torque.value =
      step(w, "T_0", "breakaway torque", "T_0 = k_0 T", {{"k_0", "breakaway factor", breakaway}},
           breakaway * out.torque.value, Quantity::torque, kCommonPractice);
  out.inertia.value =
      step(w, "J", "inertia at the rollers, load and roller shells at the rim", "J = (m + m_r) (d / 2)^2", {},
           (load + rollers) * radius * radius, Quantity::inertia, kDerived);
  const double slip = in(&R::slip_friction);
  out.jam.slip_torque =
      step(w, "T_s", "torque when the load is held and the rollers slip", "T_s = k mu m g d / 2",
           {{"mu", "slip friction", slip}}, loss * slip * load * kGravity * radius, Quantity::torque, kDerived);
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

Result<Demand> compute(const RollerConveyor& conveyor) { return with_ranges(conveyor, numbers(), physics); }

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::RollerConveyor>() {
  static const RecordType type = demand::record_type(demand::numbers());
  return type;
}
