#include "engine/demand/machines/agitator.h"

#include <fmt/format.h>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using A = Agitator;

const Fields<A>& numbers() {
  static const Fields<A> list{
      number<&A::diameter>("diameter", "Impeller diameter", "Tip to tip.", Quantity::length, {0.02, 10}, {},
                           "What is the impeller diameter?"),
      number<&A::speed>("speed", "Speed", "Of the impeller.", Quantity::angular_speed, {0.05, 400}, {},
                        "How fast does it turn?"),
      number<&A::density>("density", "Density", "Of the mixture.", Quantity::density, {300, 4000},
                          {1000, 900, 1400, kCommonPractice}, "What does a litre of the mixture weigh?"),
      number<&A::viscosity>("viscosity", "Viscosity",
                            "Dynamic, at the temperature and shear of the tank, at its highest.",
                            Quantity::dynamic_viscosity, {1e-4, 1e4}, {0.001, 0.0005, 1, kCommonPractice},
                            "How thick does the liquid get at its coldest or at the end of the batch?"),
      number<&A::impellers>("impellers", "Impellers", "On one shaft.", Quantity::number, {1, 10},
                            {1, 1, 1, "one taken"}, "How many impellers are on the shaft?"),
      number<&A::power_number>("power_number", "Power number", "Turbulent, one impeller.", Quantity::number, {0.01, 20},
                               {}, "Which impeller exactly, and is its power number known?"),
      number<&A::blade_width_ratio>("blade_width_ratio", "Blade width ratio",
                                    "Width over diameter of a pitched turbine.", Quantity::number, {0.05, 0.5}, {},
                                    "How wide are the blades?"),
      number<&A::laminar_constant>("laminar_constant", "Laminar constant",
                                   "Power number times Reynolds number in creeping flow.", Quantity::number, {10, 2000},
                                   {}, ""),
      number<&A::start_factor>("start_factor", "Start factor",
                               "Torque at start over running torque; settled solids raise it.", Quantity::number,
                               {0.5, 6}, {}, "Do solids settle, and must it start in them?"),
      number<&A::impeller_mass>("impeller_mass", "Impeller mass", "Shaft and impellers.", Quantity::mass, {0.1, 1e5},
                                {}, "What do shaft and impeller weigh?"),
      number<&A::shaft_length>("shaft_length", "Shaft length",
                               "From the reducer's shaft shoulder to the impeller, when the reducer carries the shaft.",
                               Quantity::length, {0, 20}, {},
                               "Does the reducer carry the agitator shaft, and how long is it?"),
      number<&A::hydraulic_factor>("hydraulic_factor", "Hydraulic factor",
                                   "1 steady, 1.5 normal, 3 when the level passes the impeller or with gas.",
                                   Quantity::number, {0.5, 4}, {1.5, 1.0, 3.0, kCommonPractice},
                                   "Does it run while the tank fills or empties past the impeller?"),
      number<&A::side_force>("side_force", "Side force", "At the impeller, as its maker says; instead of the estimate.",
                             Quantity::force, {0, 1e7}, {}, ""),
      number<&A::thrust>("thrust", "Thrust", "Of the impeller along its shaft, weight not counted.", Quantity::force,
                         {0, 1e7}, {}, ""),
  };
  return list;
}

struct ImpellerRow {
  Default turbulent, laminar;
};
constexpr double kUsualTip = 12;  ///< [m/s] common practice, no source
constexpr const char* kPowerNumbers = "mixing handbooks, from memory";
ImpellerRow row_of(Impeller impeller) {
  switch (impeller) {
    case Impeller::disc_turbine:
      return {{5.0, 4.5, 5.8, kPowerNumbers}, {70, 60, 80, kPowerNumbers}};
    case Impeller::pitched_turbine:
      return {{1.37, 1.1, 1.6,
               "Dickey, Handbook of Chemical Engineering Calculations, sec. 12.1, read (four blades at 45 degrees, "
               "width a fifth of the diameter)"},
              {50, 40, 65, kPowerNumbers}};
    case Impeller::hydrofoil:
      return {{0.30, 0.22, 0.40, kPowerNumbers}, {45, 35, 60, kPowerNumbers}};
    case Impeller::propeller:
      return {{0.35, 0.30, 0.50, kPowerNumbers}, {40, 35, 50, kPowerNumbers}};
    case Impeller::anchor:
      return {{0.35, 0.25, 0.50, kPowerNumbers}, {300, 200, 420, kPowerNumbers}};
    case Impeller::helical_ribbon:
      return {{0.35, 0.25, 0.50, kPowerNumbers}, {350, 280, 450, kPowerNumbers}};
  }
  return {};
}

