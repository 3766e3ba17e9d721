#include "engine/demand/machines/paddle_mixer.h"

#include <fmt/format.h>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using P = PaddleMixer;
constexpr const char* kSpecificPower =
    "common practice, no source: power per batch volume of mixers in service; a trial or the present motor's amps are "
    "better";

const Fields<P>& numbers() {
  static const Fields<P> list{
      number<&P::volume>("volume", "Batch volume", "Of the material.", Quantity::volume, {0.0005, 100}, {},
                         "How large is the batch?"),
      number<&P::density>("density", "Density", "Of the batch.", Quantity::density, {100, 4000},
                          {1000, 500, 1800, kCommonPractice}, "What does the batch weigh?"),
      number<&P::speed>("speed", "Speed", "Of the mixer shaft.", Quantity::angular_speed, {0.05, 60}, {},
                        "How fast does the mixer shaft turn?"),
      number<&P::rotor_diameter>("rotor_diameter", "Rotor diameter", "Over the paddles.", Quantity::length, {0.05, 5},
                                 {}, "What is the diameter over the paddles?"),
      number<&P::specific_power>("specific_power", "Power per volume", "At the worst moment of the batch (W/m3).",
                                 Quantity::number, {100, 2e6}, {},
                                 "What do the amps of the present motor read at the worst moment of the batch?"),
      number<&P::start_factor>(
          "start_factor", "Start factor", "Start in a standing batch over the worst running moment.", Quantity::number,
          {1, 5}, {1.8, 1.2, 3.0, kCommonPractice}, "Must it restart with a full batch that has stood or set?"),
      number<&P::side_force>("side_force", "Side force", "Of the batch on the paddles, when the reducer carries them.",
                             Quantity::force, {0, 1e7}, {}, ""),
      number<&P::side_position>("side_position", "Place of the side force", "From the reducer's shaft shoulder.",
                                Quantity::length, {0, 20}, {}, ""),
      number<&P::thrust>("thrust", "Thrust", "Along the shaft, with the weight that hangs on it.", Quantity::force,
                         {0, 1e7}, {}, ""),
  };
  return list;
}

Default specific_power_of(Batch batch) {
  switch (batch) {
    case Batch::free_powder:
      return {5e3, 2e3, 10e3, kSpecificPower};
    case Batch::moist_grain:
      return {12e3, 6e3, 25e3, kSpecificPower};
    case Batch::paste:
      return {25e3, 10e3, 50e3, kSpecificPower};
    case Batch::dough:
      return {45e3, 20e3, 90e3, kSpecificPower};
    case Batch::stiff_plastic:
      return {150e3, 60e3, 400e3, kSpecificPower};
  }
  return {};
}

/// What no mixer can be.
void plausible(Given<P>& in) {
  constexpr double kFastestTip = 50;  // [m/s] far beyond any mixer; common practice, no source
  constexpr double kSlenderest = 20;  // length over diameter of its trough; common practice, no source
  const P& m = in.machine();
  if (m.speed && m.rotor_diameter && *m.speed * *m.rotor_diameter / 2 > kFastestTip)
    in.contradict(&P::speed, &P::rotor_diameter,
                  fmt::format("the paddle tips would run at {}; check speed and diameter.",
                              format_quantity(*m.speed * *m.rotor_diameter / 2, Quantity::speed, UnitSystem::si)));
  if (m.volume && m.rotor_diameter && *m.volume > kPi / 4 * kSlenderest * std::pow(*m.rotor_diameter, 3))
    in.contradict(&P::volume, &P::rotor_diameter,
                  "a trough of that rotor would be longer than twenty times its diameter; check both.");
  if (m.reducer_carries_shaft == false)
    for (const auto member : {&P::side_force, &P::side_position, &P::thrust})
      if (in.said(member))
        in.fail(contradiction(in.said_at(member), {in.path("reducer_carries_shaft"), "no"},
                              "a shaft with bearings of its own puts none of it on the reducer."));
}

