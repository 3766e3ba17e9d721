// motion: how stiff it is, what it loses on reversal and what it shakes at.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/excitations.h"
#include "engine/evidence/mesh_working.h"
#include "engine/evidence/questions.h"
#include "engine/mechanism/kinematics.h"
#include "engine/motion/excitation.h"
#include "engine/range/bearing.h"
#include "engine/strength/shaft.h"
#include "engine/strength/shaft_terms.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::named;
using formula::Term;

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

/// What a damaged part of a bearing would knock with.
/// @param tag    ends the symbols
/// @param turns  revolutions of its rings against each other, per revolution of the stage's input
void write_rhythm(const std::string& name, const std::string& tag, const range::Bearing& bearing, const Term& turns,
                  double input_speed, Working& working) {
  if (bearing.elements < 1 || bearing.element_diameter <= 0 || bearing.pitch_diameter <= bearing.element_diameter)
    return;
  const char* source = "derived, docs/theory/motion.md: rolling without slip";
  const Term D = input("D", "its rolling elements", bearing.element_diameter, Quantity::length);
  const Term D_pw = input("D_pw", "its pitch diameter", bearing.pitch_diameter, Quantity::length);
  const Term g =
      named(("gamma_" + tag).c_str(), ("diameter ratio of the " + name).c_str(), Quantity::number,
            D * cos(input("alpha", "contact angle", range::contact_angle(bearing), Quantity::angle)) / D_pw, source);
  const Term w = input("w_1", "input speed of the stage", input_speed, Quantity::angular_speed);
  const motion::RhythmOrders<Term> orders =
      motion::rhythm_orders(input("n_e", "its rolling elements", bearing.elements), D, D_pw, g);
  struct Damage {
    const char *symbol, *part;
    const Term& order;
  };
  for (const Damage& damage : {Damage{"f_outer_", "outer ring", orders.outer},
                               {"f_inner_", "inner ring", orders.inner},
                               {"f_element_", "rolling element", orders.rolling_element}})
    formula::record(working, (damage.symbol + tag).c_str(),
                    fmt::format("{}: what a damaged {} would knock with", name, damage.part).c_str(),
                    Quantity::frequency, motion::frequency_of_order(damage.order * turns, w), source);
}

