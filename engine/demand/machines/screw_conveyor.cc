#include "engine/demand/machines/screw_conveyor.h"

#include <fmt/format.h>

#include <iterator>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using S = ScrewConveyor;
constexpr const char* kIso7119 =
    "ISO 7119 form, read on a public calculation page; standard itself seen as abstract only";

const Fields<S>& numbers() {
  static const Fields<S> list{
      number<&S::mass_flow>("mass_flow", "Mass flow", "Bulk conveyed at full load.", Quantity::mass_flow, {0, 1000}, {},
                            "How many tonnes an hour does it convey at most?"),
      number<&S::length>("length", "Length", "Conveying length.", Quantity::length, {0.3, 100}, {},
                         "How long is the screw?"),
      number<&S::lift>("lift", "Lift", "Outlet above inlet; 0 when level.", Quantity::length, {-10, 35}, {},
                       "Does it rise, and by how much?"),
      number<&S::diameter>("diameter", "Screw diameter", "Over the flights.", Quantity::length, {0.05, 2}, {},
                           "What is the diameter over the flights?"),
      number<&S::speed>("speed", "Screw speed", "Turning speed of the screw.", Quantity::angular_speed, {0.1, 60}, {},
                        "How fast does the screw turn?"),
      number<&S::progress_resistance>("progress_resistance", "Progress resistance",
                                      "2 for grain and salt, 4 for cement, ash, sand, cullet.", Quantity::number,
                                      {1, 8}, {3.0, 2.0, 4.0, kIso7119},
                                      "What does it convey: free-flowing and smooth, or abrasive and sharp?"),
      number<&S::start_factor>("start_factor", "Start factor", "Torque of a packed screw over running torque.",
                               Quantity::number, {1, 5}, {2.0, 1.5, 3.0, kCommonPractice},
                               "Does it start full, and does the material set or pack when it stands?"),
      number<&S::screw_mass>("screw_mass", "Screw mass", "Flights and pipe per metre.", Quantity::line_mass, {1, 500},
                             {0, 0, 0, kCommonPractice}, ""),
      number<&S::density>("density", "Bulk density", "As conveyed.", Quantity::density, {50, 5000}, {},
                          "What does a cubic metre of it weigh?"),
      number<&S::pitch>("pitch", "Pitch", "Of the flights.", Quantity::length, {0.02, 3}, {}, ""),
      number<&S::material_factor>("material_factor", "Material factor of the US form",
                                  "For the comparison with the US form.", Quantity::number, {0.2, 6}, {}, ""),
  };
  return list;
}

constexpr double kSteepest = 0.3420201433256687;  // sin 20 deg, limit of ISO 7119
/// What no screw can do.
void plausible(Given<S>& in) {
  constexpr double kHeaviestBulk = 3000;  // [kg/m3] heavy ores, when nobody said; common practice, no source
  const S& m = in.machine();
  const double density = m.density.value_or(kHeaviestBulk), pitch = m.pitch.value_or(*m.diameter);
  const double full = density * screw_volume_flow(*m.diameter, pitch, *m.speed);
  if (*m.mass_flow > full)
    in.contradict(&S::mass_flow, &S::diameter,
                  fmt::format("full to the top{} a screw of that diameter, pitch and speed conveys {} at most; check "
                              "flow, diameter, pitch, speed and bulk density.",
                              m.density ? "" : " with the heaviest bulk",
                              format_quantity(full, Quantity::mass_flow, UnitSystem::si)));
  if (m.pitch && *m.pitch > 2 * *m.diameter)
    in.contradict(&S::pitch, &S::diameter, "flights steeper than twice the diameter do not convey.");
  if (m.material_factor && !m.density) in.fail(missing(in.path("density"), "Bulk density", "The US form needs it."));
  if (m.material_factor && m.lift && *m.lift != 0)
    in.contradict(&S::material_factor, &S::lift, "the US form, which is all it serves, holds for level screws only.");
}

