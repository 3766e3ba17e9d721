// ratio, sharing, contact: what the mesh itself answers.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "engine/base/constants.h"
#include "engine/contact/hertz.h"
#include "engine/contact/hertz_terms.h"
#include "engine/enquiry/assumed.h"
#include "engine/evidence/mesh_working.h"
#include "engine/evidence/questions.h"
#include "engine/evidence/speed_charts.h"
#include "engine/strength/line_life.h"
#include "engine/strength/shaft_pins.h"
#include "engine/strength/shaft_terms.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::MeshLevel;
using formula::input;
using formula::Term;

constexpr const char* kHertz = "[johnson1985] ch. 4.2, from memory; docs/theory/mesh.md";

/// What the crank angles of a whole turn give at one place of the lobe.
struct AtPlace {
  double mean = 0, most = 0, least = 0;
};
/// @param flank  as in contact::CycleForces; every ring pitch holds each crank angle once
AtPlace at_place(const std::vector<double>& flank, std::size_t rollers, std::size_t pitch) {
  const std::size_t angles = flank.size() / rollers;
  const auto begin = flank.begin() + static_cast<std::ptrdiff_t>(pitch * angles);
  const auto end = begin + static_cast<std::ptrdiff_t>(angles);
  const auto [low, high] = std::minmax_element(begin, end);
  return {std::accumulate(begin, end, 0.0) / static_cast<double>(angles), *high, *low};
}

/// Force over the place of the lobe, a point for every ring pitch: mean, largest and least over the crank angles of a
/// whole turn, which differ because the output pins stand elsewhere at each. Between the solved torques as every other
/// figure of the mesh.
std::vector<Series> lobe_force(const SolvedMesh& mesh, std::size_t rollers) {
  Series mean{"mean over a turn", {}, {}, false};
  Series most{"largest", {}, {}, true}, least{"least", {}, {}, true};
  for (std::size_t pitch = 0; pitch < rollers; ++pitch) {
    const AtPlace below = at_place(mesh.below().forces.flank, rollers, pitch);
    const AtPlace above = at_place(mesh.above().forces.flank, rollers, pitch);
    const double psi = 2 * kPi * (static_cast<double>(pitch) + 0.5) / static_cast<double>(rollers);
    for (const auto& [series, member] :
         {std::pair{&mean, &AtPlace::mean}, {&most, &AtPlace::most}, {&least, &AtPlace::least}}) {
      series->x.push_back(psi);
      series->y.push_back(mesh.at(below.*member, above.*member));
    }
  }
  return {std::move(mean), std::move(most), std::move(least)};
}

/// Forces and pressures of a stage over torque, as shares of the working torque.
Chart over_torque(const Drive& drive, const char* id, const char* title, const char* y_label, Quantity quantity,
                  double MeshLevel::*member, bool pressure, double limit, const char* limit_name) {
  const drive::StageTable& table = *drive.tables.back();
  Chart chart{id, title, "Torque at the output", y_label, Quantity::torque, quantity, {}, false, false, false};
  Series series{"this stage", {}, {}, false};
  for (int i = 1; i <= 50; ++i) {
    const double torque = 0.1 * i * drive.requirement.torque;
    series.x.push_back(torque);
    series.y.push_back(pressure ? table.pressure_at(table.hardest_disc() * torque, member) : table.at(torque, member));
  }
  if (limit > 0) chart.series.push_back({limit_name, {series.x.front(), series.x.back()}, {limit, limit}, true});
  chart.series.insert(chart.series.begin(), std::move(series));
  return chart;
}

/// The largest force on a lobe of the last stage, out of the solved torques around it.
/// @param mesh  at the torque of the disc that carries most
void write_largest_force(const drive::StageTable& table, const SolvedMesh& mesh, double torque, Working& working) {
  const Term below = record_solved_level(mesh.below(), "a", mesh.torque_below(), working);
  const Term above =
      mesh.in_proportion() ? below : record_solved_level(mesh.above(), "b", mesh.torque_above(), working);
  const Term T = input("T", "torque at the output of the stage", torque, Quantity::torque) *
                 input("t", "torque of the disc that carries most over the mean of the discs", table.hardest_disc());
  formula::record(working, "F_max", "largest force on a lobe, from the equilibrium of the loaded mesh", Quantity::force,
                  mesh.at(T, below, above), "derived, docs/theory/mesh.md");
}

