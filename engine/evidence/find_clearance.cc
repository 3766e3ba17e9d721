// clearance: whether play is left between lobes and rollers, cold and warm.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/drive/cold.h"
#include "engine/drive/running_play.h"
#include "engine/drive/thermal.h"
#include "engine/evidence/body_temperatures.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::BodyTemperatures;
using drive::Drive;

constexpr const char* kSource = "derived, docs/theory/mesh.md";
/// Margins are shares of the play as drawn, or of this where there is none [m].
constexpr double kLeastScale = 1e-6;

/// The moment of least play on the way from cold to settled.
struct Tightest {
  BodyTemperatures at;
  double play = 0;  ///< [m]
};
Tightest tightest_of(const Drive& drive, const std::vector<heat::WarmUpPoint>& warming, const drive::Coefficients& c) {
  Tightest out{cold_bodies(drive, c), drive::least_play(drive.build, cold_bodies(drive, c), c)};
  for (const heat::WarmUpPoint& point : warming) {
    const BodyTemperatures at = drive::bodies(point.oil, point.housing, c);
    const double play = drive::least_play(drive.build, at, c);
    if (play < out.play) out = {at, play};
  }
  return out;
}

BodyTemperatures as_drawn() { return {contact::kDrawingTemperature, contact::kDrawingTemperature}; }

/// What is left in one stage, figure by figure.
/// @param tag  ends the symbols
void write_stage(const range::Stage& stage, const std::string& tag, const std::string& when, const BodyTemperatures& at,
                 const drive::Coefficients& c, Working& working) {
  using formula::input;
  const mechanism::StageGeometry& g = stage.geometry;
  const auto length = [](std::string symbol, const char* meaning, double value) {
    return input(std::move(symbol), meaning, value, Quantity::length);
  };
  const auto kelvin = [](std::string symbol, const char* meaning, double value) {
    return input(std::move(symbol), meaning, value, Quantity::temperature);
  };
  const Coefficient ring = range::ring_expansion(stage);
  const std::string warm_symbol = "dR_" + tag;
  const double warm =
      formula::record(
          working, warm_symbol.c_str(), ("profile offset by pitch radius " + when).c_str(), Quantity::length,
          contact::warm_radius_offset<formula::Term>(
              length("dR", "profile offset by pitch radius, as drawn", g.radius_offset),
              length("R", "ring pitch radius", g.pitch_radius),
              input("a_d", "expansion of the disc, steel, 1/K", range::expansion(range::Material::steel).nominal),
              kelvin("T_d", "disc", at.disc),
              input("a_r", "expansion of the ring, 1/K", ring.nominal + c.ring_expansion_shift),
              kelvin("T_r", "ring", at.ring), kelvin("T_0", "drawing", contact::kDrawingTemperature)),
          fmt::format("{}; {}", kSource, ring.source))
          .value();
  const formula::Term roller = length("dr", "profile offset by roller", g.roller_offset);
  const formula::Term grown = length(warm_symbol, "profile offset by pitch radius, then", warm);
  formula::record(working, ("g_flank_" + tag).c_str(), ("play at the flanks " + when).c_str(), Quantity::length,
                  contact::flank_play<formula::Term>(roller, grown, input("K", "shortening, e Z/R", g.shortening()),
                                                     input("dang", "flank relief", g.flank_relief, Quantity::angle),
                                                     length("e", "eccentricity", g.eccentricity),
                                                     input("N", "lobes", static_cast<double>(g.lobes))),
                  kSource);
  formula::record(working, ("g_tip_" + tag).c_str(), ("play at tips and roots " + when).c_str(), Quantity::length,
                  contact::tip_play<formula::Term>(roller, grown), kSource);
}

/// What preload does: the mesh again with the gaps of that moment, roughly, beside the gaps as drawn.
void write_preload(const Drive& drive, std::size_t index, const BodyTemperatures& at, const drive::Coefficients& c,
                   Finding& out) {
  const range::Stage& drawn = *drive.build.stages[index].stage;
  range::Stage warm = drawn;
  warm.geometry.radius_offset = drive::radius_offset_at(drawn, at, c);
  const double torque = drive.requirement.torque / drive.build.ratio_behind(index);
  const auto before = drive::rough_stage_table(drawn), after = drive::rough_stage_table(warm);
  if (!before || !after) return;
  const double carry = after->at(torque, &drive::MeshLevel::loaded_mean);
  const double life =
      after->life_at(torque, &drive::MeshLevel::lobe_life) / before->life_at(torque, &drive::MeshLevel::lobe_life);
  const double sum =
      after->at(torque, &drive::MeshLevel::lobe_force) / before->at(torque, &drive::MeshLevel::lobe_force);
  out.notes.push_back(
      {"With these gaps {} of {} rollers carry at full load, the largest force on a lobe is {} times that of the "
       "drawing, the lobes' life {} of it (rigid discs, roughly). Contact, life and efficiency are computed with the "
       "gaps as drawn: they do not hold for such a unit.",
       {{carry, Quantity::number},
        {static_cast<double>(drawn.geometry.rollers()), Quantity::number},
        {sum, Quantity::number},
        {life, Quantity::share}}});
}