/// What the reducer's shaft carries, or what must be asked before that is known.
void shaft_load(Given<P>& in, Demand& out) {
  const P& m = in.machine();
  if (m.reducer_carries_shaft == false) return;
  if (m.side_force && m.side_position && m.thrust) {
    out.radial_load.value = in(&P::side_force);
    out.radial_position = in(&P::side_position);
    out.axial_load.value = in(&P::thrust);
    return;
  }
  out.shaft_load_open =
      "whether the reducer carries the mixer's shaft, and if so: the side force of the batch, how far from the shaft "
      "shoulder it acts, and the thrust along the shaft";
  in.ask({in.path("reducer_carries_shaft"),
          "Does the reducer carry the mixer's shaft? Side force of the batch, its distance, thrust?", 1});
}

template <class X>
void physics(Given<P>& in, Demand& out) {
  using namespace formula;
  const X volume = in.term<X>("V", &P::volume), speed = in.term<X>("w", &P::speed),
          diameter = in.term<X>("D", &P::rotor_diameter);
  plausible(in);
  if (!in.machine().batch && !in.said(&P::specific_power))
    in.fail(
        missing(in.path("batch"), "Batch", "What is mixed: free powder, moist grain, paste, dough or stiff plastic?"));
  if (!in.ok()) return;
  Working& w = out.working;
  const Batch batch = in.machine().batch.value_or(Batch::paste);
  const X specific = in.term<X>("p", &P::specific_power, specific_power_of(batch));
  const X power =
      record(w, "P", "power at the worst moment of the batch", Quantity::power, specific * volume, kSpecificPower);
  out.speed.value = value(speed);
  const X torque = record(w, "T", "running torque", Quantity::torque, power / speed, kDerived);
  out.torque.value = value(torque);
  const X start = in.term<X>("k", &P::start_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "torque to start in a standing batch", Quantity::torque, start * torque, kCommonPractice));
  const X density = in.term<X>("rho", &P::density);
  out.inertia.value =
      value(record(w, "J", "inertia: half the batch turns along, rotor as heavy as a third of it", Quantity::inertia,
                   0.83 * density * volume * pow(0.35 * diameter, 2.0), kCommonPractice));
  const bool stiff = batch == Batch::dough || batch == Batch::stiff_plastic;
  out.shock_class = batch == Batch::stiff_plastic ? ShockClass::striking : ShockClass::uneven;
  out.shock_reason =
      stiff ? "stiff batch, torque swings with every pass of a paddle" : "torque changes through the batch";
  out.practice_machine = batch == Batch::stiff_plastic ? "kneaded stiff plastic"
                         : batch == Batch::dough       ? "kneaded dough"
                         : batch == Batch::paste       ? "stirred paste"
                                                       : "mixing drum";
  out.jam.sudden = true;
  out.jam.angle = {0.3, 0.05, 1.0, "common practice, no source: a lump or foreign body wedges between paddle and wall"};
  out.jam.text =
      "A hard lump or foreign body wedges between paddle and wall and stops the shaft within a fraction of a turn.";
  shaft_load(in, out);
  out.cautions.push_back(stored_energy_caution(
      stiff ? "the stiff batch, which springs back, and the paddles that run down"
            : "the batch that leans on the paddles, and the paddles that run down",
      "let it run down, empty or ease the batch, and block the paddles before the coupling or a lid is opened"));
  out.cautions.push_back(jam_caution());
  out.cautions.push_back(
      {"mixer_lid",
       "Lid and discharge must be interlocked: paddles draw in and do not let go, also while they run down."});
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const PaddleMixer& mixer) {
  return with_ranges(mixer, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::Batch>() {
  static const std::vector<Choice> words{{"free_powder", "free-flowing powder"},
                                         {"moist_grain", "moist grain or sand"},
                                         {"paste", "paste"},
                                         {"dough", "dough"},
                                         {"stiff_plastic", "stiff rubber or plastic"}};
  return words;
}

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::PaddleMixer>() {
  using demand::PaddleMixer;
  static const RecordType type = demand::record_type(
      demand::numbers(),
      {field<&PaddleMixer::batch>("batch", "Batch", "What is mixed."),
       field<&PaddleMixer::reducer_carries_shaft>("reducer_carries_shaft", "Reducer carries the shaft",
                                                  "No: the mixer's shaft has bearings of its own.")});
  return type;
}
