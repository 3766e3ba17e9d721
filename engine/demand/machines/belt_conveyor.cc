#include "engine/demand/machines/belt_conveyor.h"

#include <algorithm>
#include <iterator>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using B = BeltConveyor;
constexpr const char* kIso5048 =
    "ISO 5048:1989 / DIN 22101, from memory (main resistance read in an IS 11592:2000 work sheet)";
constexpr const char* kMassGuess =
    "common practice, no source: rubber belt and three-roll idlers grow about in proportion to width";

const Fields<B>& numbers() {
  static const Fields<B> list{
      number<&B::mass_flow>("mass_flow", "Mass flow", "Bulk carried at full load.", Quantity::mass_flow, {0, 5000}, {},
                            "How many tonnes an hour does it carry at most?"),
      number<&B::speed>("speed", "Belt speed", "Speed of the belt.", Quantity::speed, {0.01, 12}, {},
                        "How fast does the belt run?"),
      number<&B::length>("length", "Length", "Distance between the end drums.", Quantity::length, {1, 20000}, {},
                         "How long is it between the end drums?"),
      number<&B::lift>("lift", "Lift", "Discharge above the feed point; negative when it carries downhill.",
                       Quantity::length, {-1000, 1000}, {}, "How far does it rise or fall?"),
      number<&B::drum_diameter>("drum_diameter", "Drive drum diameter", "Over the lagging.", Quantity::length,
                                {0.05, 3}, {}, "What is the diameter of the drive drum?"),
      number<&B::belt_width>("belt_width", "Belt width", "Used to estimate belt and idler masses.", Quantity::length,
                             {0.2, 3.2}, {0.8, 0.5, 1.4, kCommonPractice}, "How wide is the belt?"),
      number<&B::belt_mass>("belt_mass", "Belt mass", "One strand, per metre.", Quantity::line_mass, {0, 200},
                            {0, 0, 0, kMassGuess}, "What does the belt weigh per metre?"),
      number<&B::carrying_idler_mass>("carrying_idler_mass", "Carrying idlers",
                                      "Rotating mass per metre of carrying strand.", Quantity::line_mass, {0, 100},
                                      {0, 0, 0, kMassGuess}, "Which idlers carry it, and how far apart?"),
      number<&B::return_idler_mass>("return_idler_mass", "Return idlers", "Rotating mass per metre of return strand.",
                                    Quantity::line_mass, {0, 60}, {0, 0, 0, kMassGuess},
                                    "Which idlers carry the return strand, and how far apart?"),
      number<&B::friction>("friction", "Artificial friction",
                           "0.016 well aligned, 0.022 normal, 0.030 poor, dusty or cold.", Quantity::number,
                           {0.008, 0.1}, {0.022, 0.016, 0.030, "ISO 5048 range, from memory"},
                           "In what state are idlers and alignment: good, normal or poor?"),
      number<&B::length_coefficient>("length_coefficient", "Length coefficient",
                                     "Adds the resistances that do not grow with length.", Quantity::number, {1, 12},
                                     {0, 0, 0, kIso5048}, ""),
      number<&B::special_resistance>("special_resistance", "Special resistance", "Skirts, scrapers, ploughs, trippers.",
                                     Quantity::force, {0, 1e6}, {300, 0, 1500, kCommonPractice},
                                     "How many scrapers are there, how long are the skirts, is there a tripper?"),
      number<&B::friction_force>("friction_force", "Friction force",
                                 "All resistance but the lift, when known as one figure.", Quantity::force, {0, 1e7},
                                 {}, "What force moves it when level?"),
      number<&B::breakaway_factor>("breakaway_factor", "Breakaway factor", "Friction at start over running friction.",
                                   Quantity::number, {1, 3}, {1.5, 1.2, 2.0, kCommonPractice},
                                   "Does it start loaded, after a night in the cold?"),
      number<&B::wrap_angle>("wrap_angle", "Wrap angle", "Belt on the drive drum.", Quantity::angle, {2, 8},
                             {kPi, kPi, 3.84, kCommonPractice}, "Is there a snub drum?"),
      number<&B::drum_friction>("drum_friction", "Drum friction",
                                "Belt on the drive drum: bare wet 0.1, lagged dry 0.35 to 0.45.", Quantity::number,
                                {0.1, 0.8}, {0.30, 0.20, 0.45, "DIN 22101 order of magnitude, from memory"},
                                "Is the drive drum lagged, and is it wet?"),
  };
  return list;
}

constexpr std::pair<double, double> kLengthCoefficients[] = {
    {3, 9.0},    {4, 7.6},    {5, 6.6},    {6, 5.9},    {8, 5.1},    {10, 4.5},    {12.5, 4.0}, {16, 3.6},
    {20, 3.2},   {25, 2.9},   {32, 2.6},   {40, 2.4},   {50, 2.2},   {63, 2.0},    {80, 1.92},  {100, 1.78},
    {150, 1.58}, {200, 1.45}, {300, 1.31}, {400, 1.25}, {500, 1.20}, {1000, 1.09}, {2000, 1.05}};

