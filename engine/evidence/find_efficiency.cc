// efficiency: where the power goes.

#include <fmt/format.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/evidence/beside.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Lower end of the band that the trade gives for one stage. Common practice, no source.
constexpr double kUsualStageEfficiency = 0.90;

struct Place {
  const char* symbol;
  const char* name;
  double drive::LossPlaces::*member;
};
constexpr Place kPlaces[] = {{"P_lobes", "ring rollers on the lobes", &drive::LossPlaces::lobes},
                             {"P_pins", "output rollers", &drive::LossPlaces::output_pins},
                             {"P_ecc", "eccentric bearings", &drive::LossPlaces::eccentric_bearings},
                             {"P_in", "input bearings", &drive::LossPlaces::input_bearings},
                             {"P_out", "output bearings", &drive::LossPlaces::output_bearings},
                             {"P_seal", "seals", &drive::LossPlaces::seals},
                             {"P_drag", "oil drag", &drive::LossPlaces::oil_drag},
                             {"P_needle", "needles and sleeves turning in oil", &drive::LossPlaces::roller_drag}};

/// Effective friction coefficient of a roller on its pin, where it does not depend on the contact.
double roller_friction(range::Carried carried, double inner_over_outer, const drive::Coefficients& c) {
  return carried == range::Carried::fixed
             ? c.mixed.boundary
             : losses::roller_side_factor(c.mixed.boundary, c.needle_friction, inner_over_outer);
}

/// Power lost at every place, summed over the stages, with the numbers of the last stage put in.
void write_loss_steps(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const range::Stage& stage = drive.build.last();
  const drive::StageTable& table = *drive.tables.back();
  const drive::StageRunning& at = e.full.stages.back();
  const drive::LossPlaces& p = e.full.places;
  const WorkingInput speed{"w_1", "input speed of the stage", at.input_speed, Quantity::angular_speed};
  const WorkingInput viscosity{"nu", "viscosity at the oil temperature",
                               drive.oil.nu(e.oil_temperature, e.coefficients.viscosity_factor),
                               Quantity::kinematic_viscosity};
  const drive::StageTable::Between around = table.between(at.torque);
  const drive::MeshLevel& level = around.share < 0.5 ? *around.below : *around.above;

  const auto rollers = [&](const char* symbol, const char* meaning, range::Carried carried, double ratio,
                           const losses::SlidingSums& sums, double value) {
    std::vector<WorkingInput> inputs{
        {"n_d", "discs", static_cast<double>(stage.geometry.discs), Quantity::number},
        speed,
        {"S", "sum of force times sliding per radian, one disc, at the nearest solved torque", sums.total,
         Quantity::torque}};
    if (carried != range::Carried::sleeve)
      inputs.push_back({"mu", "effective coefficient at the outside of the roller",
                        roller_friction(carried, ratio, e.coefficients), Quantity::number});
    const char* formula = carried == range::Carried::sleeve
                              ? "P = n_d w_1 sum mu(H) F v, mu(H) = mu_f + (mu_b - mu_f)/(1 + H/H_half)"
                              : "P = n_d w_1 mu S";
    working.push_back({symbol, meaning, formula, std::move(inputs), value, Quantity::power,
                       "derived, docs/theory/losses.md; coefficients common practice, no source"});
  };
  rollers("P_lobes", "lost at the ring rollers", stage.ring_rollers,
          stage.ring_pin_radius / stage.geometry.roller_radius, level.lobe_sliding, p.lobes);
  rollers("P_pins", "lost at the output rollers", stage.output_rollers,
          stage.output_pin_radius / stage.geometry.pin_radius, level.pin_sliding, p.output_pins);

  const auto bearing = [&](const char* symbol, const char* meaning, double load, double d_m, double value) {
    working.push_back({symbol,
                       meaning,
                       "P = (M_0 + M_1) w, M_0 = 1e-7 f_0 (nu n)^(2/3) d_m^3, M_1 = f_1 P_1 d_m",
                       {{"P_1", "load of one", load, Quantity::force},
                        {"d_m", "mean diameter", d_m, Quantity::length},
                        speed,
                        viscosity},
                       value,
                       Quantity::power,
                       "[palmgren1959] form and factors as in public code"});
  };
  const double force = table.at(at.torque, &drive::MeshLevel::bearing_equivalent);
  bearing("P_ecc", "lost at the eccentric bearings", force, stage.eccentric_bearing.pitch_diameter,
          p.eccentric_bearings);
  bearing("P_in", "lost at the input bearings", force * drive::input_bearing_share(stage),
          stage.input_bearing.pitch_diameter, p.input_bearings);
  bearing("P_out", "lost at the output bearings, which turn with the output", e.moment.radial_outside,
          drive.build.frame().output.bearing_outside.pitch_diameter, p.output_bearings);
  working.push_back({"P_seal",
                     "lost at the shaft seals",
                     "P = [145 - 1.6 t + 350 lg lg(nu_40 + 0.8)] d^2 n 1e-7",
                     {{"t", "oil temperature", e.oil_temperature, Quantity::temperature},
                      {"nu_40", "viscosity at 40 °C", drive.oil.fill.viscosity_40, Quantity::kinematic_viscosity},
                      {"d", "input seal", drive.build.frame().input_seal_diameter, Quantity::length}},
                     p.seals,
                     Quantity::power,
                     "[seal_loss] form read in public code, power of ten from memory"});
  working.push_back({"P_drag",
                     "lost to the oil between discs and covers",
                     "P = f eta (e w_1)^2 A phi / s",
                     {{"eta", "dynamic viscosity", drive.oil.eta(e.oil_temperature, e.coefficients.viscosity_factor),
                       Quantity::dynamic_viscosity},
                      {"e", "eccentricity", stage.geometry.eccentricity, Quantity::length},
                      speed},
                     p.oil_drag,
                     Quantity::power,
                     "derived, Couette flow; gap, wetted share and factor common practice, no source"});
}

}  // namespace