/// How many ring rollers carry, out of the solved torques around it.
void write_loaded(const SolvedMesh& mesh, double torque, Working& working) {
  const auto counted = [](const char* level, const MeshLevel& at) {
    return mean(formula::inputs(fmt::format("c_{}", level),
                                fmt::format("ring rollers with more than a thousandth of the largest force at each "
                                            "crank angle that was solved, at T_{}",
                                            level),
                                at.loaded));
  };
  const Term below = counted("a", mesh.below());
  formula::record(working, "n_loaded", "ring rollers that carry, mean over a turn", Quantity::number,
                  mesh.at(input("T", "torque at the output of the stage", torque, Quantity::torque), below,
                          mesh.in_proportion() ? below : counted("b", mesh.above())),
                  "derived, docs/theory/mesh.md");
}

/// Pressures and pin bending of a stage. @returns the pressure of its lobes
Term write_stage_pressures(const range::Stage& stage, const drive::StageTable& table, double torque,
                           const std::string& tag, const std::string& where, Working& working) {
  const auto& g = stage.geometry;
  const contact::Elastic steel;
  const Term E =
      input("E*", "contact modulus of steel on steel", contact::contact_modulus(steel, steel), Quantity::pressure);
  const Term b = input("b", "contact length of a disc", g.width, Quantity::length);
  const SolvedMesh mesh(table, torque * table.hardest_disc());
  const Term T = input("T", "torque at the output of the stage", torque, Quantity::torque) *
                 input("t", "torque of the disc that carries most over the mean of the discs", table.hardest_disc());
  const auto square = [&](const std::string& level, const MeshLevel& at) {
    return named(
        fmt::format("p_{}{}", level, tag).c_str(),
        fmt::format("pressure of the hardest pressed lobe at the solved torque T_{}", level).c_str(),
        Quantity::pressure,
        contact::line_pressure(
            input("F_p" + level, "force on the lobe that is pressed hardest", at.pressed_force, Quantity::force), E, b,
            input("rho_" + level, "its radius against the roller's, 1 / sum of curvatures", at.pressed_radius,
                  Quantity::length)),
        kHertz);
  };
  const Term below = square("a", mesh.below()), above = mesh.in_proportion() ? below : square("b", mesh.above());
  const Term lobe = formula::record(
      working, ("p_0" + tag).c_str(),
      ("peak Hertz pressure of the hardest pressed lobe; the flank's own curvature at that place enters rho" + where)
          .c_str(),
      Quantity::pressure, sqrt(mesh.at(T, below * below, above * above)),
      std::string(kHertz) + "; squares straight between solved torques");
  const Term Q = mesh.member(T, "Q", "largest force on an output pin", Quantity::force, &MeshLevel::pin_force);
  const Term rho =
      named(("rho_pin" + tag).c_str(), "output roller in its hole, 1 / sum of curvatures", Quantity::length,
            1 / (1 / input("r_w", "output roller", g.pin_radius, Quantity::length) -
                 1 / input("r_h", "hole", g.hole_radius(), Quantity::length)),
            kHertz);
  formula::record(working, ("p_pin" + tag).c_str(), ("peak Hertz pressure of output roller and hole" + where).c_str(),
                  Quantity::pressure, contact::line_pressure(Q, E, b, rho), kHertz);
  const drive::PinLoad pin = drive::hardest_pin(stage, table, torque);
  const double disc = table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(pin.disc)];
  const SolvedMesh at_disc(table, torque * disc);
  const Term on_disc = input("T", "torque at the output of the stage", torque, Quantity::torque) *
                       input("t_d", "torque of the disc that bends the pins most over the mean of the discs", disc);
  const Term force =
      named(("Q_max" + tag).c_str(), "largest force on an output pin by the disc that bends it most", Quantity::force,
            at_disc.member(on_disc, "Q", "largest force on an output pin", Quantity::force, &MeshLevel::pin_force),
            "derived, docs/theory/mesh.md");
  const Term lever = input("L", "flange to the middle of that disc", pin.lever, Quantity::length);
  const Term moment = stage.pins_guided ? force * lever / 2 : force * lever;
  formula::record(working, ("sigma_pin" + tag).c_str(),
                  fmt::format("bending of the core of an output pin under its largest force, {}{}",
                              stage.pins_guided ? "both ends held" : "free end", where)
                      .c_str(),
                  Quantity::pressure,
                  strength::bending_stress(
                      moment, input("d", "diameter of the pin core", 2 * stage.output_pin_radius, Quantity::length)),
                  "derived, beam tables; limit common practice, no source");
  formula::record(working, ("Q_sine" + tag).c_str(),
                  ("force on an output pin if all pins were exact and rigid" + where).c_str(), Quantity::force,
                  strength::sine_pin_load(input("T", "torque at the output of the stage", torque, Quantity::torque),
                                          input("n_d", "discs", g.discs), input("M", "output pins of a disc", g.pins),
                                          input("R_w", "their circle", g.pin_circle_radius, Quantity::length)),
                  "derived, docs/theory/shaft.md");
  return lobe;
}

