// efficiency, heat, lubrication.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/film.h"
#include "engine/contact/hertz.h"
#include "engine/evidence/beside.h"
#include "engine/evidence/questions.h"
#include "engine/heat/transient.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Lower end of the band that the trade gives for one stage. Common practice, no source.
constexpr double kUsualStageEfficiency = 0.90;
constexpr double kTouch = kZeroCelsius + 65;  ///< bare metal, touched for a moment; iso13732 in sources.bib

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
                             {"P_drag", "oil drag", &drive::LossPlaces::oil_drag}};

/// Film at the hardest pressed phase of a lobe, as a share of the roughness.
double lobe_lambda(const Drive& drive, const Evaluation& e) {
  const range::Stage& stage = drive.build.last();
  const mechanism::StageGeometry& g = stage.geometry;
  const drive::StageTable& table = *drive.tables.back();
  const double force = table.at(drive.requirement.torque, &drive::MeshLevel::lobe_force);
  // The most loaded roller stands where the lever arm is longest: about a quarter turn behind the eccentric.
  const mechanism::RollerMesh mesh = mechanism::roller_mesh(g, 0, static_cast<int>(std::lround(0.2 * g.rollers())));
  contact::FilmInput film;
  const double input_speed = drive.output_speed * g.lobes;  // of the last stage
  film.entrainment_speed =
      std::abs(mesh.disc_rolling_speed) * input_speed / (stage.ring_rollers == range::Carried::fixed ? 2 : 1);
  film.radius = g.roller_radius / 2;  // convex lobe of about the roller's own radius
  const contact::Elastic steel;
  film.modulus_pair = steel.modulus / (1 - steel.poisson * steel.poisson);
  film.pressure_viscosity = drive.oil.pressure_viscosity;
  film.dynamic_viscosity = drive.oil.eta(e.oil_temperature, e.coefficients.viscosity_factor);
  film.load_per_length = force / g.width;
  return contact::line_film(film) / stage.profile_roughness;
}

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
  return {{"efficiency at full load", e.full.efficiency(), usual, Quantity::share, false, {}, {}}};
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
  const drive::Running idle = drive.running({1, 0.0, drive.requirement.speed}, e.coefficients);
  const double no_load =
      drive::running_losses(drive.build, drive.tables, drive.oil, idle, e.oil_temperature, e.coefficients)
          .places.total();
  out.notes.push_back({"Turning without load takes {}, {} at the input shaft.",
                       {{no_load, Quantity::power}, {no_load / drive.input_speed, Quantity::torque}}});
  const bool sleeves = drive.build.last().ring_rollers == range::Carried::sleeve ||
                       drive.build.last().output_rollers == range::Carried::sleeve;
  if (sleeves)
    out.notes.push_back(
        {"Rollers or output rollers turn on plain pins here: their sleeve friction decides, and nobody has published "
         "it. Calibrate it with a test of the unit.",
         {}});
  out.notes.push_back(
      {"The trade says up to 95 % a stage (common practice, no source). Published measurements of prototypes lie "
       "lower: 63 % and 81 % at small torque ([mackic2023] [farrell]).",
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
    Series s{fmt::format("oil at {:.0f} °C", celsius), {}, {}, false};
    for (int i = 1; i <= 30; ++i) {
      s.x.push_back(0.05 * i);
      s.y.push_back(efficiency_at(drive, e, 0.05 * i, kZeroCelsius + celsius));
    }
    map.series.push_back(std::move(s));
  }
  out.charts.push_back(std::move(map));
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

std::vector<Check> heat_checks(const Drive& drive, const Evaluation& e) {
  const double limit = drive::lubricant_limit(drive.oil);
  // A runaway has no temperature; the end of the search stands for it, which fails whatever the limit.
  const double temperature = e.warm ? e.warm->oil_temperature : heat::kHottestSearched;
  Check check{"temperature of the lubricant", temperature, limit, Quantity::temperature, true, {}, {}};
  check.zero = drive.requirement.ambient_high;
  return {check};
}

void write_heat(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const double ambient = drive.requirement.ambient_high;
  const double limit = drive::lubricant_limit(drive.oil);
  if (!e.warm) {
    out.answer = {
        "No steady temperature exists at {} surroundings: the losses grow faster than the housing gives them off.",
        {{ambient, Quantity::temperature}}};
  } else {
    out.answer = {
        "The lubricant settles at {} in {} surroundings, the housing at {}; {} is the limit of lubricant and seals.",
        {{e.warm->oil_temperature, Quantity::temperature},
         {ambient, Quantity::temperature},
         {e.warm->housing_temperature, Quantity::temperature},
         {limit, Quantity::temperature}}};
    out.working.push_back({"P",
                           "power lost on the duty, averaged",
                           "sum of t_k P_k / sum of t_k",
                           {},
                           e.warm->loss,
                           Quantity::power,
                           "derived, docs/theory/losses.md"});
    out.working.push_back(
        {"Q_conv",
         "convection of the housing, fins counted",
         "Q = f h A (T_s - T_a)",
         {{"A", "outer area", drive.build.frame().housing.area, Quantity::area},
          {"v", "air speed", drive.requirement.air_speed, Quantity::speed},
          {"T_s", "housing", e.warm->housing_temperature, Quantity::temperature},
          {"T_a", "surroundings", ambient, Quantity::temperature}},
         e.warm->flow.convection,
         Quantity::power,
         "[churchill1975] [churchill1977] as in public code; combination common practice, no source"});
    out.working.push_back({"Q_rad",
                           "radiation",
                           "Q = eps sigma A (T_s^4 - T_a^4)",
                           {{"eps", "emissivity", drive.build.frame().housing.emissivity, Quantity::number}},
                           e.warm->flow.radiation,
                           Quantity::power,
                           "[codata2018] Stefan-Boltzmann law"});
    out.working.push_back(
        {"Q_base",
         "heat led into the base",
         "Q = G (T_s - T_a)",
         {{"G", "conductance", drive.build.frame().housing.flange_conductance, Quantity::thermal_conductance}},
         e.warm->flow.flange,
         Quantity::power,
         "common practice, no source"});
    out.working.push_back(
        {"T_oil",
         "lubricant: losses and heat given off are equal",
         "P(T_oil) = Q(T_oil - P/G_oil)",
         {{"G_oil", "oil to housing", drive.build.frame().housing.oil_conductance, Quantity::thermal_conductance}},
         e.warm->oil_temperature,
         Quantity::temperature,
         "derived, docs/theory/heat.md"});
    if (e.warm->housing_temperature > kTouch)
      out.cautions.push_back(
          {"hot_surface",
           "Hot surface: above about 65 °C bare metal burns skin at a touch (ISO 13732-1 gives thresholds, not "
           "limits). Mark, guard or place it out of reach; keep ventilation clear."});
  }
  if (const auto capacity = drive::thermal_torque(drive, ambient, 4 * drive.requirement.torque, e.coefficients)) {
    out.notes.push_back({capacity->limited
                             ? Text{"Heat allows {} for ever here; strength and life decide apart from that.",
                                    {{capacity->torque, Quantity::torque}}}
                             : Text{"Heat would allow even four times the torque; strength limits first.", {}}});
  } else {
    out.notes.push_back({"Even turning without load is too warm here.", {}});
  }
  Chart chart{"warming",
              "Warming up from cold",
              "Time",
              "Temperature",
              Quantity::duration,
              Quantity::temperature,
              {},
              false,
              false,
              false};
  Series oil{"lubricant", {}, {}, false}, housing{"housing", {}, {}, false};
  std::vector<double> times;
  for (int i = 0; i <= 48; ++i) times.push_back(i * 600.0);
  const auto loss = [&](double temperature) {
    return std::min(1e7, drive::mean_loss(drive, std::min(temperature, heat::kHottestSearched), e.coefficients));
  };
  if (e.warm) {
    const auto nodes =
        heat::warm_up(drive::housing_of(drive, ambient, e.coefficients), loss, {ambient, ambient}, times);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
      oil.x.push_back(times[i]);
      oil.y.push_back(nodes[i].oil);
      housing.x.push_back(times[i]);
      housing.y.push_back(nodes[i].housing);
    }
    chart.series = {std::move(oil), std::move(housing), {"limit", {times.front(), times.back()}, {limit, limit}, true}};
    out.charts.push_back(std::move(chart));
  }
  out.left_out = {"Heat from a hot motor flange, and the first stage's own housing in a two-stage unit.",
                  "Dust on the fins, which may cost tens of kelvin."};
}