/// Cross-section of a bulk bed on a belt at most [m2]: troughed at 45 degrees with a surcharge of 30 degrees,
/// 0.21 (0.9 B - 0.05 m)^2. From memory of ISO 5048 (0.9 B - 0.05 m is the width that carries), rounded up.
double widest_bed(double belt_width) {
  const double carries = std::max(0.0, 0.9 * belt_width - 0.05);
  return 0.21 * carries * carries;
}

/// What no belt can do, and what rules over something else that was said.
void plausible(Given<B>& in) {
  constexpr double kHeaviestBulk = 3000;  // [kg/m3] heavy ores; common practice, no source
  const B& m = in.machine();
  if (m.belt_width && *m.mass_flow / *m.speed > kHeaviestBulk * widest_bed(*m.belt_width))
    in.contradict(
        &B::mass_flow, &B::belt_width,
        "even heaped to the edges with heavy ore a belt of that width at that speed carries less; check flow, "
        "width and belt speed.");
  if (m.friction_force)
    for (const auto part : {&B::friction, &B::length_coefficient, &B::special_resistance})
      if ((m.*part).has_value())
        in.contradict(&B::friction_force, part,
                      "the friction force holds that resistance already; say the one or the other.");
}

template <class X>
void physics(Given<B>& in, Demand& out) {
  using namespace formula;
  const X flow = in.term<X>("Q", &B::mass_flow), v = in.term<X>("v", &B::speed), length = in.term<X>("L", &B::length),
          lift = in.term<X>("H", &B::lift), drum = in.term<X>("D", &B::drum_diameter);
  if (!in.ok()) return;
  if (std::fabs(value(lift)) > value(length)) {
    in.contradict(&B::lift, &B::length, "Lift cannot exceed the distance between the end drums.");
    return;
  }
  plausible(in);
  if (!in.ok()) return;
  Working& w = out.working;
  const X g = gravity<X>();
  const X q_g = record(w, "q_G", "load on a metre of belt", Quantity::line_mass, flow / v, kIso5048);
  double width = 0;
  if (!in.said(&B::belt_mass) || !in.said(&B::carrying_idler_mass) || !in.said(&B::return_idler_mass))
    width = in(&B::belt_width);
  const X q_b = in.term<X>("q_B", &B::belt_mass, {13 * width, 9 * width, 18 * width, kMassGuess});
  const X q_ro = in.term<X>("q_RO", &B::carrying_idler_mass, {17 * width, 10 * width, 24 * width, kMassGuess});
  const X q_ru = in.term<X>("q_RU", &B::return_idler_mass, {6.5 * width, 4 * width, 9 * width, kMassGuess});

  X resistance = 0.0, empty = 0.0;
  if (in.said(&B::friction_force)) {
    resistance = in.term<X>("F_R", &B::friction_force);
    empty = record(w, "F_0", "resistance of the empty belt", Quantity::force, resistance, kDerived);
  } else {
    const X f = in.term<X>("f", &B::friction);
    const double table = length_coefficient(value(length));
    const double spread = value(length) < 80 ? 0.3 : 0.1;  // ISO 5048 gives C for 80 m and more only
    const X c = in.term<X>("C", &B::length_coefficient,
                           {table, 1 + (table - 1) * (1 - spread), 1 + (table - 1) * (1 + spread), kIso5048});
    const X special = in.term<X>("F_S", &B::special_resistance);
    const X cosine =
        record(w, "c_d", "cosine of the slope", Quantity::number, sqrt(1.0 - pow(lift / length, 2.0)), kDerived);
    const X main = record(w, "F_H", "main resistance", Quantity::force,
                          f * length * g * (q_ro + q_ru + (2.0 * q_b + q_g) * cosine), kIso5048);
    const X secondary = record(w, "F_N", "secondary resistance (feed, drums, belt bending)", Quantity::force,
                               (c - 1.0) * main, kIso5048);
    resistance =
        record(w, "F_R", "all resistances but the lift, full", Quantity::force, main + secondary + special, kIso5048);
    empty = record(w, "F_0", "resistance of the empty belt", Quantity::force,
                   c * f * length * g * (q_ro + q_ru + 2.0 * q_b * cosine) + special, kIso5048);
  }
  const X slope = record(w, "F_St", "lift of the load", Quantity::force, q_g * lift * g, kIso5048);
  const X effective =
      record(w, "F_U", "effective tension at the drum, full", Quantity::force, resistance + slope, kIso5048);
  const X torque = record(w, "T", "running torque at the drive drum", Quantity::torque,
                          max(effective, empty) * drum / 2.0, kDerived);
  out.torque.value = value(torque);
  record(w, "P", "power at the drum, full", Quantity::power, effective * v, kDerived);
  out.speed.value = value(record(w, "w", "drum speed", Quantity::angular_speed, 2.0 * v / drum, kDerived));

  const X breakaway = in.term<X>("k", &B::breakaway_factor);
  const X start = record(w, "F_1", "largest tension while breaking away", Quantity::force,
                         max(breakaway * resistance + slope, breakaway * empty), kCommonPractice);
  out.starting_torque.value =
      value(record(w, "T_0", "breakaway torque", Quantity::torque, start * drum / 2.0, kCommonPractice));

  const X pulleys = as<X>("k_D", "drums as a share of the moving mass",
                          in.assume({in.path("drums"), "Drums taken as a share of the moving mass", 0.10, 0.05, 0.20,
                                     Quantity::share, kCommonPractice}));
  const X moving = record(w, "m", "moving mass, idlers at their rims, drums", Quantity::mass,
                          (q_ro + q_ru + 2.0 * q_b + q_g) * length * (1.0 + pulleys), kDerived);
  out.inertia.value =
      value(record(w, "J", "inertia at the drive drum", Quantity::inertia, moving * pow(drum / 2.0, 2.0), kDerived));

  if (value(lift) > 0) {
    out.runback_torque.value = value(record(w, "T_r", "torque that turns it back without power", Quantity::torque,
                                            max(0.0, slope - resistance) * drum / 2.0, kDerived));
    record(w, "T_b50", "backstop torque with half the friction credited (lower figure, for comparison)",
           Quantity::torque, max(0.0, slope - 0.5 * resistance) * drum / 2.0, kCommonPractice);
    out.holding_torque.value = value(record(w, "T_b", "backstop torque, no friction credited", Quantity::torque,
                                            slope * drum / 2.0, kCommonPractice));
    out.cautions.push_back(runback_caution());
    out.cautions.push_back(backstop_caution());
    out.cautions.push_back(holding_caution());
    out.cautions.push_back(
        stored_energy_caution("the load on the slope, which drives the belt back, and the pull of the take-up",
                              "run it empty; where it stopped loaded, clamp the belt on the slope, lash or slacken the "
                              "take-up weight, then let brake or backstop off little by little"));
  } else if (value(lift) < 0) {
    out.holding_torque.value = value(
        record(w, "T_b", "holding torque, no friction credited", Quantity::torque, -slope * drum / 2.0, kDerived));
    out.overhauling_torque.value =
        value(record(w, "T_g", "torque with which the load drives the drum, half the friction credited",
                     Quantity::torque, max(0.0, -slope - 0.5 * resistance) * drum / 2.0, kCommonPractice));
    if (out.overhauling_torque.value > 0) out.cautions.push_back(downhill_caution());
    out.cautions.push_back(
        stored_energy_caution("the load on the slope, which drives the belt on, and the pull of the take-up",
                              "run it empty; where it stopped loaded, clamp the belt above the drive and lash or "
                              "slacken the take-up weight before the brake is opened"));
  } else {
    out.cautions.push_back(stored_energy_caution("the pull of the take-up in the belt",
                                                 "lash or slacken the take-up and clamp the belt before the coupling "
                                                 "is opened"));
  }
  constexpr double kSteepSmoothBelt = 0.3746;  // sin 22 deg: common practice for a smooth belt, no source
  if (std::fabs(value(lift)) > kSteepSmoothBelt * value(length))
    out.cautions.push_back({"doubt_slope",
                            "Lift over length is steeper than about 22 degrees, where bulk slides back on a smooth "
                            "belt: check both, or ask for cleats."});

  const X friction = in.term<X>("mu", &B::drum_friction), wrap = in.term<X>("a", &B::wrap_angle);
  const X peak =
      record(w, "F", "largest effective tension", Quantity::force, max({start, abs(effective), empty}), kDerived);
  const X slack = record(w, "T_2", "slack-side tension that carries the start without slip", Quantity::force,
                         peak / (exp(friction * wrap) - 1.0), "Euler-Eytelwein");
  record(w, "F_D", "belt pull on the drum shaft (borne by the drum's bearings)", Quantity::force, 2.0 * slack + peak,
         kDerived);

  classify_by_feed(in, out, in.machine().feed, "belt fed evenly", "belt fed in heaps");
  out.jam.sudden = false;
  const double turn = value(length) / (value(drum) / 2);
  out.jam.angle = {0.005 * turn, 0.001 * turn, 0.02 * turn,
                   "common practice, no source: the belt stretches and slips before it stops"};
  out.jam.slip_torque = value(peak) * value(drum) / 2;
  out.jam.text =
      "The belt stretches, then slips on the drum at about the pull the take-up was set for; a belt that was "
      "over-tightened, or an object wedged at the drum, gives more.";
  out.cautions.push_back(guard_caution());
}

}  // namespace

double length_coefficient(double length) {
  const auto* const end = std::end(kLengthCoefficients);
  const auto* after =
      std::find_if(std::begin(kLengthCoefficients), end, [&](const auto& row) { return row.first >= length; });
  if (after == std::begin(kLengthCoefficients)) return after->second;
  if (after == end) return std::prev(end)->second;
  const auto* before = std::prev(after);
  const double t = std::log(length / before->first) / std::log(after->first / before->first);
  return before->second + t * (after->second - before->second);
}

Result<Demand> compute(const BeltConveyor& belt) {
  return with_ranges(belt, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::BeltConveyor>() {
  using demand::BeltConveyor;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&BeltConveyor::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
