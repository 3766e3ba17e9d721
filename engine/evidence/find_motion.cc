// motion: how stiff it is, what it loses on reversal and what it shakes at.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/excitations.h"
#include "engine/evidence/questions.h"
#include "engine/mechanism/kinematics.h"
#include "engine/motion/excitation.h"
#include "engine/range/bearing.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Clear distance of the natural frequency from an excitation. Common practice, no source.
constexpr double kClearOfResonance = 0.15;
/// [kg/m3], from memory.
constexpr double kSteelDensity = 7850;

/// Natural frequency in torsion with the link to the machine as stiff as it was said or is sampled [Hz].
double natural_frequency(const Drive& drive, const drive::Coefficients& c) {
  const drive::Torsion t = drive::torsion_of(drive, c);
  const auto link = drive::link_stiffness(drive, c.link_softness);
  return t.natural_frequency / (2 * kPi) * (link ? std::sqrt(*link / (*link + t.stiffness)) : 1);
}

/// Excitations of one kind; the nearest of them decides.
struct Group {
  const char* check;
  drive::Lasting lasting;
  bool said;
};
constexpr Group kGroups[] = {
    {"distance of the natural frequency from what excites it", drive::Lasting::running, true},
    {"its distance from what excites it at teeth or speeds that were taken", drive::Lasting::running, false},
    {"its distance from the mains frequency while the motor starts", drive::Lasting::start, true}};

/// The excitation of a group that stands nearest; null when there is none.
const drive::TorsionalExcitation* nearest(const std::vector<drive::TorsionalExcitation>& list, const Group& group,
                                          double natural) {
  const drive::TorsionalExcitation* found = nullptr;
  for (const drive::TorsionalExcitation& x : list)
    if (x.lasting == group.lasting && x.said == group.said &&
        (found == nullptr || drive::distance(natural, x) < drive::distance(natural, *found)))
      found = &x;
  return found;
}

/// One disc: profile less bore and holes, of steel [kg].
double disc_mass(const range::Stage& stage) {
  const mechanism::StageGeometry& g = stage.geometry;
  const double bore = range::outer_raceway_radius(stage.eccentric_bearing);
  const double area =
      mechanism::profile_figures(g).area - kPi * (bore * bore + g.pins * g.hole_radius() * g.hole_radius());
  return kSteelDensity * area * g.width;
}

/// What a damaged part of a bearing would knock with. @param turns  revolutions of its rings against each other, per
/// input revolution
void write_rhythm(const std::string& name, const range::Bearing& bearing, double turns, double input_speed,
                  Working& working) {
  if (bearing.elements < 1 || bearing.element_diameter <= 0 || bearing.pitch_diameter <= bearing.element_diameter)
    return;
  const motion::BearingRhythm rhythm = motion::bearing_rhythm(bearing.elements, bearing.element_diameter,
                                                              bearing.pitch_diameter, range::contact_angle(bearing));
  const std::pair<const char*, double> parts[] = {
      {"outer ring", rhythm.outer}, {"inner ring", rhythm.inner}, {"rolling element", rhythm.rolling_element}};
  for (const auto& [part, order] : parts)
    working.push_back({"f",
                       fmt::format("{}: what a damaged {} would knock with", name, part),
                       "f = order n_1",
                       {{"order", "per input revolution", order * turns, Quantity::number}},
                       order * turns * input_speed / (2 * kPi),
                       Quantity::frequency,
                       "derived, docs/theory/motion.md: rolling without slip"});
}