void write_pressures(const Drive& drive, Working& working) {
  const std::size_t count = drive.build.stages.size();
  double torque = drive.requirement.torque;
  std::vector<Term> pressures;
  for (std::size_t i = count; i-- > 0;) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const std::string tag = count == 1 ? "" : fmt::format("_{}", i + 1);
    const char* where = count == 1 ? "" : i == 0 ? ", first stage" : ", second stage";
    pressures.push_back(write_stage_pressures(stage, *drive.tables[i], torque, tag, where, working));
    torque /= stage.geometry.lobes;
  }
  Term hardest = pressures.front();
  for (std::size_t i = 1; i < pressures.size(); ++i) hardest = max(hardest, pressures[i]);
  formula::record(working, "s_0", "static safety against 4000 MPa", Quantity::number,
                  pow(input("p_s", "pressure of a roller contact at its static rating", strength::kStaticPressure,
                            Quantity::pressure) /
                          hardest,
                      2),
                  "[iso76] 4000 MPa read in a preview; square law from memory");
}

}  // namespace

std::vector<Check> ratio_checks(const Drive& drive, const Evaluation&) {
  Check check{"speed off the speed asked for",
              std::abs(drive.speed_error),
              drive.requirement.speed_tolerance,
              Quantity::share,
              true,
              {},
              {}};
  // A tolerance that nobody stated refuses nothing.
  if (enquiry::assumed(drive.requirement, "wishes.speed_tolerance")) check.basis = Basis::assumed;
  return {check};
}

void write_ratio(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  out.answer = {"The shaft turns at {} where {} is asked for: the lobe count fixes the ratio exactly.",
                {{drive.output_speed, Quantity::angular_speed}, {drive.requirement.speed, Quantity::angular_speed}}};
  const std::size_t count = drive.build.stages.size();
  Term speed = input("n_1", "motor speed at full load", drive.input_speed, Quantity::angular_speed);
  for (std::size_t i = 0; i < count; ++i) {
    const auto& g = drive.build.stages[i].stage->geometry;
    const std::string stage = count == 1 ? "i" : fmt::format("i_{}", i + 1);
    const Term lobes = input("N", "lobes of a disc", static_cast<double>(g.lobes));
    speed =
        speed / formula::record(
                    out.working, stage.c_str(),
                    "reduction of a stage: one lobe step per input revolution, so the lobe count", Quantity::number,
                    lobes / (input("Z", "ring rollers, one more than lobes", static_cast<double>(g.rollers())) - lobes),
                    "derived, docs/theory/mesh.md");
  }
  formula::record(out.working, "n_2", "speed of the driven shaft", Quantity::angular_speed, speed,
                  "derived, docs/theory/mesh.md");
  if (drive.build.stages.size() % 2 == 1)
    out.notes.push_back({"The output turns against the input.", {}});
  else
    out.notes.push_back({"Two stages in a row: the output turns with the input.", {}});
  if (drive.requirement.inverter_low < drive.requirement.inverter_high)
    out.notes.push_back(
        {"The inverter sets the motor to {} for this.", {{drive.input_speed, Quantity::angular_speed}}});
  out.charts = speed_charts(drive, context.nominal);
  out.left_out = {
      "The motor's speed moves with its load and with mains frequency; the typical full-load speed is taken."};
}

std::vector<Check> sharing_checks(const Drive& drive, const Evaluation& e) {
  const drive::StageTable& table = *drive.tables.back();
  const double loaded = table.at(e.moment.torque, &MeshLevel::loaded_mean);
  const double rollers = drive.build.last().geometry.rollers();
  Check check{"lobes that carry at full load", loaded, std::floor(rollers / 3), Quantity::number, false, {}, {}};
  check.basis = Basis::yardstick;
  return {check};
}