/// What no agitator can be, and what would change nothing.
void plausible(Given<A>& in) {
  constexpr double kFastestTip = 50;  // [m/s] far beyond any mixer; common practice, no source
  const A& m = in.machine();
  in.whole(&A::impellers);
  if (m.speed && m.diameter && *m.speed * *m.diameter / 2 > kFastestTip)
    in.contradict(&A::speed, &A::diameter,
                  fmt::format("the blade tips would run at {}; check speed and diameter.",
                              format_quantity(*m.speed * *m.diameter / 2, Quantity::speed, UnitSystem::si)));
  if (m.blade_width_ratio && m.power_number)
    in.contradict(&A::blade_width_ratio, &A::power_number, "the power number holds the width already; say one.");
  if (m.blade_width_ratio && m.impeller && *m.impeller != Impeller::pitched_turbine)
    in.fail(contradiction(in.said_at(&A::blade_width_ratio), {in.path("impeller"), "no pitched-blade turbine"},
                          "the ratio is used for a pitched-blade turbine only; give the power number instead."));
  if (m.side_force && m.hydraulic_factor)
    in.contradict(&A::hydraulic_factor, &A::side_force, "the factor is for the estimate; the stated force rules.");
  if (m.reducer_carries_shaft == false)
    for (const auto member : {&A::shaft_length, &A::hydraulic_factor, &A::side_force, &A::thrust})
      if (in.said(member))
        in.fail(contradiction(in.said_at(member), {in.path("reducer_carries_shaft"), "no"},
                              "a shaft with bearings of its own puts none of it on the reducer."));
}

/// What hangs on the reducer's shaft, or what must be asked before that is known.
template <class X>
void shaft_load(Given<A>& in, const X& torque, const X& diameter, const X& mass, Demand& out) {
  using namespace formula;
  const A& m = in.machine();
  if (m.reducer_carries_shaft == false) return;
  const bool told = m.reducer_carries_shaft || m.shaft_length || m.hydraulic_factor || m.side_force || m.thrust;
  if (!told) {
    out.shaft_load_open =
        "whether the reducer carries the agitator's shaft, and if so: the side force at the impeller, how far from the "
        "shaft shoulder it acts, and the thrust along the shaft";
    in.ask({in.path("reducer_carries_shaft"),
            "Does the reducer carry the agitator's shaft? Side force at the impeller, its distance, thrust?", 1});
    return;
  }
  Working& w = out.working;
  if (!m.shaft_length) out.shaft_load_open = "how far from the reducer's shaft shoulder the impeller is";
  if (!m.thrust)
    out.shaft_load_open +=
        (out.shaft_load_open.empty() ? "" : "; ") + std::string("the impeller's thrust along the shaft");
  if (!out.shaft_load_open.empty())
    in.ask({in.path(m.shaft_length ? "thrust" : "shaft_length"),
            m.shaft_length ? "What thrust does the impeller give along its shaft?"
                           : "How far from the reducer's shaft shoulder is the impeller?",
            1});
  if (m.side_force) {
    out.radial_load.value = in(&A::side_force);
  } else if (m.shaft_length) {
    const X hydraulic = in.term<X>("f", &A::hydraulic_factor);
    out.radial_load.value =
        value(record(w, "F_h", "side force of the liquid at the lowest impeller", Quantity::force,
                     0.3 * hydraulic * torque / diameter,
                     "handbook of industrial mixing, shaft design, from memory (19 000 hp f / (n D) in lb and in)"));
  }
  if (m.shaft_length) out.radial_position = in(&A::shaft_length);
  const X thrust = as<X>("F_t", "thrust", m.thrust.value_or(0.0), Quantity::force);
  out.axial_load.value = value(record(w, "F_a", "weight of shaft and impellers and their thrust, both the same way",
                                      Quantity::force, mass * gravity<X>() + thrust, kDerived));
  out.cautions.push_back({"agitator_shaft",
                          "The reducer carries the agitator's shaft: the shaft's own critical speed and its deflection "
                          "at the impeller are not computed here; its maker has to state both."});
}