void write_balance(const Drive& drive, std::size_t i, Finding& out) {
  const range::Stage& stage = *drive.build.stages[i].stage;
  const mechanism::StageGeometry& g = stage.geometry;
  const double input = drive.output_speed * drive.build.ratio_behind(i) * g.lobes;
  const double mass = disc_mass(stage);
  const double spacing = g.discs > 1 ? (stage.pin_lever_far - stage.pin_lever_near) / (g.discs - 1) : 0;
  const motion::Unbalance left = motion::disc_unbalance(g.discs, mass, g.eccentricity, spacing, input);
  const std::vector<WorkingInput> inputs{{"m", "mass of a disc", mass, Quantity::mass},
                                         {"e", "eccentricity", g.eccentricity, Quantity::length},
                                         {"w_1", "input speed of the stage", input, Quantity::angular_speed},
                                         {"s", "from disc to disc", spacing, Quantity::length}};
  out.working.push_back({"F_u", "force that the circling discs leave unbalanced", "F_u = |sum m e w_1^2 exp(i th_d)|",
                         inputs, left.force, Quantity::force, "derived, docs/theory/motion.md"});
  out.working.push_back({"M_u", "couple that they leave", "M_u = |sum m e w_1^2 z_d exp(i th_d)|", inputs, left.couple,
                         Quantity::torque, "derived, docs/theory/motion.md"});
  if (g.discs == 1)
    out.notes.push_back({"A single disc goes round unbalanced with {} unless a counterweight takes it.",
                         {{left.force, Quantity::force}}});
  else if (i + 1 == drive.build.stages.size())
    out.notes.push_back(
        {fmt::format("The {} discs balance each other's force; a couple of {{}} turns with the input shaft.", g.discs),
         {{left.couple, Quantity::torque}}});
}

/// What must be true of link and teeth, which nobody said; empty when nothing hangs on them.
Text condition_of(const Drive& drive, const std::vector<drive::TorsionalExcitation>& list, double natural,
                  double stiffness) {
  Text out;
  const auto say = [&](const std::string& pattern, std::initializer_list<Value> values) {
    out.pattern += (out.pattern.empty() ? "" : "; ") + pattern;
    out.values.insert(out.values.end(), values);
  };
  const enquiry::Coupled& coupled = drive.requirement.coupled;
  const drive::TorsionalExcitation* x = nearest(list, kGroups[0], natural);
  if (!coupled.link_stiffness && x != nullptr && drive::distance(natural, *x) < kClearOfResonance) {
    say(fmt::format("what joins it to the machine keeps the natural frequency away from {{}} ({}): rigid, it stands "
                    "at {{}}",
                    x->name),
        {{natural < x->low ? x->low : x->high, Quantity::frequency}, {natural, Quantity::frequency}});
    const auto forbidden = drive::forbidden_stiffness(natural, stiffness, *x, kClearOfResonance);
    if (forbidden)
      say("softer than {} it is clear of that (connection.stiffness)",
          {{forbidden->soft, Quantity::torsional_stiffness}});
  } else if (!coupled.link_stiffness) {
    // The softer the link, the lower the frequency: it passes what stands below.
    for (const drive::TorsionalExcitation& below : list) {
      if (below.lasting != drive::Lasting::running || !below.said) continue;
      const auto forbidden = drive::forbidden_stiffness(natural, stiffness, below, kClearOfResonance);
      if (!forbidden || !forbidden->stiff || *forbidden->stiff < drive::kSoftestLink * drive.requirement.torque)
        continue;
      say(fmt::format("what joins it to the machine is not between {{}} and {{}} stiff, where it would swing at {{}} "
                      "({}; connection.stiffness)",
                      below.name),
          {{forbidden->soft, Quantity::torsional_stiffness},
           {*forbidden->stiff, Quantity::torsional_stiffness},
           {below.low, Quantity::frequency}});
    }
  }
  if (const drive::TorsionalExcitation* taken = nearest(list, kGroups[1], natural);
      taken != nullptr && drive::distance(natural, *taken) < kClearOfResonance)
    say(fmt::format("{} does not fall on {{}} (connection.teeth, supply.inverter_low and inverter_high)", taken->name),
        {{natural, Quantity::frequency}});
  if (const drive::TorsionalExcitation* mains = nearest(list, kGroups[2], natural);
      mains != nullptr && drive::distance(natural, *mains) < kClearOfResonance)
    say(fmt::format("the electrical transient of the start, which swings with {{}}, has died away within some periods "
                    "({})",
                    mains->name),
        {{mains->low, Quantity::frequency}});
  return out;
}

