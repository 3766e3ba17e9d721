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
constexpr const char* kCema = "CEMA 350 form, from memory";

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
constexpr double kHorsepower = 745.6998715822702, kFoot = 0.3048, kInch = 0.0254, kPound = 0.45359237;

/// Diameter factor Fd by screw diameter in inches (CEMA 350, from memory).
constexpr std::pair<double, double> kDiameterFactors[] = {{4, 12},  {6, 18},   {9, 31},   {10, 37},  {12, 55},
                                                          {14, 78}, {16, 106}, {18, 135}, {20, 165}, {24, 235}};

double diameter_factor(double inches) {
  const auto* after = std::begin(kDiameterFactors) + 1;
  while (after != std::end(kDiameterFactors) - 1 && after->first < inches) ++after;
  const auto* before = after - 1;
  return before->second + (inches - before->first) / (after->first - before->first) * (after->second - before->second);
}

/// What no screw can do.
void plausible(Given<S>& in) {
  constexpr double kHeaviestBulk = 3000;  // [kg/m3] heavy ores, when nobody said; common practice, no source
  const S& m = in.machine();
  const double density = m.density.value_or(kHeaviestBulk), pitch = m.pitch.value_or(*m.diameter);
  const double full = density * screw_volume_flow(*m.diameter, pitch, *m.speed, 1);
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

void physics(Given<S>& in, Demand& out) {
  const double flow = in(&S::mass_flow), length = in(&S::length), lift = in(&S::lift), diameter = in(&S::diameter);
  const double speed = in(&S::speed);
  if (!in.ok()) return;
  if (lift > kSteepest * length * (1 + 1e-9)) {
    in.fail(model_error(in.path("lift"), format_quantity(lift, Quantity::length, UnitSystem::si),
                        "The power formula holds up to 20 degrees of rise; a steeper screw needs the maker's trials."));
    return;
  }
  plausible(in);
  if (!in.ok()) return;
  Working& w = out.working;
  const double lambda = in(&S::progress_resistance);
  const double material = step(w, "P_H", "power to push the material", "P_H = g Q lambda L",
                               {{"Q", "mass flow", flow, Quantity::mass_flow},
                                {"lambda", "progress resistance", lambda},
                                {"L", "length", length, Quantity::length}},
                               kGravity * flow * lambda * length, Quantity::power, kIso7119);
  const double idle = step(w, "P_N", "power of the empty screw", "P_N = 50 W/m2 D L",
                           {{"D", "diameter", diameter, Quantity::length}, {"L", "length", length, Quantity::length}},
                           50 * diameter * length, Quantity::power, kIso7119);
  const double raise = step(w, "P_St", "power to lift", "P_St = g Q H", {{"H", "lift", lift, Quantity::length}},
                            kGravity * flow * lift, Quantity::power, kIso7119);
  const double power = std::max(material + raise, 0.0) + idle;
  out.speed.value = speed;
  out.torque.value = step(w, "T", "running torque", "T = (P_H + P_St + P_N) / w",
                          {{"w", "speed", speed, Quantity::angular_speed}}, power / speed, Quantity::torque, kDerived);
  const double start = in(&S::start_factor);
  out.starting_torque.value =
      step(w, "T_0", "torque to start full and packed", "T_0 = k T", {{"k", "start factor", start}},
           start * out.torque.value, Quantity::torque, kCommonPractice);
  const double mass = in(&S::screw_mass, {70 * diameter, 40 * diameter, 110 * diameter, kCommonPractice});
  out.inertia.value =
      step(w, "J", "inertia of the screw", "J = m L (0.35 D)^2", {{"m", "screw per metre", mass, Quantity::line_mass}},
           mass * length * 0.1225 * diameter * diameter, Quantity::inertia, kCommonPractice);

  const double pitch = in.said(&S::pitch) ? in(&S::pitch) : diameter;
  if (in.said(&S::density)) {
    const double density = in(&S::density);
    const double fill =
        step(w, "phi", "share of the trough filled", "phi = Q / (rho pi/4 D^2 s n)",
             {{"rho", "bulk density", density, Quantity::density}, {"s", "pitch", pitch, Quantity::length}},
             flow / density / screw_volume_flow(diameter, pitch, speed, 1), Quantity::share, kDerived);
    constexpr double kUsualFill = 0.45;  // common practice, no source: 0.15 abrasive, 0.30 sluggish, 0.45 free-flowing
    if (fill > kUsualFill)
      out.cautions.push_back({"doubt_fill",
                              "At this speed the screw runs fuller than the usual 45 percent: it may choke, and then "
                              "turns far above this torque."});
    if (in.said(&S::material_factor) && lift == 0) {
      const UsScrewPower us =
          us_screw_power(length, diameter, speed, flow / density, density, {.material = in(&S::material_factor)});
      step(w, "T_US", "US form, for comparison (its overload factor included)", "T_US = (P_f + P_m) Fo / w",
           {{"P_f", "friction", us.friction, Quantity::power},
            {"P_m", "material", us.material, Quantity::power},
            {"Fo", "overload factor", us.overload_factor}},
           us.shaft() / speed, Quantity::torque, kCema);
    }
  }
  step(w, "F_a", "thrust of the material back along the screw", "F_a = (P_H + P_St) 2 pi/(w s)",
       {{"P_H", "power to push", material, Quantity::power},
        {"P_St", "power to lift", raise, Quantity::power},
        {"w", "speed", speed, Quantity::angular_speed},
        {"s", "pitch", pitch, Quantity::length}},
       std::max(material + raise, 0.0) * 2 * kPi / (speed * pitch), Quantity::force, kDerived);
  out.cautions.push_back({"screw_thrust",
                          "The material pushes the screw back along its shaft (its thrust stands in the working): a "
                          "bearing of the screw's own has to take it, or say it as the connection's axial force."});
  out.cautions.push_back(stored_energy_caution(
      lift > 0 ? "material packed in the trough, which springs back and runs down the slope"
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

double screw_volume_flow(double diameter, double pitch, double speed, double fill) {
  return kPi / 4 * diameter * diameter * pitch * speed / (2 * kPi) * fill;
}

UsScrewPower us_screw_power(double length, double diameter, double speed, double volume_flow, double density,
                            const UsScrewFactors& factors) {
  const double feet = length / kFoot, rpm = speed * 60 / (2 * kPi);
  const double cubic_feet_per_hour = volume_flow * 3600 / (kFoot * kFoot * kFoot);
  const double pounds_per_cubic_foot = density * kFoot * kFoot * kFoot / kPound;
  const double friction = feet * rpm * diameter_factor(diameter / kInch) * factors.bearing / 1e6;
  const double material =
      cubic_feet_per_hour * feet * pounds_per_cubic_foot * factors.flight * factors.material * factors.paddle / 1e6;
  // Fit of the overload chart between 0.2 and 5.2 hp, from memory; 3.0 below, 1.0 above.
  const double sum = friction + material;
  const double overload = sum >= 5.2 ? 1.0 : 2.024 - 0.6115 * std::log(std::max(sum, 0.2));
  return {friction * kHorsepower, material * kHorsepower, overload};
}

Result<Demand> compute(const ScrewConveyor& screw) { return with_ranges(screw, numbers(), physics); }

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ScrewConveyor>() {
  using demand::ScrewConveyor;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ScrewConveyor::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