void write_sharing(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const drive::StageTable& table = *drive.tables.back();
  const auto& g = drive.build.last().geometry;
  const double torque = drive.requirement.torque;
  const double hard = torque * table.hardest_disc();
  const SolvedMesh even(table, torque), hardest(table, hard);
  const double largest = table.at(hard, &MeshLevel::lobe_force);
  out.answer = {
      "Of {} ring rollers {} to {} carry at once at full load; the most loaded lobe takes {} at most, {} of the sum.",
      {{static_cast<double>(g.rollers()), Quantity::number},
       {std::min(even.below().loaded_min, even.above().loaded_min), Quantity::number},
       {std::max(even.below().loaded_max, even.above().loaded_max), Quantity::number},
       {largest, Quantity::force},
       {hardest.in_proportion() ? hardest.below().share_largest
                                : hardest.at(hardest.below().share_largest, hardest.above().share_largest),
        Quantity::share}}};
  out.notes.push_back(
      {"Clearance decides: without any, half of the lobes carry; with the few micrometres a real disc has, fewer. More "
       "load brings more lobes in.",
       {}});
  out.notes.push_back(
      {"Rule of the trade: about a third of the lobes carry (common practice, no source). It is the yardstick here, "
       "not a limit of strength.",
       {}});
  write_largest_force(table, hardest, torque, out.working);
  write_loaded(even, torque, out.working);
  Chart forces{"lobe_force",
               "Force on a lobe while the crank turns",
               "Crank angle less roller angle",
               "Force on the lobe",
               Quantity::angle,
               Quantity::force,
               {},
               false,
               false,
               false};
  forces.series = lobe_force(hardest, static_cast<std::size_t>(g.rollers()));
  // Out of the largest of both solved torques, which need not stand at one place of the lobe: no curve exceeds it.
  forces.series.push_back(
      {"largest of a turn, as proved: {}", {0, 2 * kPi}, {largest, largest}, true, {{largest, Quantity::force}}});
  out.charts.push_back(std::move(forces));
  out.charts.push_back(over_torque(drive, "loaded_lobes", "Lobes that carry as the load grows", "Lobes that carry",
                                   Quantity::number, &MeshLevel::loaded_mean, false, 0, ""));
  out.left_out = {table.model,
                  "Errors of single rollers and holes from manufacture are not in it; a unit has its own."};
}

std::vector<Check> contact_checks(const Drive&, const Evaluation& e) {
  return {{"contact pressure of lobe and ring roller",
           e.working.lobe_pressure,
           strength::kFatigueLimitPressure,
           Quantity::pressure,
           true,
           {},
           {}},
          {"contact pressure of output roller and hole",
           e.working.pin_pressure,
           strength::kFatigueLimitPressure,
           Quantity::pressure,
           true,
           {},
           {}},
          {"bending stress of an output pin, pulsating",
           e.working.pin_stress,
           strength::kPinBendingLimit.nominal,
           Quantity::pressure,
           true,
           {},
           {}}};
}

void write_contact(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::StageTable& table = *drive.tables.back();
  out.answer = {
      "At full load the hardest pressed lobe sees {}; up to {} no fatigue below the surface is expected in clean oil.",
      {{e.working.lobe_pressure, Quantity::pressure}, {strength::kFatigueLimitPressure, Quantity::pressure}}};
  const double hard = table.hardest_disc() * drive.requirement.torque;
  const double pressure = table.pressure_at(hard, &MeshLevel::lobe_pressure);
  write_pressures(drive, out.working);
  const double five = table.pressure_at(5 * hard, &MeshLevel::lobe_pressure);
  out.notes.push_back(
      {"At five times the torque the pressure is {}, {} times as high: it grows with the root of the load, and more "
       "lobes join.",
       {{five, Quantity::pressure}, {five / pressure, Quantity::number}}});
  out.notes.push_back(
      {"Lobes have no tooth root that could bend or break. Their pressure is not lower than that of a helical pair of "
       "the same size.",
       {}});
  out.notes.push_back(
      {"The film at the lobes is thinner than their roughness: wear, not fatigue, is the open question, and no model "
       "of it is offered.",
       {}});
  out.charts.push_back(over_torque(drive, "pressure_over_torque", "Contact pressure as the load grows", "Peak pressure",
                                   Quantity::pressure, &MeshLevel::lobe_pressure, true, strength::kFatigueLimitPressure,
                                   "no fatigue expected below"));
  out.left_out = {table.model, "Edge stress at the ends of the rollers (crowning and misalignment are not modelled)."};
}

}  // namespace lobewise::evidence
