#include "engine/demand/machines/travel_drive.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using T = TravelDrive;

const Fields<T>& numbers() {
  static const Fields<T> list{
      number<&T::mass>("mass", "Mass", "Vehicle with its heaviest load.", Quantity::mass, {1, 1e7}, {},
                       "What do vehicle and load weigh together?"),
      number<&T::speed>("speed", "Speed", "Of travel.", Quantity::speed, {0.001, 15}, {}, "How fast does it travel?"),
      number<&T::wheel_diameter>("wheel_diameter", "Wheel diameter", "Tread.", Quantity::length, {0.03, 2}, {},
                                 "What is the diameter of the driven wheels?"),
      number<&T::rolling_resistance>("rolling_resistance", "Rolling resistance",
                                     "Share of the weight, with flanges and bearings.", Quantity::number, {0.002, 0.2},
                                     {}, "In what state are rails, wheels and flanges?"),
      number<&T::slope>("slope", "Slope", "Steepest part of the way.", Quantity::angle, {0, 0.5},
                        {0, 0, 0.005, kCommonPractice}, "Is the track level?"),
      number<&T::wind_force>("wind_force", "Wind force", "In service.", Quantity::force, {0, 1e7},
                             {0, 0, 0, "taken indoors"}, "Does it stand outdoors in the wind?"),
      number<&T::drives>("drives", "Drives", "That share the work.", Quantity::number, {1, 32}, {1, 1, 1, "one taken"},
                         "How many drives move it?"),
      number<&T::driven_share>("driven_share", "Driven share", "Of the weight that rests on driven wheels.",
                               Quantity::share, {0.05, 1}, {0.5, 0.4, 0.6, kCommonPractice},
                               "How many of the wheels are driven?"),
      number<&T::adhesion>("adhesion", "Adhesion", "Wheel on its track.", Quantity::number, {0.03, 1}, {}, ""),
      number<&T::start_time>("start_time", "Start time", "From rest to full speed.", Quantity::time, {0.1, 120},
                             {4, 2, 8, kCommonPractice}, "How quickly must it start and stop?"),
      number<&T::breakaway_factor>("breakaway_factor", "Breakaway factor", "Rolling resistance at start over running.",
                                   Quantity::number, {1, 4}, {1.5, 1.2, 2.0, kCommonPractice}, ""),
  };
  return list;
}