void write_excitations(const Drive& drive, const std::vector<drive::TorsionalExcitation>& list, double natural,
                       double stiffness, Finding& out) {
  using formula::input;
  int number = 0;
  for (const drive::TorsionalExcitation& x : list) {
    const std::string symbol = fmt::format("f_{}", ++number);
    if (x.order > 0)
      formula::record(out.working, symbol.c_str(), x.name.c_str(), Quantity::frequency,
                      motion::frequency_of_order<formula::Term>(
                          input("order", "per input revolution", x.order),
                          input("w_1", "input speed", drive.input_speed, Quantity::angular_speed)),
                      x.source);
    else
      out.working.push_back(
          {symbol,
           x.name,
           "from f_low to f_high",
           {{"f_low", "lowest", x.low, Quantity::frequency}, {"f_high", "highest", x.high, Quantity::frequency}},
           x.low,
           Quantity::frequency,
           x.source});
  }
  const drive::TorsionalExcitation* x = nearest(list, kGroups[0], natural);
  if (x == nullptr) return;
  const double edge = natural < x->low ? x->low : x->high;
  const double away = drive::distance(natural, *x);
  if (away > 0)
    formula::record(out.working, "d", "distance from the nearest that lasts", Quantity::share,
                    drive::distance_from<formula::Term>(input("f_n", "natural frequency", natural, Quantity::frequency),
                                                        input("f", x->name, edge, Quantity::frequency)),
                    "derived, definition");
  if (const auto forbidden = drive::forbidden_stiffness(natural, stiffness, *x, kClearOfResonance);
      forbidden && !drive.requirement.coupled.link_stiffness)
    formula::record(out.working, "k_L", "stiffness of a link to the machine below which the frequency is clear of that",
                    Quantity::torsional_stiffness,
                    drive::link_that_gives<formula::Term>(
                        input("k", "of the drive", stiffness, Quantity::torsional_stiffness),
                        input("f_n", "natural frequency", natural, Quantity::frequency),
                        input("f_c", fmt::format("{:.0f} % below the excitation", 100 * kClearOfResonance),
                              x->low * (1 - kClearOfResonance), Quantity::frequency)),
                    "derived, docs/theory/motion.md");
  if (away < 0.5 && away > 0)
    out.notes.push_back({fmt::format("Nearest to the natural frequency is {{}}, {}: at that distance it swells {{}} "
                                     "times, damping set apart.",
                                     x->name),
                         {{edge, Quantity::frequency}, {drive::swelling(edge, natural), Quantity::number}}});
  if (const auto said = drive.requirement.coupled.link_stiffness; said && away < kClearOfResonance) {
    // The drive without the link, which only another one changes.
    const double alone = 1 / (1 / stiffness - 1 / *said);
    const double rigid = natural * std::sqrt(alone / stiffness);
    if (const auto forbidden = drive::forbidden_stiffness(rigid, alone, *x, kClearOfResonance))
      out.notes.push_back(
          forbidden->stiff
              ? Text{"A link softer than {} or stiffer than {} is clear of that; an inverter may block the speed.",
                     {{forbidden->soft, Quantity::torsional_stiffness},
                      {*forbidden->stiff, Quantity::torsional_stiffness}}}
              : Text{"A link softer than {} is clear of that; an inverter may block the speed.",
                     {{forbidden->soft, Quantity::torsional_stiffness}}});
  }
  std::string crossed;
  for (const drive::TorsionalExcitation& passed : list)
    if (passed.lasting == drive::Lasting::running && passed.low > natural && passed.order > 0 && passed.order <= 2)
      crossed = passed.name;
  if (!crossed.empty())
    out.notes.push_back({fmt::format("Every start and stop runs through the natural frequency once ({}): let it pass "
                                     "quickly, and do not let an inverter dwell there.",
                                     crossed),
                         {}});
}