std::vector<Check> lubrication_checks(const Drive& drive, const Evaluation& e) {
  std::vector<Check> checks;
  double kappa = 1e9, factor = 0;
  for (const drive::PartLife& part : e.lives.parts)
    if (part.bearing && part.id.rfind("output", 0) != 0) kappa = std::min(kappa, part.kappa);
  // Below 0.4 the surfaces touch most of the time and additives must carry; common practice, no source.
  checks.push_back({"viscosity ratio of the fast bearings", kappa, 0.4, Quantity::number, false, {}, {}});
  if (drive.oil.grease()) {
    for (const drive::StageRef& ref : drive.build.stages)
      factor = std::max(factor, contact::speed_factor(drive.input_speed, ref.stage->eccentric_bearing.pitch_diameter));
    checks.push_back({"speed factor n d_m of the grease",
                      factor,
                      contact::kGreaseSpeedFactorRoller,
                      Quantity::number,
                      true,
                      {},
                      {}});
  }
  return checks;
}

void write_lubrication(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const range::Lubricant& fill = drive.oil.fill;
  const std::string what = drive.oil.grease() ? "Grease with a base oil of {}" : "Oil of {}";
  out.answer = {
      what + " at 40 °C keeps {} at its temperature of {}; the fast bearings get {} of the viscosity they ask for.",
      {{fill.viscosity_40, Quantity::kinematic_viscosity},
       {drive.oil.nu(e.oil_temperature, 1), Quantity::kinematic_viscosity},
       {e.oil_temperature, Quantity::temperature},
       {lubrication_checks(drive, e).front().figure, Quantity::share}}};
  out.working.push_back({"nu",
                         "viscosity at the oil temperature",
                         "lg lg(nu + 0.7) = A - B lg T",
                         {{"nu_40", "at 40 °C", fill.viscosity_40, Quantity::kinematic_viscosity},
                          {"T", "temperature", e.oil_temperature, Quantity::temperature}},
                         drive.oil.nu(e.oil_temperature, 1),
                         Quantity::kinematic_viscosity,
                         "[astm_d341] equation read in public code"});
  const double lambda = lobe_lambda(drive, e);
  out.working.push_back({"Lambda",
                         "film at a loaded lobe over the roughness",
                         "h = 2.65 R U^0.7 G^0.54 W^-0.13, Lambda = h / sigma",
                         {{"sigma", "roughness", drive.build.last().profile_roughness, Quantity::length}},
                         lambda,
                         Quantity::number,
                         "[dowson1968] line-contact fit, from memory"});
  out.notes.push_back({lambda < 1 ? "At the lobes the film is {} of the roughness: the surfaces touch. Additives and "
                                    "clean oil carry there; watch iron in the oil."
                                  : "At the lobes the film is {} of the roughness.",
                       {{lambda, Quantity::share}}});
  if (drive.requirement.orientation != enquiry::Orientation::horizontal)
    out.notes.push_back({drive.oil.grease()
                             ? "Upright shaft: grease stays where it is put; agree on the fill of the upper bearing."
                             : "Upright shaft: the upper bearings stand out of the oil; they need grease or a pump.",
                         {}});
  if (drive.requirement.food_area && !fill.food_grade)
    out.missing.push_back("a food-grade lubricant in this range for this frame");
  // Oil life halves for every 10 K above 70 degC from 10 000 h; grease likewise from 8 000 h. Common practice, no
  // source.
  const double base = drive.oil.grease() ? 8000 : (fill.base == range::BaseOil::mineral ? 8000 : 16000);
  const double interval = base * std::pow(2.0, -std::max(0.0, e.oil_temperature - kZeroCelsius - 70) / 10) * 3600;
  out.notes.push_back({"Renew it after about {}, sooner where it is dusty or wet (common practice, no source).",
                       {{interval, Quantity::duration}}});
  out.left_out = {"Starvation, water, ageing and additives."};
}

}  // namespace lobewise::evidence
