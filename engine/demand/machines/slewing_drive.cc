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

template <class X>
void physics(Given<S>& in, Demand& out) {
  using namespace formula;
  const X axial = in.term<X>("F_a", &S::axial_load), moment = in.term<X>("M", &S::tilting_moment),
          radial = in.term<X>("F_r", &S::radial_load), diameter = in.term<X>("D", &S::track_diameter);
  const X slewing = in.term<X>("J_s", &S::slewing_inertia), turning = in.term<X>("w_s", &S::slewing_speed),
          ratio = in.term<X>("i", &S::gear_ratio);
  in.whole(&S::drives);
  if (!in.ok()) return;
  Working& w = out.working;
  const X mu = in.term<X>("mu", &S::friction);
  const X bearing = record(w, "M_f", "friction of the slewing bearing", Quantity::torque,
                           slewing_friction(axial, moment, radial, diameter, mu), kDerived);
  const X friction = record(w, "M_R", "friction of the slewing bearing and its seals", Quantity::torque,
                            bearing + in.term<X>("M_D", &S::seal_torque), kDerived);
  const X wind = in.term<X>("M_W", &S::wind_moment), leaning = in.term<X>("M_S", &S::slope_moment);
  const X outside =
      record(w, "M_w", "wind and slope about the slewing axis", Quantity::torque, wind + leaning, kDerived);
  const X efficiency = in.term<X>("eta", &S::mesh_efficiency), drives = in.term<X>("z", &S::drives);
  const X torque = record(w, "T", "running torque at one pinion", Quantity::torque,
                          (friction + outside) / (ratio * drives * efficiency), kDerived);
  out.torque.value = value(torque);
  const X speed = record(w, "w", "pinion speed", Quantity::angular_speed, ratio * turning, kDerived);
  out.speed.value = value(speed);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque at one pinion", Quantity::torque,
                   (1.5 * friction + outside) / (ratio * drives * efficiency), kCommonPractice));
  const X inertia =
      record(w, "J", "inertia at one pinion", Quantity::inertia, slewing / (pow(ratio, 2.0) * drives), kDerived);
  out.inertia.value = value(inertia);
  const X start_time = in.term<X>("t", &S::start_time);
  const X starting = record(w, "T_a", "torque at one pinion while it accelerates", Quantity::torque,
                            torque + inertia * speed / (start_time * efficiency), kDerived);
  if (in.said(&S::start_time)) out.starting_in_time = value(starting);
  out.holding_torque.value =
      value(record(w, "T_b", "torque at one pinion to hold against wind and slope, no friction credited",
                   Quantity::torque, outside / (ratio * drives), kDerived));
  out.runback_torque.value = value(record(w, "T_r", "torque with which wind and slope turn a pinion back without power",
                                          Quantity::torque, max(0.0, outside - friction) / (ratio * drives), kDerived));
  out.overhauling_torque.value = value(
      record(w, "T_g", "torque with which wind and slope drive a pinion, half the friction credited", Quantity::torque,
             max(0.0, outside - 0.5 * friction) * efficiency / (ratio * drives), kCommonPractice));
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
  if (value(outside) > 0) out.cautions.push_back(holding_caution());
  out.cautions.push_back(stored_energy_caution(
      "the turning boom, wind on it and a leaning axis, and a load that hangs from it",
      "set the load down, let the boom come to rest and pin or anchor it before a pinion or a brake is opened"));
  for (auto caution : {lifting_caution, jam_caution, guard_caution}) out.cautions.push_back(caution());
}

}  // namespace

Result<Demand> compute(const SlewingDrive& drive) {
  return with_ranges(drive, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::SlewingDrive>() {
  static const RecordType type = demand::record_type(demand::numbers());
  return type;
}