Series mark(const char* name, const BodyTemperatures& at, double play) {
  return {name, {at.disc - at.ring}, {play}, false};
}

void write_charts(const Drive& drive, const BodyTemperatures& warm, const Tightest& tightest,
                  const std::vector<heat::WarmUpPoint>& warming, const drive::Coefficients& c, Finding& out) {
  const range::Stage& stage = *drive.build.stages[drive::tightest_stage(drive.build, warm, c)].stage;
  const double growth = range::expansion(range::Material::steel).nominal * stage.geometry.pitch_radius;
  const double settled = drive::radius_offset_at(stage, {warm.ring, warm.ring}, c);
  mechanism::StageGeometry level = stage.geometry;
  level.radius_offset = settled;
  const double closes = contact::room_for_growth(level) / growth;
  const double far = std::max({1.3 * closes, 1.3 * (tightest.at.disc - tightest.at.ring), 10.0});
  Chart chart{"play_over_difference",
              "Play between lobes and rollers over what the disc is warmer than its ring",
              "Disc warmer than ring",
              "Play",
              Quantity::temperature_difference,
              Quantity::length,
              {}};
  Series flank{"at the flanks", {}, {}}, tip{"at tips and roots", {}, {}};
  for (int i = 0; i <= 40; ++i) {
    const double difference = far * i / 40;
    const contact::LeastPlay play = contact::least_play(stage.geometry, settled + growth * difference);
    flank.x.push_back(difference);
    flank.y.push_back(play.flank);
    tip.x.push_back(difference);
    tip.y.push_back(play.tip);
  }
  chart.series = {std::move(flank), std::move(tip), {"none: preloaded below", {0, far}, {0, 0}, true}};
  chart.series.push_back(mark("settled, warm", warm, drive::least_play(drive.build, warm, c)));
  chart.series.push_back(mark("tightest moment from cold", tightest.at, tightest.play));
  out.charts.push_back(std::move(chart));

  Chart course{"play_while_warming",
               "Play from the coldest start with full load until it settles",
               "Time",
               "Least play",
               Quantity::time,
               Quantity::length,
               {}};
  Series play{"least play", {}, {}};
  for (const heat::WarmUpPoint& point : warming) {
    play.x.push_back(point.time);
    play.y.push_back(drive::least_play(drive.build, drive::bodies(point.oil, point.housing, c), c));
  }
  const double end = play.x.back();
  course.series = {std::move(play), {"none: preloaded below", {0, end}, {0, 0}, true}};
  out.charts.push_back(std::move(course));
}

}  // namespace

BodyTemperatures warm_bodies(const Drive& drive, const Evaluation& e) {
  if (e.warm && !e.cycle) return drive::bodies(e.warm->oil_temperature, e.warm->housing_temperature, e.coefficients);
  const double G = drive.build.frame().housing.oil_conductance * e.coefficients.oil_factor;
  const double housing = e.oil_temperature - drive::running_loss(drive, e.oil_temperature, e.coefficients) / G;
  return drive::bodies(e.oil_temperature, std::max(housing, drive.requirement.ambient_high), e.coefficients);
}

BodyTemperatures cold_bodies(const Drive& drive, const drive::Coefficients& c) {
  const double coldest = drive::coldest(drive, c);
  return {coldest, coldest};
}