std::vector<Check> efficiency_checks(const Drive& drive, const Evaluation& e) {
  const double usual = std::pow(kUsualStageEfficiency, static_cast<double>(drive.build.stages.size()));
  Check check{"efficiency at full load", e.full.efficiency(), usual, Quantity::share, false, {}, {}};
  check.basis = Basis::yardstick;
  return {check};
}

void write_efficiency(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::RunningLosses& full = e.full;
  const Place* largest = &kPlaces[0];
  for (const Place& place : kPlaces)
    if (full.places.*place.member > full.places.*(largest->member)) largest = &place;
  write_loss_steps(context, out.working);
  out.working.push_back({"eta",
                         "efficiency at full load and the oil's own temperature",
                         "eta = P_2 / (P_2 + sum P)",
                         {{"P_2", "power at the driven shaft", full.output_power, Quantity::power},
                          {"sum P", "power lost", full.places.total(), Quantity::power},
                          {"T", "oil temperature", e.oil_temperature, Quantity::temperature}},
                         full.efficiency(),
                         Quantity::share,
                         "derived, definition"});
  out.answer = {
      fmt::format("{{}} of the power arrives at full load, {{}} at half load; the largest loss is at the {}.",
                  largest->name),
      {{full.efficiency(), Quantity::share}, {efficiency_at(drive, e, 0.5, e.oil_temperature), Quantity::share}}};
  const double no_load = no_load_torque(drive, e, e.oil_temperature);
  out.notes.push_back({"Turning without load takes {}, {} at the input shaft.",
                       {{no_load * drive.input_speed, Quantity::power}, {no_load, Quantity::torque}}});
  const bool sleeves = drive.build.last().ring_rollers == range::Carried::sleeve ||
                       drive.build.last().output_rollers == range::Carried::sleeve;
  if (sleeves)
    out.notes.push_back(
        {"Rollers or output rollers turn on plain pins here: their sleeve friction decides, and nobody has published "
         "it. Calibrate it with a test of the unit.",
         {}});
  out.notes.push_back(
      {"The trade says up to 95 % a stage (common practice, no source). Two published measurements lie lower, on small "
       "prototypes whose rollers slide: a peak of 81 % ([farrell], about 59:1, after long running-in), a mean of 63.5 "
       "% "
       "([mackic2023], whose own theory gives 65.3 %). Their geometry is not published: the error of this model "
       "against "
       "a measurement is not known, its range of coefficients stands for it.",
       {}});
  Chart map{"efficiency_over_load",
            "Efficiency over load",
            "Share of the full load",
            "Efficiency",
            Quantity::share,
            Quantity::share,
            {},
            false,
            false,
            false};
  for (double celsius : {20.0, 40.0, 60.0, 80.0}) {
    Series s{"oil at {}", {}, {}, false, {{kZeroCelsius + celsius, Quantity::temperature}}};
    for (int i = 1; i <= 30; ++i) {
      s.x.push_back(0.05 * i);
      s.y.push_back(efficiency_at(drive, e, 0.05 * i, kZeroCelsius + celsius));
    }
    map.series.push_back(std::move(s));
  }
  for (const auto& [name, measured] : {std::pair{"measured elsewhere [farrell], peak", 0.81},
                                       std::pair{"measured elsewhere [mackic2023], mean", 0.6349}})
    map.series.push_back({name, {map.series[0].x.front(), map.series[0].x.back()}, {measured, measured}, true});
  out.charts.push_back(std::move(map));
  Chart speeds{"efficiency_over_speed",
               "Efficiency over speed, oil at its temperature of this duty",
               "Input speed",
               "Efficiency",
               Quantity::angular_speed,
               Quantity::share,
               {},
               false,
               false,
               false};
  for (int quarter = 1; quarter <= 4; ++quarter) {
    Series s{fmt::format("{} % of the full load", 25 * quarter), {}, {}, false};
    for (int i = 1; i <= 20; ++i) {
      const double share = 0.1 * i;
      drive::Running now =
          drive.running({1, 0.25 * quarter * drive.requirement.torque, drive.requirement.speed}, e.coefficients);
      now.speed *= share;
      s.x.push_back(share * drive.input_speed);
      s.y.push_back(drive::running_losses(drive.build, drive.tables, drive.oil, now, e.oil_temperature, e.coefficients)
                        .efficiency());
    }
    speeds.series.push_back(std::move(s));
  }
  out.charts.push_back(std::move(speeds));
  Chart no_load_chart{"no_load_torque",
                      "Torque at the input that turns it without load",
                      "Oil temperature",
                      "Torque at the input",
                      Quantity::temperature,
                      Quantity::torque,
                      {},
                      false,
                      false,
                      false};
  Series turning{"without load", {}, {}, false};
  for (int i = 0; i <= 22; ++i) {
    const double oil = kZeroCelsius - 20 + 5 * i;
    turning.x.push_back(oil);
    turning.y.push_back(no_load_torque(drive, e, oil));
  }
  no_load_chart.series.push_back(std::move(turning));
  out.charts.push_back(std::move(no_load_chart));
  Chart places{"losses_by_place",
               "Where the power is lost at full load",
               "Place",
               "Power lost",
               Quantity::number,
               Quantity::power,
               {},
               true,
               false,
               false};
  double index = 0;
  for (const Place& place : kPlaces)
    places.series.push_back({place.name, {index++}, {full.places.*place.member}, false});
  out.charts.push_back(std::move(places));
  out.left_out = {
      "First order: friction forces do not change the mesh forces (up to 5 % of the loss too optimistic at mu 0.05).",
      "Running-in: a new unit loses more for its first weeks."};
}

}  // namespace lobewise::evidence