template <class X>
void physics(Given<A>& in, Demand& out) {
  using namespace formula;
  const X diameter = in.term<X>("D", &A::diameter), speed = in.term<X>("w", &A::speed),
          density = in.term<X>("rho", &A::density), viscosity = in.term<X>("eta", &A::viscosity);
  const X count = in.term<X>("z", &A::impellers);
  plausible(in);
  if (!in.ok()) return;
  Working& w = out.working;
  const Impeller impeller = in.machine().impeller.value_or(Impeller::pitched_turbine);
  if (!in.machine().impeller)
    in.ask({in.path("impeller"), "What kind of impeller is it? A drawing or photograph will do.", 1});
  const Liquid liquid = in.machine().liquid.value_or(Liquid::solids);
  if (!in.machine().liquid) in.ask({in.path("liquid"), "Is it a clear liquid, one with solids, or a paste?", 0.25});
  const ImpellerRow row = row_of(impeller);
  const bool ratio_rules =
      in.said(&A::blade_width_ratio) && impeller == Impeller::pitched_turbine && !in.said(&A::power_number);
  X turbulent = in.term<X>(ratio_rules ? "Np_5" : "Np_t", &A::power_number, row.turbulent);
  if (ratio_rules)
    turbulent =
        record(w, "Np_t", "turbulent power number, from that of blades a fifth of the diameter wide", Quantity::number,
               turbulent * pow(in.term<X>("b", &A::blade_width_ratio) / 0.2, 1.25), row.turbulent.source);
  const X laminar = in.term<X>("K", &A::laminar_constant, row.laminar);
  const X turns = record(w, "n", "turns a second", Quantity::frequency, speed / (2.0 * pi<X>()), kDerived);
  const X reynolds =
      record(w, "Re", "Reynolds number", Quantity::number, density * turns * pow(diameter, 2.0) / viscosity, kDerived);
  const X number = record(w, "Np", "power number", Quantity::number, laminar / reynolds + turbulent,
                          "sum of the two asymptotes, derived; within about 20 percent in the transition");
  const X power =
      record(w, "P", "power at the shaft", Quantity::power,
             count * number * density * pow(turns, 3.0) * pow(diameter, 5.0), "definition of the power number");
  out.speed.value = value(speed);
  const X torque = record(w, "T", "running torque", Quantity::torque, power / speed, kDerived);
  out.torque.value = value(torque);
  const Default start = liquid == Liquid::pure     ? Default{1.0, 1.0, 1.3, kCommonPractice}
                        : liquid == Liquid::solids ? Default{1.5, 1.0, 3.0, kCommonPractice}
                                                   : Default{2.0, 1.3, 3.0, kCommonPractice};
  const X start_factor = in.term<X>("k", &A::start_factor, start);
  out.starting_torque.value =
      value(record(w, "T_0", "torque to start", Quantity::torque, start_factor * torque, kCommonPractice));
  const double wide = value(diameter);
  const double guess = std::max(120 * wide * wide * wide, 1.0);
  const X mass = in.term<X>("m", &A::impeller_mass, {guess, 0.5 * guess, 2 * guess, kCommonPractice});
  out.inertia.value =
      value(record(w, "J", "inertia with the liquid that turns along", Quantity::inertia,
                   0.09 * mass * pow(diameter, 2.0) + 0.02 * count * density * pow(diameter, 5.0), kCommonPractice));
  shaft_load(in, torque, diameter, mass, out);
  out.shock_class = liquid == Liquid::pure ? ShockClass::steady : ShockClass::uneven;
  out.shock_reason = liquid == Liquid::pure ? "clear liquid"
                     : in.machine().liquid  ? "solids or paste"
                                            : "liquid not said, solids taken";
  out.practice_machine = liquid == Liquid::pure     ? "stirred clear liquid"
                         : liquid == Liquid::solids ? "stirred slurry"
                                                    : "stirred paste";
  out.jam.angle = {3, 0.5, 12, "common practice, no source: settled solids or a falling lump"};
  out.jam.text = "It seldom jams; settled solids or a lump between blade and baffle load it over part of a turn.";
  out.cautions.push_back(
      stored_energy_caution("the liquid that turns on, and the weight of shaft and impellers on their coupling",
                            "let the liquid come to rest, then hang the shaft in a clamp at the vessel before the "
                            "coupling is opened"));
  if (value(speed) * value(diameter) / 2 > kUsualTip)
    out.cautions.push_back({"doubt_tip_speed",
                            "The blade tips run faster than about 12 m/s, which few agitators do: check speed and "
                            "diameter."});
  out.cautions.push_back({"vessel_entry",
                          "Nobody enters the vessel until the drive is isolated, locked and proved dead; rules for "
                          "confined spaces apply."});
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const Agitator& agitator) {
  return with_ranges(agitator, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::Impeller>() {
  static const std::vector<Choice> words{{"disc_turbine", "disc turbine, flat blades"},
                                         {"pitched_turbine", "pitched-blade turbine"},
                                         {"hydrofoil", "hydrofoil"},
                                         {"propeller", "propeller"},
                                         {"anchor", "anchor"},
                                         {"helical_ribbon", "helical ribbon"}};
  return words;
}

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::Liquid>() {
  static const std::vector<Choice> words{
      {"pure", "clear liquid"}, {"solids", "liquid with solids"}, {"paste", "paste"}};
  return words;
}

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::Agitator>() {
  using demand::Agitator;
  static const RecordType type = demand::record_type(
      demand::numbers(),
      {field<&Agitator::impeller>("impeller", "Impeller", "Kind of impeller."),
       field<&Agitator::liquid>("liquid", "Liquid", "What is stirred."),
       field<&Agitator::reducer_carries_shaft>("reducer_carries_shaft", "Reducer carries the shaft",
                                               "No: the agitator's shaft has bearings of its own.")});
  return type;
}