template <class X>
void physics(Given<T>& in, Demand& out) {
  using namespace formula;
  if (in.machine().carries_people.value_or(false))
    in.fail(input_error(in.path("carries_people"), "yes",
                        "Vehicles that carry people have their own codes and are refused here; they need a specialist "
                        "who is allowed to release them."));
  const X mass = in.term<X>("m", &T::mass), v = in.term<X>("v", &T::speed),
          diameter = in.term<X>("d", &T::wheel_diameter);
  in.whole(&T::drives);
  if (!in.ok()) return;
  Working& w = out.working;
  if (!in.machine().wheel) in.ask({in.path("wheel"), "Does it run on steel rails or on plastic or rubber tyres?", 1});
  const Wheel wheel = in.machine().wheel.value_or(Wheel::steel_on_rail);
  const Default rolling_default = wheel == Wheel::steel_on_rail  ? Default{0.010, 0.006, 0.020, kCommonPractice}
                                  : wheel == Wheel::plastic_tyre ? Default{0.020, 0.012, 0.035, kCommonPractice}
                                                                 : Default{0.035, 0.020, 0.060, kCommonPractice};
  const Default adhesion_default = wheel == Wheel::steel_on_rail ? Default{0.15, 0.10, 0.30, kCommonPractice}
                                                                 : Default{0.40, 0.20, 0.80, kCommonPractice};
  const X rolling = in.term<X>("w_r", &T::rolling_resistance, rolling_default);
  const X slope = in.term<X>("a", &T::slope), wind = in.term<X>("F_W", &T::wind_force),
          drives = in.term<X>("z", &T::drives), g = gravity<X>();
  const X resistance =
      record(w, "F_R", "rolling resistance", Quantity::force, rolling * mass * g * cos(slope), kCommonPractice);
  const X drift = record(w, "F_S", "slope and wind", Quantity::force, mass * g * sin(slope) + wind, kDerived);
  const X share = in.term<X>("q", &T::driven_share), adhesion = in.term<X>("mu", &T::adhesion, adhesion_default);
  // The best that wheels of that kind do when nobody said.
  const double weight = value(mass) * kGravity;
  const double grip = (in.said(&T::adhesion) ? value(adhesion) : adhesion_default.high) *
                      (in.said(&T::driven_share) ? value(share) : 1) * weight;
  if (value(resistance) + value(drift) > grip)
    in.contradict(in.said(&T::wind_force) && value(wind) > weight * std::sin(value(slope)) ? &T::wind_force
                  : in.said(&T::slope)                                                     ? &T::slope
                                                                                           : &T::rolling_resistance,
                  &T::adhesion, "the driven wheels would slip before it moves.");
  if (in.said(&T::start_time) && value(mass) * value(v) / *in.machine().start_time > grip)
    in.contradict(&T::start_time, &T::adhesion, "the driven wheels would slip: it cannot start that quickly.");
  if (!in.ok()) return;
  const X torque = record(w, "T", "running torque of one drive at its wheels", Quantity::torque,
                          (resistance + drift) * diameter / (2.0 * drives), kDerived);
  out.torque.value = value(torque);
  const X speed = record(w, "w", "wheel speed", Quantity::angular_speed, 2.0 * v / diameter, kDerived);
  out.speed.value = value(speed);
  const X breakaway = in.term<X>("k", &T::breakaway_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque of one drive", Quantity::torque,
                   (breakaway * resistance + drift) * diameter / (2.0 * drives), kCommonPractice));
  const X inertia = record(w, "J", "inertia at the wheels of one drive", Quantity::inertia,
                           mass * pow(diameter, 2.0) / (4.0 * drives), kDerived);
  out.inertia.value = value(inertia);
  const X start_time = in.term<X>("t", &T::start_time);
  const X starting = record(w, "T_a", "torque of one drive while it accelerates", Quantity::torque,
                            torque + inertia * speed / start_time, kDerived);
  if (in.said(&T::start_time)) out.starting_in_time = value(starting);
  out.holding_torque.value = value(record(w, "T_b", "torque to hold against slope and wind, no friction credited",
                                          Quantity::torque, drift * diameter / (2.0 * drives), kDerived));
  out.runback_torque.value =
      value(record(w, "T_r", "torque with which slope and wind turn it back without power", Quantity::torque,
                   max(0.0, drift - resistance) * diameter / (2.0 * drives), kDerived));
  out.overhauling_torque.value =
      value(record(w, "T_g", "torque with which slope and wind drive it, half the friction credited", Quantity::torque,
                   max(0.0, drift - 0.5 * resistance) * diameter / (2.0 * drives), kCommonPractice));
  out.jam.slip_torque = value(record(w, "T_s", "torque at which the wheels of one drive slip", Quantity::torque,
                                     adhesion * share * mass * g * diameter / (2.0 * drives), kDerived));
  out.shock_class = ShockClass::uneven;
  out.shock_reason = "starts and stops with a large mass behind it";
  out.practice_machine = "travelling or slewing";
  out.jam.sudden = true;
  out.jam.angle = {0.5, 0.1, 2, "common practice, no source: buffer stroke"};
  out.jam.text =
      "It runs into a buffer or an obstacle: the wheels slip, the motor side is stopped through the reducer.";
  if (value(wind) > 0)
    out.cautions.push_back(
        {"storm",
         "Out of service the wind may push it along the track: storm anchors or rail clamps hold it, not the drive."});
  out.cautions.push_back(stored_energy_caution(
      value(drift) > 0 ? "slope or wind that pushes the vehicle, and its own travel"
                       : "the vehicle's own travel, and buffers "
                         "that are pressed in",
      "bring it to rest on a level place, chock the wheels or clamp the rail before a coupling or a brake is opened"));
  if (value(drift) > 0) {
    out.cautions.push_back(runback_caution());
    out.cautions.push_back(holding_caution());
  }
  if (!in.machine().carries_people) in.ask({in.path("carries_people"), "Does anybody ride on it?", 0});
  out.cautions.push_back(
      {"travel_path", "Nobody may be reached by the moving vehicle: warning, end stops, travel limits."});
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const TravelDrive& drive) {
  return with_ranges(drive, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const std::vector<lobewise::model::Choice>& lobewise::model::choices_of<lobewise::demand::Wheel>() {
  static const std::vector<Choice> words{
      {"steel_on_rail", "steel wheel on rail"}, {"plastic_tyre", "plastic tyre"}, {"rubber_tyre", "rubber tyre"}};
  return words;
}

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::TravelDrive>() {
  using demand::TravelDrive;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&TravelDrive::wheel>("wheel", "Wheels", "What it runs on."),
                          field<&TravelDrive::carries_people>("carries_people", "Carries people",
                                                              "Whether anybody rides on it; yes is refused.")});
  return type;
}