std::vector<Check> clearance_checks(const Drive& drive, const Evaluation& e) {
  const drive::Coefficients& c = e.coefficients;
  const BodyTemperatures warm = warm_bodies(drive, e);
  const std::vector<heat::WarmUpPoint> warming = drive::cold_warm_up(drive, warm.disc, c);
  const double scale = std::max(kLeastScale, std::abs(drive::least_play(drive.build, as_drawn(), c)));
  const auto check = [&](const char* name, double play, Basis basis) {
    Check out{name, play, 0, Quantity::length, false, {}, {}};
    out.zero = -scale;
    out.basis = basis;
    return out;
  };
  // Nobody said how cold it gets: the warm-up from there is taken. A heater, a thinner oil or a start without load
  // mends it: no other build is needed.
  const Basis cold = enquiry::said(drive.requirement, "site.ambient_low") ? Basis::promise : Basis::assumed;
  Check warming_up = check("least play while it warms up from the cold", tightest_of(drive, warming, c).play, cold);
  warming_up.of_order = true;
  return {check("play between lobes and rollers, warm", drive::least_play(drive.build, warm, c), Basis::promise),
          check("play in the cold before a start", drive::least_play(drive.build, cold_bodies(drive, c), c), cold),
          warming_up};
}

void write_clearance(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::Coefficients& c = e.coefficients;
  const BodyTemperatures warm = warm_bodies(drive, e);
  const std::vector<heat::WarmUpPoint> warming = drive::cold_warm_up(drive, warm.disc, c);
  const Tightest tightest = tightest_of(drive, warming, c);
  const double drawn = drive::least_play(drive.build, as_drawn(), c), settled = drive::least_play(drive.build, warm, c);
  const Value of_drawing{drawn, Quantity::length}, when_warm{settled, Quantity::length},
      from_cold{tightest.play, Quantity::length}, cold{drive::coldest(drive, c), Quantity::temperature},
      difference{warm.disc - warm.ring, Quantity::temperature_difference},
      most{tightest.at.disc - tightest.at.ring, Quantity::temperature_difference};
  if (drawn < 0)
    out.answer = {"It runs preloaded: even as drawn lobes and rollers overlap by {}, warm by {}.",
                  {{-drawn, Quantity::length}, {-settled, Quantity::length}}};
  else if (settled < 0)
    out.answer = {
        "It runs preloaded once it is warm: of {} as drawn nothing is left with the disc {} warmer than its ring, they "
        "overlap by {}.",
        {of_drawing, difference, {-settled, Quantity::length}}};
  else if (tightest.play < 0)
    out.answer = {
        "Warm it keeps {} of {} as drawn; on the way there from {} with full load the disc gets {} warmer than its "
        "ring and runs preloaded, overlapping by {}.",
        {when_warm, of_drawing, cold, most, {-tightest.play, Quantity::length}}};
  else
    out.answer = {
        "Warm it keeps {} of {} as drawn, the disc {} warmer than its ring; {} at the tightest moment of a start from "
        "{} with full load.",
        {when_warm, of_drawing, difference, from_cold, cold}};

  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const bool one = drive.build.stages.size() == 1;
    const std::string number = one ? "" : std::to_string(i + 1);
    const std::string where = one ? "" : i == 0 ? ", first stage" : ", second stage";
    const range::Stage& stage = *drive.build.stages[i].stage;
    write_stage(stage, "warm" + number, "when warm" + where, warm, c, out.working);
    write_stage(stage, "cold" + number, "at the tightest moment from cold" + where, tightest.at, c, out.working);
  }
  const range::Stage& stage = *drive.build.stages[drive::tightest_stage(drive.build, warm, c)].stage;

  if (settled < 0)
    write_preload(drive, drive::tightest_stage(drive.build, warm, c), warm, c, out);
  else if (drawn > settled)
    out.notes.push_back(
        {"Forces, lives and lost motion are computed with the gaps as drawn. Warm the flanks stand closer: more lobes "
         "carry than said, and the lost motion is smaller by about {}.",
         {{2 * (drawn - settled) / (stage.geometry.eccentricity * stage.geometry.lobes), Quantity::angle}}});
  if (tightest.play < 0.25 * drawn)
    out.notes.push_back(
        {"After a cold night let it run without load, or slowly, until the housing is warm; a thinner oil or a heater "
         "shortens that. The tightest moment comes with the oil at {}, the housing at {}.",
         {{tightest.at.disc, Quantity::temperature}, {tightest.at.ring, Quantity::temperature}}});
  if (!stage.ring_material)
    out.notes.push_back(
        {"The range does not say what the ring is made of; cast iron is taken, which grows less than the steel disc.",
         {}});
  write_charts(drive, warm, tightest, warming, c, out);
  out.left_out = {
      "One temperature for disc and rollers, one for the ring; a bore that grows by its fit is not counted.",
      "Scatter of manufacture: a unit has its own play.", "A warm-up from warmer surroundings, which is milder."};
}

}  // namespace lobewise::evidence
