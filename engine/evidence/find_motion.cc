// motion: how stiff it is, what it loses on reversal and what it shakes at.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
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

std::vector<motion::Excitation> excitations(const Drive& drive, std::size_t stage) {
  const auto& g = drive.build.stages[stage].stage->geometry;
  const double input = drive.output_speed * drive.build.ratio_behind(stage) * g.lobes;
  return motion::stage_excitations({g.lobes, g.pins, g.discs, motion::Fixed::ring}, input);
}

/// Distance of the torsional natural frequency from the nearest excitation that adds up, as a share of it.
double clearance(const Drive& drive, const Evaluation& e) {
  const double natural = drive::torsion_of(drive, e.coefficients).natural_frequency / (2 * kPi);
  double nearest = 1;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i)
    for (const motion::Excitation& x : excitations(drive, i))
      if (x.frequency > 0 && x.sum != motion::Sum::cancels)
        nearest = std::min(nearest, std::abs(natural / x.frequency - 1));
  return nearest;
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

}  // namespace

std::vector<Check> motion_checks(const Drive& drive, const Evaluation& e) {
  return {{"distance of the natural frequency from what excites it",
           clearance(drive, e),
           kClearOfResonance,
           Quantity::share,
           false,
           {},
           {}}};
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
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    for (const motion::Excitation& x : excitations(drive, i)) {
      if (x.frequency <= 0) continue;
      const char* sum = x.sum == motion::Sum::adds      ? "; the discs add up"
                        : x.sum == motion::Sum::cancels ? "; the discs cancel each other"
                                                        : "";
      out.working.push_back({"f",
                             fmt::format("{}{}", x.name, sum),
                             "f = order n_1",
                             {{"order", "per input revolution", x.order, Quantity::number}},
                             x.frequency,
                             Quantity::frequency,
                             "derived, docs/theory/motion.md"});
    }
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
  out.left_out = {drive.tables.back()->model, "Shafts and couplings outside the reducer, which lower the frequency."};
}

}  // namespace lobewise::evidence
