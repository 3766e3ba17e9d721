#include "engine/demand/connection.h"

#include <fmt/format.h>

#include <array>

#include "data/overhung_factors.h"
#include "engine/demand/cautions.h"
#include "engine/demand/given.h"

namespace lobewise::demand {
namespace {

struct LinkRow {
  Link link;
  std::string_view element;
  Coefficient efficiency;
};

const LinkRow& row_of(Link link) {
  // Efficiencies: common practice, no source.
  static constexpr std::array<LinkRow, 11> rows{{
      {Link::single_chain, "chain sprocket, single strand", {0.97, 0.94, 0.98, kCommonPractice}},
      {Link::double_chain, "chain sprocket, double strand", {0.97, 0.94, 0.98, kCommonPractice}},
      {Link::toothed_belt, "timing (toothed) belt", {0.97, 0.95, 0.98, kCommonPractice}},
      {Link::pinion, "spur or helical gear / pinion", {0.97, 0.94, 0.985, kCommonPractice}},
      {Link::v_belt, "V-belt", {0.95, 0.92, 0.97, kCommonPractice}},
      {Link::flat_belt, "flat belt", {0.97, 0.95, 0.98, kCommonPractice}},
      {Link::tensioned_flat_belt, "flat belt with tensioning (jockey) pulley", {0.96, 0.94, 0.98, kCommonPractice}},
      {Link::variable_belt, "variable-pitch belt", {0.90, 0.80, 0.95, kCommonPractice}},
      {Link::friction_wheel, "friction wheel / traction roller", {0.93, 0.88, 0.96, kCommonPractice}},
      {Link::rack_pinion, "rack pinion", {0.95, 0.92, 0.97, kCommonPractice}},
      {Link::coupling, "direct flexible coupling", {1, 1, 1, "no sliding part"}},
  }};
  return rows[static_cast<std::size_t>(link)];
}

Figure scaled(const Figure& f, double factor) { return {f.value * factor, f.low * factor, f.high * factor}; }

void check(Errors& errors, const std::optional<double>& value, const char* name, const char* label, double low,
           double high, Quantity quantity) {
  if (value && !(*value >= low && *value <= high)) {
    model::Field field;
    field.label = label;
    field.quantity = quantity;
    field.limits = {low, high};
    errors.push_back(outside(std::string("connection.") + name, *value, field));
  }
}

/// Rim speed that no such link reaches [m/s]. Common practice, no source: chains about 15 to 25, belts 60, teeth 50.
double fastest_rim(Link link) {
  switch (link) {
    case Link::single_chain:
    case Link::double_chain:
      return 25;
    case Link::pinion:
    case Link::rack_pinion:
      return 50;
    default:
      return 80;
  }
}

std::string length(double value) { return format_quantity(value, Quantity::length, UnitSystem::si); }

}  // namespace

Coefficient overhung_factor(Link link) {
  for (const auto& row : data::kOverhungFactors)
    if (row.element == row_of(link).element)
      return {*row.factor_typical, *row.factor_low, *row.factor_high, row.source.data()};
  return {};
}

double belt_pull_factor(double tension_ratio) { return (tension_ratio + 1) / (tension_ratio - 1); }

Result<Demand> connect(Demand d, const Connection& c) {
  Errors errors;
  check(errors, c.pitch_diameter, "pitch_diameter", "Pitch diameter", 0.01, 5, Quantity::length);
  check(errors, c.ratio, "ratio", "Ratio of the connection", 0.1, 20, Quantity::number);
  check(errors, c.efficiency, "efficiency", "Efficiency of the connection", 0.5, 1, Quantity::share);
  check(errors, c.factor, "factor", "Overhung load factor", 0.5, 6, Quantity::number);
  check(errors, c.position, "position", "Position of the wheel", 0, 2, Quantity::length);
  const Link link = c.link.value_or(Link::coupling);
  if (link != Link::coupling && !c.pitch_diameter)
    errors.push_back(missing("connection.pitch_diameter", "Pitch diameter",
                             "What are pitch and tooth count, or the diameter, of the wheel on the reducer's shaft?"));
  if (link == Link::coupling)
    for (const auto& [name, value] :
         {std::pair{"pitch_diameter", c.pitch_diameter}, {"ratio", c.ratio}, {"efficiency", c.efficiency}})
      if (value)
        errors.push_back(contradiction(
            {std::string("connection.") + name,
             format_quantity(*value, name == std::string_view("pitch_diameter") ? Quantity::length : Quantity::number,
                             UnitSystem::si)},
            {"connection.link", c.link ? "coupling" : "not said"},
            "a coupling has no wheel, no ratio and no loss; say which chain, belt or pinion it is."));
  if (!errors.empty()) return errors;
  if (!c.link)
    d.questions.push_back(
        {"connection.link", "Does a coupling, a chain, a belt or a pinion sit on the reducer's shaft?", 0});
  if (link == Link::coupling) return d;
  const double rim = d.speed.value * c.ratio.value_or(1) * *c.pitch_diameter / 2;
  if (rim > fastest_rim(link))
    return contradiction({"connection.pitch_diameter", length(*c.pitch_diameter)},
                         {"connection.link", std::string(row_of(link).element)},
                         fmt::format("it would run at {}, faster than any such link; check diameter, ratio and speed.",
                                     format_quantity(rim, Quantity::speed, UnitSystem::si)));

  d.shaft_load_open.clear();  // behind any other link the machine has bearings of its own
  const double ratio = c.ratio.value_or(1);
  const Coefficient efficiency =
      c.efficiency ? Coefficient{*c.efficiency, *c.efficiency, *c.efficiency, "given"} : row_of(link).efficiency;
  const Coefficient factor = c.factor ? Coefficient{*c.factor, *c.factor, *c.factor, "given"} : overhung_factor(link);
  if (!c.efficiency)
    d.assumptions.push_back({"connection.efficiency", "Efficiency of the connection not said, taken.",
                             efficiency.nominal, efficiency.low, efficiency.high, Quantity::share, efficiency.source});
  if (!c.factor)
    d.assumptions.push_back({"connection.factor", "Overhung load factor not said, taken for this kind of connection.",
                             factor.nominal, factor.low, factor.high, Quantity::number, factor.source});

  using namespace formula;
  const Term i = input("i", "ratio of the connection", ratio),
             eta = input("eta", "efficiency of the connection", efficiency.nominal, Quantity::share);
  const Term torque =
      record(d.working, "T_c", "running torque at the reducer's shaft", Quantity::torque,
             input("T", "running torque of the machine", d.torque.value, Quantity::torque) / (i * eta), kDerived);
  record(d.working, "T_0c", "starting torque at the reducer's shaft", Quantity::torque,
         input("T_0", "starting torque of the machine", d.starting_torque.value, Quantity::torque) / (i * eta),
         kDerived);
  record(d.working, "w_c", "speed of the reducer's shaft", Quantity::angular_speed,
         input("w", "speed of the machine", d.speed.value, Quantity::angular_speed) * i, kDerived);
  for (auto figure : {&Demand::torque, &Demand::starting_torque}) {
    const Figure at_machine = d.*figure;
    d.*figure = {at_machine.value / (ratio * efficiency.nominal), at_machine.low / (ratio * efficiency.high),
                 at_machine.high / (ratio * efficiency.low)};
  }
  if (d.starting_in_time) *d.starting_in_time /= ratio * efficiency.nominal;
  for (auto figure : {&Demand::runback_torque, &Demand::holding_torque, &Demand::overhauling_torque})
    d.*figure = scaled(d.*figure, 1 / ratio);
  d.speed = scaled(d.speed, ratio);
  d.inertia = scaled(d.inertia, 1 / (ratio * ratio));
  for (double* angle : {&d.jam.angle.nominal, &d.jam.angle.low, &d.jam.angle.high}) *angle *= ratio;
  if (d.jam.slip_torque) *d.jam.slip_torque /= ratio * efficiency.nominal;

  const double diameter = *c.pitch_diameter;
  d.radial_per_torque = 2 * factor.nominal / diameter;
  d.radial_load = {d.torque.value * d.radial_per_torque, d.torque.low * 2 * factor.low / diameter,
                   d.torque.high * 2 * factor.high / diameter};
  d.axial_load = {};
  if (!c.position)
    d.assumptions.push_back({"connection.position",
                             "Position of the wheel not said, half its diameter from the shoulder taken.", diameter / 2,
                             diameter / 4, diameter, Quantity::length, kCommonPractice});
  d.radial_position = c.position.value_or(diameter / 2);
  record(d.working, "F_r", "radial load on the reducer's shaft", Quantity::force,
         2.0 * torque * input("f", "overhung factor", factor.nominal) /
             input("d", "pitch diameter", diameter, Quantity::length),
         factor.source);
  d.cautions.push_back(
      {"overhung",
       "The overhung load is checked at its place on the shaft; its direction counts for the unit's own bolts alone: "
       "what they stand on needs a check of its own. Belts pull on the shaft also at rest; over-tightening them spoils "
       "bearings. Push wheels on with the shaft's thread, never with a hammer."});
  return d;
}

}  // namespace lobewise::demand
