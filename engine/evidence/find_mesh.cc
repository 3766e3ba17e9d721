// ratio, sharing, contact: what the mesh itself answers.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "engine/base/constants.h"
#include "engine/contact/hertz.h"
#include "engine/enquiry/assumed.h"
#include "engine/evidence/questions.h"
#include "engine/evidence/speed_charts.h"
#include "engine/strength/line_life.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::MeshLevel;

/// Force over the place of the lobe, a point for every ring pitch: what the crank angles of a whole turn give there on
/// average, at most and at least. They differ because the output pins stand elsewhere at each.
/// @param flank  as in contact::CycleForces; every ring pitch holds each crank angle once
std::vector<Series> lobe_force(const std::vector<double>& flank, std::size_t rollers) {
  Series mean{"mean over a turn", {}, {}, false};
  Series most{"largest", {}, {}, true}, least{"least", {}, {}, true};
  const std::size_t angles = flank.size() / rollers;
  for (std::size_t pitch = 0; pitch < rollers; ++pitch) {
    const auto begin = flank.begin() + static_cast<std::ptrdiff_t>(pitch * angles);
    const auto end = begin + static_cast<std::ptrdiff_t>(angles);
    const auto [low, high] = std::minmax_element(begin, end);
    const double psi = 2 * kPi * (static_cast<double>(pitch) + 0.5) / static_cast<double>(rollers);
    for (const auto& [series, force] :
         {std::pair{&mean, std::accumulate(begin, end, 0.0) / static_cast<double>(angles)},
          {&most, *high},
          {&least, *low}}) {
      series->x.push_back(psi);
      series->y.push_back(force);
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
  const double ratio = drive.build.ratio();
  out.answer = {"The shaft turns at {} where {} is asked for: the lobe count fixes the ratio exactly.",
                {{drive.output_speed, Quantity::angular_speed}, {drive.requirement.speed, Quantity::angular_speed}}};
  for (const drive::StageRef& ref : drive.build.stages) {
    const auto& g = ref.stage->geometry;
    out.working.push_back(
        {"i",
         "reduction of a stage: one lobe step per input revolution, so the lobe count",
         "i = N",
         {{"N", "lobes of a disc", static_cast<double>(g.lobes), Quantity::number},
          {"Z", "ring rollers, one more than lobes", static_cast<double>(g.rollers()), Quantity::number}},
         static_cast<double>(g.lobes),
         Quantity::number,
         "derived, docs/theory/mesh.md"});
  }
  out.working.push_back({"n_2",
                         "speed of the driven shaft",
                         "n_2 = n_1 / i",
                         {{"n_1", "motor speed at full load", drive.input_speed, Quantity::angular_speed},
                          {"i", "ratio", ratio, Quantity::number}},
                         drive.output_speed,
                         Quantity::angular_speed,
                         "derived, docs/theory/mesh.md"});
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
  const drive::StageTable::Between around = table.between(torque);
  const MeshLevel& level = around.share < 0.5 ? *around.below : *around.above;
  out.answer = {"Of {} ring rollers {} to {} carry at once at full load; the most loaded lobe takes {} of the sum.",
                {{static_cast<double>(g.rollers()), Quantity::number},
                 {level.loaded_min, Quantity::number},
                 {level.loaded_max, Quantity::number},
                 {level.share_largest, Quantity::share}}};
  out.notes.push_back(
      {"Clearance decides: without any, half of the lobes carry; with the few micrometres a real disc has, fewer. More "
       "load brings more lobes in.",
       {}});
  out.notes.push_back(
      {"Rule of the trade: about a third of the lobes carry (common practice, no source). It is the yardstick here, "
       "not a limit of strength.",
       {}});
  out.working.push_back({"F_max",
                         "largest force on a lobe, from the equilibrium of the loaded mesh",
                         "sum F_k arm_k + sum Q_j arm_j = 0; delta(F_k) = -gap_k",
                         {{"T", "torque at the output of the stage", torque, Quantity::torque},
                          {"t", "torque of the disc that carries most over the mean of the discs", table.hardest_disc(),
                           Quantity::number},
                          {"R", "ring pitch radius", g.pitch_radius, Quantity::length},
                          {"e", "eccentricity", g.eccentricity, Quantity::length},
                          {"dr", "profile offset by roller", g.roller_offset, Quantity::length},
                          {"dR", "profile offset by pitch radius", g.radius_offset, Quantity::length},
                          {"dang", "flank relief, which opens the gap of every lobe by dang times its lever",
                           g.flank_relief, Quantity::angle}},
                         table.at(torque * table.hardest_disc(), &MeshLevel::lobe_force),
                         Quantity::force,
                         "derived, docs/theory/mesh.md"});
  out.working.push_back({"n_loaded",
                         "ring rollers with more than a thousandth of the largest force, mean over a ring pitch",
                         "count of F_k > 0.001 F_max",
                         {},
                         level.loaded_mean,
                         Quantity::number,
                         "derived, docs/theory/mesh.md"});
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
  forces.series = lobe_force(level.forces.flank, static_cast<std::size_t>(g.rollers()));
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
  const auto& g = drive.build.last().geometry;
  out.answer = {
      "At full load the hardest pressed lobe sees {}; up to {} no fatigue below the surface is expected in clean oil.",
      {{e.working.lobe_pressure, Quantity::pressure}, {strength::kFatigueLimitPressure, Quantity::pressure}}};
  const double hard = table.hardest_disc() * drive.requirement.torque;
  const double force = table.at(hard, &MeshLevel::lobe_force);
  const contact::Elastic steel;
  const double modulus = contact::contact_modulus(steel, steel);
  const double pressure = table.pressure_at(hard, &MeshLevel::lobe_pressure);
  out.working.push_back(
      {"p_0",
       "peak Hertz pressure of the hardest pressed lobe; the flank's own curvature at that place enters rho",
       "p_0 = sqrt(F E* / (pi b rho))",
       {{"F_max", "largest force on a lobe (the largest pressure may stand at another lobe)", force, Quantity::force},
        {"b", "contact length of a disc", g.width, Quantity::length},
        {"E*", "contact modulus of steel on steel", modulus, Quantity::pressure},
        {"r", "ring roller radius", g.roller_radius, Quantity::length}},
       pressure,
       Quantity::pressure,
       "[johnson1985] ch. 4.2, from memory; docs/theory/mesh.md"});
  out.working.push_back({"s_0",
                         "static safety against 4000 MPa",
                         "s_0 = (4000 MPa / p_0)^2",
                         {{"p_0", "peak pressure", e.working.lobe_pressure, Quantity::pressure}},
                         strength::static_safety(e.working.lobe_pressure),
                         Quantity::number,
                         "[iso76] 4000 MPa read in a preview; square law from memory"});
  const range::Stage& stage = drive.build.last();
  const drive::PinLoad pin = drive::hardest_pin(stage, table, drive.requirement.torque);
  out.working.push_back(
      {"sigma_pin",
       "bending of the core of an output pin under its largest force",
       stage.pins_guided ? "sigma = 32 (Q L/2)/(pi d^3), both ends held" : "sigma = 32 Q L/(pi d^3), free end",
       {{"Q", "largest force on an output pin by the disc that bends it most", pin.force, Quantity::force},
        {"Q_sine", "the same if all pins were exact and rigid, 4 T/(n_d M R_w)",
         strength::pin_load(drive.requirement.torque / g.discs, g.pins, g.pin_circle_radius), Quantity::force},
        {"d", "diameter of the pin core", 2 * stage.output_pin_radius, Quantity::length},
        {"L", "flange to the middle of that disc", pin.lever, Quantity::length}},
       pin.stress,
       Quantity::pressure,
       "derived, beam tables; limit common practice, no source"});
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
