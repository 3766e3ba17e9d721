#include "engine/demand/machines/slewing_drive.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using S = SlewingDrive;
constexpr const char* kNone = "taken as none";

const Fields<S>& numbers() {
  static const Fields<S> list{
      number<&S::axial_load>("axial_load", "Axial load", "On the slewing bearing.", Quantity::force, {0, 1e8}, {},
                             "What weight rests on the slewing bearing?"),
      number<&S::tilting_moment>("tilting_moment", "Tilting moment", "Of load and boom about the bearing.",
                                 Quantity::torque, {0, 1e8}, {}, "What tilting moment acts on the bearing?"),
      number<&S::radial_load>("radial_load", "Radial load", "On the bearing.", Quantity::force, {0, 1e7},
                              {0, 0, 0, kNone}, ""),
      number<&S::track_diameter>("track_diameter", "Track diameter", "Raceway.", Quantity::length, {0.1, 20}, {},
                                 "What is the raceway diameter?"),
      number<&S::friction>("friction", "Raceway friction", "0.004 new and well greased, 0.010 worn or cold.",
                           Quantity::number, {0.001, 0.05}, {0.006, 0.004, 0.010, kCommonPractice},
                           "How old is the slewing bearing, and how cold does it get?"),
      number<&S::seal_torque>("seal_torque", "Seal torque", "Of the bearing's seals, unloaded.", Quantity::torque,
                              {0, 1e5}, {0, 0, 0, kNone}, ""),
      number<&S::slewing_inertia>("slewing_inertia", "Slewing inertia",
                                  "Everything that turns, about the slewing axis.", Quantity::inertia, {0, 1e10}, {},
                                  "What is the inertia about the slewing axis, or masses and reaches?"),
      number<&S::slewing_speed>("slewing_speed", "Slewing speed", "Of the upper structure.", Quantity::angular_speed,
                                {1e-4, 3}, {}, "How long does a full turn take?"),
      number<&S::gear_ratio>("gear_ratio", "Ring ratio", "Teeth of the ring over teeth of the pinion.",
                             Quantity::number, {1, 40}, {}, "How many teeth have ring and pinion?"),
      number<&S::mesh_efficiency>("mesh_efficiency", "Mesh efficiency", "Open pinion and ring, greased.",
                                  Quantity::share, {0.7, 1}, {0.95, 0.90, 0.97, kCommonPractice}, ""),
      number<&S::wind_moment>("wind_moment", "Wind moment", "About the slewing axis, in service.", Quantity::torque,
                              {0, 1e8}, {0, 0, 0, "taken indoors"}, "Does it stand outdoors in the wind?"),
      number<&S::slope_moment>("slope_moment", "Slope moment", "From a leaning axis.", Quantity::torque, {0, 1e8},
                               {0, 0, 0, "taken upright"}, "Can the slewing axis lean?"),
      number<&S::drives>("drives", "Drives", "Pinions that share the work.", Quantity::number, {1, 8},
                         {1, 1, 1, "one taken"}, "How many pinions turn it?"),
      number<&S::start_time>("start_time", "Start time", "From rest to full speed.", Quantity::time, {0.2, 120},
                             {5, 3, 10, kCommonPractice}, "How quickly must it start and stop?"),
  };
  return list;
}