template <class X>
void physics(Given<S>& in, Demand& out) {
  using namespace formula;
  const X flow = in.term<X>("Q", &S::mass_flow), length = in.term<X>("L", &S::length), lift = in.term<X>("H", &S::lift),
          diameter = in.term<X>("D", &S::diameter);
  const X speed = in.term<X>("w", &S::speed);
  if (!in.ok()) return;
  if (value(lift) > kSteepest * value(length) * (1 + 1e-9)) {
    in.fail(model_error(in.path("lift"), format_quantity(value(lift), Quantity::length, UnitSystem::si),
                        "The power formula holds up to 20 degrees of rise; a steeper screw needs the maker's trials."));
    return;
  }
  plausible(in);
  if (!in.ok()) return;
  Working& w = out.working;
  const X g = gravity<X>(), lambda = in.term<X>("lambda", &S::progress_resistance);
  const X material =
      record(w, "P_H", "power to push the material", Quantity::power, g * flow * lambda * length, kIso7119);
  constexpr double kIdle = 50;  // [W/m2]
  const X idle = record(w, "P_N", "power of the empty screw", Quantity::power,
                        as<X>("p_N", "idle power per diameter and length (W/m2)", kIdle) * diameter * length, kIso7119);
  const X raise = record(w, "P_St", "power to lift", Quantity::power, g * flow * lift, kIso7119);
  const X moved =
      record(w, "P_M", "power that the material takes", Quantity::power, max(material + raise, 0.0), kIso7119);
  out.speed.value = value(speed);
  const X torque = record(w, "T", "running torque", Quantity::torque, (moved + idle) / speed, kDerived);
  out.torque.value = value(torque);
  const X start = in.term<X>("k", &S::start_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "torque to start full and packed", Quantity::torque, start * torque, kCommonPractice));
  const double wide = value(diameter);
  const X mass = in.term<X>("m", &S::screw_mass, {70 * wide, 40 * wide, 110 * wide, kCommonPractice});
  out.inertia.value = value(record(w, "J", "inertia of the screw", Quantity::inertia,
                                   mass * length * pow(0.35 * diameter, 2.0), kCommonPractice));

  const X pitch = in.said(&S::pitch) ? in.term<X>("s", &S::pitch) : diameter;
  if (in.said(&S::density)) {
    const X density = in.term<X>("rho", &S::density);
    const X fill = record(w, "phi", "share of the trough filled", Quantity::share,
                          flow / (density * screw_volume_flow(diameter, pitch, speed)), kDerived);
    constexpr double kUsualFill = 0.45;  // common practice, no source: 0.15 abrasive, 0.30 sluggish, 0.45 free-flowing
    if (value(fill) > kUsualFill)
      out.cautions.push_back({"doubt_fill",
                              "At this speed the screw runs fuller than the usual 45 percent: it may choke, and then "
                              "turns far above this torque."});
    if (in.said(&S::material_factor) && value(lift) == 0) {
      const UsScrewPower<X> us = us_screw_power<X>(length, diameter, speed, flow / density, density,
                                                   {.material = *in.machine().material_factor});
      record(w, "T_US", "US form, for comparison (its overload factor included)", Quantity::torque, us.shaft() / speed,
             kCema);
    }
  }
  record(w, "F_a", "thrust of the material back along the screw", Quantity::force,
         moved * 2.0 * pi<X>() / (speed * pitch), kDerived);
  out.cautions.push_back({"screw_thrust",
                          "The material pushes the screw back along its shaft (its thrust stands in the working): a "
                          "bearing of the screw's own has to take it, or say it as the connection's axial force."});
  out.cautions.push_back(stored_energy_caution(
      value(lift) > 0 ? "material packed in the trough, which springs back and runs down the slope"
                      : "material packed in the trough, which springs back",
      "let it run empty; where it is jammed, relieve it at the screw, not at the coupling, and stand clear of the "
      "flights"));
  classify_by_feed(in, out, in.machine().feed, "screw fed evenly", "screw flooded or with coarse bulk");
  out.jam.sudden = true;
  out.jam.angle = {0.2, 0.03, 0.8, "common practice, no source: a hard lump wedges between flight and trough"};
  out.jam.text =
      "A hard lump or stray metal wedges between flight and trough or at a hanger and stops the screw within a "
      "fraction of a turn.";
  out.cautions.push_back(jam_caution());
  out.cautions.push_back(guard_caution());
}

}  // namespace

UsDiameterRows us_diameter_rows(double inches) {
  static constexpr std::pair<double, double> kFactors[] = {{4, 12},  {6, 18},   {9, 31},   {10, 37},  {12, 55},
                                                           {14, 78}, {16, 106}, {18, 135}, {20, 165}, {24, 235}};
  const auto* after = std::begin(kFactors) + 1;
  while (after != std::end(kFactors) - 1 && after->first < inches) ++after;
  const auto* before = after - 1;
  return {before->first, after->first, before->second, after->second};
}

Result<Demand> compute(const ScrewConveyor& screw) {
  return with_ranges(screw, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ScrewConveyor>() {
  using demand::ScrewConveyor;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ScrewConveyor::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
