#include "engine/demand/machines/roller_table.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using R = RollerTable;

const Fields<R>& numbers() {
  static const Fields<R> list{
      number<&R::load_mass>("load_mass", "Load", "Carried by the rollers of this drive.", Quantity::mass, {0, 1e6}, {},
                            "What weighs on the rollers of one drive at most?"),
      number<&R::rollers_mass>("rollers_mass", "Rollers", "All rollers of this drive.", Quantity::mass, {0, 1e5}, {},
                               "How many rollers does one drive turn, and how heavy are they?"),
      number<&R::roller_diameter>("roller_diameter", "Roller diameter", "Outside.", Quantity::length, {0.05, 1.5}, {},
                                  "What is the roller diameter?"),
      number<&R::speed>("speed", "Speed", "Of the load.", Quantity::speed, {0.01, 20}, {},
                        "How fast does the piece travel?"),
      number<&R::resistance>("resistance", "Running resistance", "Share of the weight, bearings and rolling.",
                             Quantity::number, {0.005, 0.3}, {0.03, 0.015, 0.06, kCommonPractice},
                             "Are roller bearings greased and cool, or hot and scaled?"),
      number<&R::slip_friction>("slip_friction", "Slip friction", "Piece on roller.", Quantity::number, {0.05, 0.8},
                                {0.30, 0.20, 0.45, kCommonPractice},
                                "What lies on the rollers: cold steel, hot scaled steel, wet wood?"),
      number<&R::acceleration>("acceleration", "Acceleration", "Of the piece at each start.", Quantity::number, {0, 10},
                               {1.0, 0.5, 2.5, kCommonPractice}, "In what time must the piece reach its speed?"),
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
  if (in.said(&R::resistance) && in.said(&R::slip_friction) && *in.machine().resistance > *in.machine().slip_friction)
    in.contradict(&R::resistance, &R::slip_friction, "the rollers would slip under a piece that never moves.");
  if (in.said(&R::acceleration) && in.said(&R::slip_friction) &&
      *in.machine().acceleration > *in.machine().slip_friction * kGravity)
    in.contradict(&R::acceleration, &R::slip_friction,
                  "rollers cannot push a piece harder than friction lets them; it would slip instead.");
  if (!in.ok()) return;
  const X resistance = in.term<X>("w_r", &R::resistance), g = gravity<X>();
  const X torque = record(w, "T", "running torque", Quantity::torque,
                          resistance * g * (load + rollers) * diameter / 2.0, kCommonPractice);
  out.torque.value = value(torque);
  out.speed.value = value(record(w, "w", "roller speed", Quantity::angular_speed, 2.0 * v / diameter, kDerived));
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque", Quantity::torque, 1.5 * torque, kCommonPractice));
  const X inertia = record(w, "J", "inertia at the rollers, rollers as solid cylinders", Quantity::inertia,
                           (load + rollers / 2.0) * pow(diameter / 2.0, 2.0), kDerived);
  out.inertia.value = value(inertia);
  const X slip = in.term<X>("mu", &R::slip_friction), acceleration = in.term<X>("a", &R::acceleration);
  const X slipping = record(w, "T_s", "torque when the piece is held and the rollers slip", Quantity::torque,
                            (slip * load + resistance * rollers) * g * diameter / 2.0, kDerived);
  out.jam.slip_torque = value(slipping);
  const X starting = record(w, "T_a", "torque to accelerate the piece, or to slip under it", Quantity::torque,
                            min(torque + inertia * acceleration / (diameter / 2.0), slipping), kDerived);
  if (in.said(&R::acceleration)) out.starting_in_time = value(starting);
  if (!in.machine().reversing) in.ask({in.path("reversing"), "Does it reverse, and how often an hour?", 0.5});
  const bool reversing = in.machine().reversing.value_or(true);
  out.shock_class = reversing ? ShockClass::striking : ShockClass::uneven;
  out.shock_reason = reversing ? "pieces strike the rollers and the table reverses" : "pieces strike the rollers";
  out.practice_machine = reversing ? "rollers that reverse under pieces" : "rollers struck by pieces";
  out.jam.angle = {2, 0.5, 6, "common practice, no source: rollers slip under a held piece"};
  out.jam.text =
      "A piece against a stop lets the rollers slip; one that wedges between roller and apron stops the roller at "
      "once.";
  out.cautions.push_back(
      stored_energy_caution("a piece that presses on a stop, and the rollers that run on with their own mass",
                            "take the piece off, let the rollers come to rest and block them before a coupling is "
                            "opened"));
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const RollerTable& table) {
  return with_ranges(table, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::RollerTable>() {
  using demand::RollerTable;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&RollerTable::reversing>("reversing", "Reversing", "Runs both ways in normal work.")});
  return type;
}