void physics(Given<S>& in, Demand& out) {
  const double axial = in(&S::axial_load), moment = in(&S::tilting_moment), radial = in(&S::radial_load),
               diameter = in(&S::track_diameter);
  const double inertia = in(&S::slewing_inertia), speed = in(&S::slewing_speed), ratio = in(&S::gear_ratio);
  in.whole(&S::drives);
  if (!in.ok()) return;
  Working& w = out.working;
  const double mu = in(&S::friction);
  const double friction = step(w, "M_f", "friction of the slewing bearing",
                               "M_f = mu D / 2 ((F_a + 8 M / (pi D)) / sin 45 + 4 F_r / (pi cos 45))",
                               {{"mu", "raceway friction", mu},
                                {"D", "track diameter", diameter, Quantity::length},
                                {"F_a", "axial load", axial, Quantity::force},
                                {"M", "tilting moment", moment, Quantity::torque},
                                {"F_r", "radial load", radial, Quantity::force}},
                               slewing_friction(axial, moment, radial, diameter, mu), Quantity::torque, kDerived) +
                          in(&S::seal_torque);
  const double outside = step(w, "M_w", "wind and slope about the slewing axis", "M_w = M_wind + M_slope", {},
                              in(&S::wind_moment) + in(&S::slope_moment), Quantity::torque, kDerived);
  const double efficiency = in(&S::mesh_efficiency), drives = in(&S::drives);
  const double divide = ratio * drives;
  out.torque.value = step(
      w, "T", "running torque at one pinion", "T = (M_f + M_w) / (i z eta)",
      {{"i", "ring ratio", ratio}, {"z", "drives", drives}, {"eta", "mesh efficiency", efficiency, Quantity::share}},
      (friction + outside) / (divide * efficiency), Quantity::torque, kDerived);
  out.speed.value =
      step(w, "w", "pinion speed", "w = i w_s", {{"w_s", "slewing speed", speed, Quantity::angular_speed}},
           speed * ratio, Quantity::angular_speed, kDerived);
  out.starting_torque.value =
      step(w, "T_0", "breakaway torque at one pinion", "T_0 = (1.5 M_f + M_w) / (i z eta)", {},
           (1.5 * friction + outside) / (divide * efficiency), Quantity::torque, kCommonPractice);
  out.inertia.value = step(w, "J", "inertia at one pinion", "J = J_s / (i^2 z)",
                           {{"J_s", "slewing inertia", inertia, Quantity::inertia}}, inertia / (ratio * ratio * drives),
                           Quantity::inertia, kDerived);
  const double start_time = in(&S::start_time);
  const double starting = step(w, "T_a", "torque at one pinion while it accelerates", "T_a = T + J w / (t eta)",
                               {{"T", "running torque", out.torque.value, Quantity::torque},
                                {"J", "inertia", out.inertia.value, Quantity::inertia},
                                {"w", "pinion speed", out.speed.value, Quantity::angular_speed},
                                {"t", "start time", start_time, Quantity::time},
                                {"eta", "mesh efficiency", efficiency, Quantity::share}},
                               out.torque.value + out.inertia.value * out.speed.value / (start_time * efficiency),
                               Quantity::torque, kDerived);
  if (in.said(&S::start_time)) out.starting_in_time = starting;
  out.holding_torque.value = step(w, "T_b", "torque at one pinion to hold against wind and slope, no friction credited",
                                  "T_b = M_w / (i z)", {}, outside / divide, Quantity::torque, kDerived);
  out.runback_torque.value = std::max(0.0, outside - friction) / divide;
  out.overhauling_torque.value = std::max(0.0, outside - 0.5 * friction) * efficiency / divide;
  out.shock_class = ShockClass::uneven;
  out.shock_reason = "a large inertia is started and stopped";
  out.practice_machine = "travelling or slewing";
  out.jam.sudden = true;
  out.jam.angle = {0.3, 0.05, 1.0,
                   "common practice, no source: backlash and boom flexibility, turned up by the ring ratio"};
  out.jam.text =
      "The boom strikes an obstacle: its inertia drives back through the ring, multiplied by the mesh; a slip clutch "
      "or torque limiter is usual.";
  out.cautions.push_back({"weathervane",
                          "Out of service the boom may have to turn freely with the wind, or be anchored: the crane "
                          "code decides which; then brake and reducer must let it turn."});
  if (outside > 0) out.cautions.push_back(holding_caution());
  out.cautions.push_back(stored_energy_caution(
      "the turning boom, wind on it and a leaning axis, and a load that hangs from it",
      "set the load down, let the boom come to rest and pin or anchor it before a pinion or a brake is opened"));
  for (auto caution : {lifting_caution, jam_caution, guard_caution}) out.cautions.push_back(caution());
}

}  // namespace

double slewing_friction(double axial, double moment, double radial, double diameter, double friction) {
  const double root = std::sqrt(2.0);  // 1 / sin 45 = 1 / cos 45
  return friction * diameter / 2 * root * (axial + 8 * moment / (kPi * diameter) + 4 / kPi * radial);
}

Result<Demand> compute(const SlewingDrive& drive) { return with_ranges(drive, numbers(), physics); }

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::SlewingDrive>() {
  static const RecordType type = demand::record_type(demand::numbers());
  return type;
}