/// Excitations over the input speed, the natural frequency across them.
Chart orders_chart(const Drive& drive, const std::vector<drive::TorsionalExcitation>& list, double natural) {
  Chart chart{"orders_over_speed",
              "What shakes it over the speed, and what it swings at",
              "Input speed",
              "Frequency",
              Quantity::angular_speed,
              Quantity::frequency,
              {}};
  const double now = drive.input_speed / (2 * kPi);
  double fastest = drive.input_speed;
  for (const drive::TorsionalExcitation& x : list)
    if (x.order > 0) fastest = std::max(fastest, drive.input_speed * x.high / (x.order * now));
  const double most = 4 * std::max(natural, now);
  for (const drive::TorsionalExcitation& x : list) {
    if (x.order <= 0 || x.order * now > most) continue;
    chart.series.push_back({x.name, {0, fastest}, {0, x.order * fastest / (2 * kPi)}});
  }
  chart.series.push_back({"natural frequency", {0, fastest}, {natural, natural}, true});
  chart.series.push_back({"at full load", {drive.input_speed}, {natural}});
  return chart;
}

}  // namespace

std::vector<Check> motion_checks(const Drive& drive, const Evaluation& e) {
  const std::vector<drive::TorsionalExcitation> list = drive::torsional_excitations(drive);
  const double natural = natural_frequency(drive, e.coefficients);
  std::vector<Check> checks;
  for (const Group& group : kGroups) {
    const drive::TorsionalExcitation* x = nearest(list, group, natural);
    if (x == nullptr) continue;
    Check check{group.check, drive::distance(natural, *x), kClearOfResonance, Quantity::share, false, {}, {}};
    // Nothing to break a promise while it hangs on what nobody said, or lasts a few periods only.
    const bool known = group.said && group.lasting == drive::Lasting::running &&
                       drive.requirement.coupled.link_stiffness && drive.requirement.demand.inertia.value > 0;
    check.basis = known ? Basis::promise : Basis::assumed;
    checks.push_back(std::move(check));
  }
  return checks;
}