/// Mass of a disc, and what the circling discs leave unbalanced.
void write_balance(const Drive& drive, std::size_t i, const std::string& tag, Finding& out) {
  const range::Stage& stage = *drive.build.stages[i].stage;
  const mechanism::StageGeometry& g = stage.geometry;
  const double speed = drive.output_speed * drive.build.ratio_behind(i) * g.lobes;
  const double spacing = g.discs > 1 ? (stage.pin_lever_far - stage.pin_lever_near) / (g.discs - 1) : 0;
  const motion::Unbalance left = motion::disc_unbalance(g.discs, disc_mass(stage), g.eccentricity, spacing, speed);
  const char* source = "derived, docs/theory/motion.md";
  const Term mass = formula::record(
      out.working, ("m_d" + tag).c_str(), "mass of a disc: profile less bore and holes, of steel", Quantity::mass,
      input("rho", "steel", kSteelDensity, Quantity::density) *
          (input("A_p", "area inside the profile", mechanism::profile_figures(g).area, Quantity::area) -
           formula::pi<Term>() *
               (pow(input("r_b", "bore", range::outer_raceway_radius(stage.eccentric_bearing), Quantity::length), 2) +
                input("M", "holes", g.pins) * pow(input("r_h", "hole", g.hole_radius(), Quantity::length), 2))) *
          input("b", "width", g.width, Quantity::length),
      source);
  const Term pull = named(("F_d" + tag).c_str(), "centrifugal force of one disc", Quantity::force,
                          mass * input("e", "eccentricity", g.eccentricity, Quantity::length) *
                              pow(input("w_1", "input speed of the stage", speed, Quantity::angular_speed), 2),
                          source);
  const Term discs = input("n_d", "discs, spread evenly over the circle: from two on their forces cancel", g.discs);
  formula::record(out.working, ("F_u" + tag).c_str(), "force that the circling discs leave unbalanced", Quantity::force,
                  choose(
                      less(discs, 2), [&] { return pull; }, [] { return Term(0.0); }),
                  source);
  std::vector<double> places, angles;
  for (int d = 0; d < g.discs; ++d) {
    places.push_back(spacing * (d - 0.5 * (g.discs - 1)));
    angles.push_back(2 * kPi * d / g.discs);
  }
  const Term z =
      formula::inputs("z_d", "places of the discs along the shaft, from their middle", places, Quantity::length);
  const Term theta = formula::inputs("th_d", "angles of their eccentrics", angles, Quantity::angle);
  formula::record(out.working, ("M_u" + tag).c_str(), "couple that they leave", Quantity::torque,
                  pull * sqrt(pow(sum(z * cos(theta)), 2) + pow(sum(z * sin(theta)), 2)), source);
  if (g.discs == 1)
    out.notes.push_back({"A single disc goes round unbalanced with {} unless a counterweight takes it.",
                         {{left.force, Quantity::force}}});
  else if (i + 1 == drive.build.stages.size())
    out.notes.push_back({"The {} discs balance each other's force; a couple of {} turns with the input shaft.",
                         {{static_cast<double>(g.discs), Quantity::number}, {left.couple, Quantity::torque}}});
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

/// Ends of what has no one order: teeth that were taken, an inverter's range.
void write_band(const Drive& drive, const drive::TorsionalExcitation& x, const std::string& symbol, Working& working) {
  const Term w = input("w_1", "input speed", drive.input_speed, Quantity::angular_speed);
  const auto end = [&](const std::string& name, const char* which, double order, double speed) {
    formula::record(
        working, name.c_str(), (x.name + which).c_str(), Quantity::frequency,
        motion::frequency_of_order(input("order", "per input revolution", order) *
                                       input("x", "speed of the inverter over the one at which it is judged", speed),
                                   w),
        x.source);
  };
  end(symbol, "", x.fewest, x.slowest);
  end(symbol + "_high", ", highest", x.most, x.fastest);
}

void write_excitations(const Drive& drive, const std::vector<drive::TorsionalExcitation>& list, double natural,
                       double stiffness, Finding& out) {
  int number = 0;
  for (const drive::TorsionalExcitation& x : list) {
    const std::string symbol = fmt::format("f_{}", ++number);
    if (x.order > 0)
      formula::record(out.working, symbol.c_str(), x.name.c_str(), Quantity::frequency,
                      motion::frequency_of_order<formula::Term>(
                          input("order", "per input revolution", x.order),
                          input("w_1", "input speed", drive.input_speed, Quantity::angular_speed)),
                      x.source);
    else if (x.most > 0)
      write_band(drive, x, symbol, out.working);
    else
      formula::record(out.working, symbol.c_str(), x.name.c_str(), Quantity::frequency,
                      input("m", "times the mains frequency", std::round(x.low / drive.requirement.frequency)) *
                          input("f_N", "mains", drive.requirement.frequency, Quantity::frequency),
                      x.source);
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

/// Stiffness of the meshes between half and full torque, at the output.
Term write_mesh_stiffness(const Drive& drive, const drive::Coefficients& c, Working& working) {
  const std::size_t count = drive.build.stages.size();
  const char* source = "derived, docs/theory/mesh.md; range of torque common practice";
  std::vector<Term> compliances;
  double torque = drive.requirement.torque;
  for (std::size_t i = count; i-- > 0;) {
    const drive::StageTable& table = *drive.tables[i];
    const std::string tag = count == 1 ? "" : fmt::format("_{}", i + 1);
    const Term T = input("T", "torque at the output of the stage", torque, Quantity::torque);
    const auto turned = [&](const char* symbol, const char* meaning, double at, const Term& torque_there) {
      return named((symbol + tag).c_str(), meaning, Quantity::angle,
                   SolvedMesh(table, at).member(torque_there, "beta", "output behind the ideal", Quantity::angle,
                                                &drive::MeshLevel::rotation),
                   "derived, docs/theory/mesh.md");
    };
    const Term full = turned("beta_1", "output behind the ideal under the whole torque", torque, T);
    const Term half = turned("beta_h", "output behind the ideal under half the torque", 0.5 * torque, T / 2);
    compliances.push_back((full - half) /
                          (T / 2 * input("f_k", "factor of this model", c.stiffness_factor) *
                           pow(input("i_b", "ratio behind the stage", drive.build.ratio_behind(i)), 2)));
    if (count > 1)
      compliances.back() = formula::record(
          working, ("c" + tag).c_str(), fmt::format("compliance of stage {} at the output (rad/(N m))", i + 1).c_str(),
          Quantity::number, compliances.back(), source);
    torque /= drive.build.stages[i].stage->geometry.lobes;
  }
  Term sum = compliances.front();
  for (std::size_t i = 1; i < compliances.size(); ++i) sum = sum + compliances[i];
  return formula::record(working, "k_mesh",
                         "stiffness of lobes, discs and pins at the output between half and full torque",
                         Quantity::torsional_stiffness, 1 / sum, source);
}

/// Compliance of the shafts and of what is joined to them as far as it was said.
Term shafts_compliance(const Drive& drive, const drive::Coefficients& c) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const Term G = input("G", "shear modulus of steel", strength::kShearModulus, Quantity::pressure);
  const auto length = [](const std::string& symbol, const char* meaning, double value) {
    return input(symbol, meaning, value, Quantity::length);
  };
  Term sum = strength::torsional_compliance(length("l_B", "pin flange to shoulder", shaft.span + shaft.overhang), G,
                                            length("d_B", "seat of the outside bearing", shaft.seat_diameter)) +
             strength::torsional_compliance(length("l_E", "shoulder to the middle of the shaft end", shaft.length / 2),
                                            G, length("d", "shaft end", shaft.diameter));
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const std::string tag = drive.build.stages.size() == 1 ? "" : fmt::format("_{}", i + 1);
    const Term ratio =
        input("i" + tag, "input shaft over output shaft", drive.build.ratio_behind(i) * stage.geometry.lobes);
    sum = sum + strength::torsional_compliance(length("l_in" + tag, "between the input bearings", stage.input_span), G,
                                               length("d_in" + tag, "input shaft", stage.input_shaft_diameter)) /
                    (ratio * ratio);
  }
  const enquiry::Coupled& coupled = drive.requirement.coupled;
  if (coupled.link_stiffness)
    sum = sum + 1 / (input("k_X", "link to the machine", *coupled.link_stiffness, Quantity::torsional_stiffness) *
                     input("f_X", "factor on it", c.link_factor));
  if (coupled.motor_coupling)
    sum = sum + 1 / (input("k_M", "coupling of the motor", *coupled.motor_coupling, Quantity::torsional_stiffness) *
                     pow(input("i_M", "ratio", drive.build.ratio()), 2));
  return named("c_s",
               "compliance of the shafts at the output, with what is joined to them as far as it was said "
               "(rad/(N m))",
               Quantity::number, sum, "derived, torsion of round bars");
}

void write_stiffness(const Drive& drive, const drive::Coefficients& c, const drive::Torsion& t, Working& working) {
  const Term mesh = write_mesh_stiffness(drive, c, working);
  const Term k =
      formula::record(working, "k", "with the output shaft up to the middle of its end and the input shaft in a row",
                      Quantity::torsional_stiffness, 1 / (1 / mesh + shafts_compliance(drive, c)),
                      "derived, docs/theory/mesh.md; range of torque common practice");
  std::vector<double> forward, back, behind;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const drive::StageTable& table = *drive.tables[i];
    const double torque = drive::kLostMotionShare * drive.requirement.torque / drive.build.ratio_behind(i);
    forward.push_back(table.turned(torque));
    back.push_back(table.turned(-torque));
    behind.push_back(drive.build.ratio_behind(i));
  }
  formula::record(working, "phi_l", "turn of the output between +3 % and -3 % of the torque at full load",
                  Quantity::angle,
                  input("f_j", "factor on the play", c.play_factor) *
                      sum((formula::inputs("beta_f", "solved turn of each stage at +3 %", forward, Quantity::angle) -
                           formula::inputs("beta_b", "solved turn of each stage at -3 %", back, Quantity::angle)) /
                          formula::inputs("i_b", "ratio behind each stage", behind)),
                  "common practice, no source (the 3 %)");
  formula::record(working, "f_n", "torsional natural frequency of motor, reducer and machine, flanks closed",
                  Quantity::frequency,
                  sqrt(k * (1 / input("J_1", "motor side at the output", t.motor_inertia, Quantity::inertia) +
                            1 / input("J_2", "machine", t.load_inertia, Quantity::inertia))) /
                      (2 * formula::pi<Term>()),
                  "derived, docs/theory/motion.md");
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
  write_stiffness(drive, e.coefficients, t, out.working);
  const std::vector<drive::TorsionalExcitation> list = drive::torsional_excitations(drive);
  const double natural = natural_frequency(drive, e.coefficients);
  write_excitations(drive, list, natural, t.stiffness, out);
  out.condition = condition_of(drive, list, natural, t.stiffness);
  const std::size_t count = drive.build.stages.size();
  for (std::size_t i = 0; i < count; ++i) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const std::string tag = count == 1 ? "" : fmt::format("_{}", i + 1);
    const char* where = count == 1 ? "" : i == 0 ? ", first stage" : ", second stage";
    const double speed = drive.output_speed * drive.build.ratio_behind(i) * stage.geometry.lobes;
    const Term lobes = input("N", "lobes of a disc", stage.geometry.lobes);
    write_rhythm(std::string("input bearing") + where, "in" + tag, stage.input_bearing, Term(1.0), speed, out.working);
    write_rhythm(std::string("eccentric bearing") + where, "ecc" + tag, stage.eccentric_bearing,
                 input("Z", "ring rollers", stage.geometry.rollers()) / lobes, speed, out.working);
    write_balance(drive, i, tag, out);
  }
  const range::OutputShaft& shaft = drive.build.frame().output;
  const Term last = 1 / input("N", "lobes of a disc", drive.build.last().geometry.lobes);
  const double last_input = drive.output_speed * drive.build.last().geometry.lobes;
  write_rhythm("inside output bearing", "A", shaft.bearing_inside, last, last_input, out.working);
  write_rhythm("outside output bearing", "B", shaft.bearing_outside, last, last_input, out.working);
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
    out.notes.push_back({"Sound: {} dB(A) at {}, as measured by the range's maker.",
                         {{*drive.build.frame().sound_level, Quantity::number}, {1, Quantity::length}}});
  }
  out.left_out = {drive.tables.back()->model,
                  "Shafts outside the reducer, and a coupling, chain or belt whose stiffness "
                  "nobody said: each lowers the frequency.",
                  "How strong an excitation is: any that lasts is kept clear of.",
                  "The open flanks of a light load, with which it swings more slowly."};
}

}  // namespace lobewise::evidence