void write_motion(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::Torsion t = drive::torsion_of(drive, e.coefficients);
  out.answer = {
      "It gives {} of torque per unit of twist and loses {} on reversal; coupled to motor and machine it swings at {}.",
      {{t.stiffness, Quantity::torsional_stiffness},
       {t.lost_motion, Quantity::angle},
       {t.natural_frequency / (2 * kPi), Quantity::frequency}}};
  out.working.push_back({"k_mesh",
                         "stiffness of lobes, discs and pins at the output between half and full torque",
                         "k = 0.5 T / (beta(T) - beta(T/2))",
                         {{"T", "torque", drive.requirement.torque, Quantity::torque}},
                         t.mesh_stiffness,
                         Quantity::torsional_stiffness,
                         "derived, docs/theory/mesh.md; range of torque common practice"});
  const range::OutputShaft& shaft = drive.build.frame().output;
  out.working.push_back({"k",
                         "with the output shaft up to the middle of its end and the input shaft in a row",
                         "1/k = 1/k_mesh + sum 32 l/(G pi d^4)",
                         {{"k_mesh", "of the meshes", t.mesh_stiffness, Quantity::torsional_stiffness},
                          {"d", "shaft end", shaft.diameter, Quantity::length},
                          {"d_B", "seat of the outside bearing", shaft.seat_diameter, Quantity::length},
                          {"l_B", "pin flange to shoulder", shaft.span + shaft.overhang, Quantity::length}},
                         t.stiffness,
                         Quantity::torsional_stiffness,
                         "derived, docs/theory/mesh.md; range of torque common practice"});
  out.working.push_back({"lost motion",
                         "turn of the output between +3 % and -3 % of the torque",
                         "beta(T_3) - beta(-T_3)",
                         {{"T_3", "3 % of the torque", 0.03 * drive.requirement.torque, Quantity::torque}},
                         t.lost_motion,
                         Quantity::angle,
                         "common practice, no source (the 3 %)"});
  out.working.push_back({"f_n",
                         "torsional natural frequency of motor, reducer and machine, flanks closed",
                         "f_n = sqrt(k (1/J_1 + 1/J_2)) / 2 pi",
                         {{"k", "stiffness", t.stiffness, Quantity::torsional_stiffness},
                          {"J_1", "motor side at the output", t.motor_inertia, Quantity::inertia},
                          {"J_2", "machine", t.load_inertia, Quantity::inertia}},
                         t.natural_frequency / (2 * kPi),
                         Quantity::frequency,
                         "derived, docs/theory/motion.md"});
  const std::vector<drive::TorsionalExcitation> list = drive::torsional_excitations(drive);
  const double natural = natural_frequency(drive, e.coefficients);
  write_excitations(drive, list, natural, t.stiffness, out);
  out.condition = condition_of(drive, list, natural, t.stiffness);
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const double input = drive.output_speed * drive.build.ratio_behind(i) * stage.geometry.lobes;
    const double relative = mechanism::eccentric_bearing_speed(stage.geometry);
    write_rhythm("input bearing", stage.input_bearing, 1, input, out.working);
    write_rhythm("eccentric bearing", stage.eccentric_bearing, relative, input, out.working);
    write_balance(drive, i, out);
  }
  const double last = 1.0 / drive.build.last().geometry.lobes;
  const double last_input = drive.output_speed / last;
  write_rhythm("inside output bearing", shaft.bearing_inside, last, last_input, out.working);
  write_rhythm("outside output bearing", shaft.bearing_outside, last, last_input, out.working);
  const motion::Characteristic chain = drive::characteristic_of(drive, e.coefficients);
  Chart twist{"twist_over_torque",
              "Twist of the output over its torque",
              "Torque at the output",
              "Twist",
              Quantity::torque,
              Quantity::angle,
              {},
              false,
              false,
              false};
  Series turn{"output against input", {}, {}, false};
  for (int i = -40; i <= 40; ++i) {
    if (i == 0) {  // free play
      turn.x.insert(turn.x.end(), {0.0, 0.0});
      turn.y.insert(turn.y.end(), {-chain.free_angle(), chain.free_angle()});
      continue;
    }
    const double at = std::abs(i) / 40.0 * 1.5 * drive.requirement.torque;
    turn.x.push_back(i < 0 ? -at : at);
    turn.y.push_back((chain.free_angle() + chain.twist(at)) * (i < 0 ? -1 : 1));
  }
  twist.series.push_back(std::move(turn));
  out.charts.push_back(std::move(twist));
  out.charts.push_back(orders_chart(drive, list, natural));
  const auto& g = drive.build.last().geometry;
  if (g.discs == 2)
    out.notes.push_back(
        {g.lobes % 2 == 1
             ? "Two discs and an odd lobe count: both discs mesh in the same phase, their transmission errors add up."
             : "Two discs and an even lobe count: the discs mesh in opposite phase, their transmission errors largely "
               "cancel.",
         {}});
  if (!drive.build.frame().sound_level) {
    out.notes.push_back(
        {"Sound cannot be judged: this range holds no measured value, and none can be computed honestly.", {}});
  } else {
    out.notes.push_back(
        {fmt::format("Sound: {:.0f} dB(A) at 1 m, as measured by the range's maker.", *drive.build.frame().sound_level),
         {}});
  }
  out.left_out = {drive.tables.back()->model,
                  "Shafts outside the reducer, and a coupling, chain or belt whose stiffness "
                  "nobody said: each lowers the frequency.",
                  "How strong an excitation is: any that lasts is kept clear of.",
                  "The open flanks of a light load, with which it swings more slowly."};
}

}  // namespace lobewise::evidence
