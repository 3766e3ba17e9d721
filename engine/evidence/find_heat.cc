// efficiency, heat, lubrication.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/film.h"
#include "engine/drive/lobe_film.h"
#include "engine/evidence/beside.h"
#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/questions.h"
#include "engine/heat/transient.h"

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

/// Effective friction coefficient of a roller on its pin, where it does not depend on the contact.
double roller_friction(range::Carried carried, double inner_over_outer, const drive::Coefficients& c) {
  return carried == range::Carried::fixed
             ? c.mixed.boundary
             : losses::roller_side_factor(c.mixed.boundary, c.needle_friction, inner_over_outer);
}

/// Torque at the input that turns the reducer without load [N m].
double no_load_torque(const Drive& drive, const Evaluation& e, double oil_temperature) {
  const drive::Running idle = drive.running({1, 0.0, drive.requirement.speed}, e.coefficients);
  return drive::running_losses(drive.build, drive.tables, drive.oil, idle, oil_temperature, e.coefficients)
             .places.total() /
         drive.input_speed;
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

std::vector<Check> heat_checks(const Drive& drive, const Evaluation& e) {
  const double limit = drive::lubricant_limit(drive.oil);
  // A runaway has no temperature; the end of the search stands for it, which fails whatever the limit.
  const bool runs_away = !e.warm || (drive.requirement.intermittent && !e.cycle);
  const double temperature = runs_away ? heat::kHottestSearched : e.oil_temperature;
  Check check{drive.requirement.intermittent ? "warmest of the lubricant in its cycle" : "temperature of the lubricant",
              temperature,
              limit,
              Quantity::temperature,
              true,
              {},
              {}};
  check.zero = drive.requirement.ambient_high;
  return {check};
}

namespace {

/// What heat allows for ever against what contact, life and shaft carry, over the surroundings.
void write_capacity(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const double torque = drive.requirement.torque, strength = context.strength_torque;
  const double most = std::max(4 * torque, 2 * strength);
  const auto allowed = [&](double ambient) {
    const auto capacity = drive::thermal_torque(drive, ambient, most, e.coefficients);
    return capacity ? capacity->torque : 0.0;
  };
  const double heat = allowed(drive.requirement.ambient_high);
  out.working.push_back({"T_heat",
                         "torque that heat allows for ever at full speed, up to where the search ends",
                         "T_oil(T_heat) = limit",
                         {{"limit", "of lubricant and seals", drive::lubricant_limit(drive.oil), Quantity::temperature},
                          {"T_a", "surroundings", drive.requirement.ambient_high, Quantity::temperature}},
                         heat,
                         Quantity::torque,
                         "derived, docs/theory/heat.md; limits common practice, no source"});
  out.working.push_back({"T_strength",
                         "largest torque, with its pull on the shaft, at which contact, life and shaft still hold",
                         "every check of contact, life and overhung holds",
                         {{"T", "working torque", torque, Quantity::torque}},
                         strength,
                         Quantity::torque,
                         "derived, docs/theory/rating.md"});
  if (heat <= 0)
    out.notes.push_back({"Even turning without load is too warm here.", {}});
  else if (heat < strength)
    out.notes.push_back(
        {"Heat, not strength, limits this build here: heat allows {} for ever at full speed, contact, life and shaft "
         "carry {}.",
         {{heat, Quantity::torque}, {strength, Quantity::torque}}});
  else
    out.notes.push_back(
        {"Strength and life, not heat, limit this build here: they carry {}, heat would allow {} for ever at full "
         "speed.",
         {{strength, Quantity::torque}, {heat, Quantity::torque}}});
  Chart chart{"thermal_capacity",
              "Torque that heat allows for ever, over the surroundings",
              "Surroundings",
              "Torque at the output",
              Quantity::temperature,
              Quantity::torque,
              {},
              false,
              false,
              false};
  Series series{"heat allows", {}, {}, false};
  for (double celsius = -10; celsius <= 51; celsius += 7.5) {
    series.x.push_back(kZeroCelsius + celsius);
    series.y.push_back(allowed(kZeroCelsius + celsius));
  }
  if (series.y.front() >= most * (1 - 1e-6)) {  // where the search ends, not where heat does
    series.name = "heat allows, looked for up to {}";
    series.values = {{most, Quantity::torque}};
  }
  const auto line = [&](const char* name, double y) {
    chart.series.push_back({name, {series.x.front(), series.x.back()}, {y, y}, true});
  };
  line("strength and life carry", strength);
  line("this machine", torque);
  chart.series.insert(chart.series.begin(), std::move(series));
  out.charts.push_back(std::move(chart));
}

Chart temperature_chart(const char* id, std::string title) {
  return {id,   std::move(title), "Time", "Temperature", Quantity::duration, Quantity::temperature, {}, false, false,
          false};
}

/// Follows phases of running and rest from a start and adds their temperatures to a chart.
class Following {
 public:
  Following(const Drive& drive, const drive::Coefficients& c, heat::NodeTemperatures start)
      : drive_(drive), c_(c), now_(start) {
    add(0);
  }
  /// @param loss  [W] over the oil temperature
  void run(double duration, double air_speed, heat::LossOfTemperature loss, int steps) {
    heat::Housing housing = drive::housing_of(drive_, drive_.requirement.ambient_high, c_);
    housing.air_speed = air_speed * c_.air_factor;
    std::vector<double> times;
    for (int i = 1; i <= steps; ++i) times.push_back(duration * i / steps);
    for (const heat::NodeTemperatures& node : heat::warm_up(housing, loss, now_, times)) {
      now_ = node;
      time_ += duration / steps;
      add(time_);
    }
  }
  [[nodiscard]] std::vector<Series> series(double limit) {
    const std::vector<double> ends{0, time_};
    return {std::move(oil_), std::move(housing_), {"limit", ends, {limit, limit}, true}};
  }

 private:
  void add(double time) {
    oil_.x.push_back(time);
    oil_.y.push_back(now_.oil);
    housing_.x.push_back(time);
    housing_.y.push_back(now_.housing);
  }
  const Drive& drive_;
  const drive::Coefficients& c_;
  heat::NodeTemperatures now_;
  double time_ = 0;
  Series oil_{"lubricant", {}, {}, false}, housing_{"housing", {}, {}, false};
};

/// Warming up, the working day and the cycle in time; how long it may run from cold where it would get too warm.
void write_day(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const drive::Coefficients& c = e.coefficients;
  const double ambient = drive.requirement.ambient_high, limit = drive::lubricant_limit(drive.oil);
  const auto capped = [](double temperature) { return std::min(temperature, heat::kHottestSearched); };
  const auto mean = [&](double temperature) { return drive::mean_loss(drive, capped(temperature), c); };
  const auto running = [&](double temperature) { return drive::running_loss(drive, capped(temperature), c); };
  const auto none = [](double) { return 0.0; };
  constexpr double kDay = 86400, kHorizon = 2 * kDay;
  if (!e.warm || e.oil_temperature > limit) {
    const auto until =
        heat::time_to_limit(drive::housing_of(drive, ambient, c), running, {ambient, ambient}, limit, kHorizon);
    if (until)
      out.notes.push_back({"Cold at the start it may run {} without a rest before the lubricant reaches its limit.",
                           {{*until, Quantity::duration}}});
    if (!e.warm) return;
  }
  const double day = std::min(drive.requirement.hours_per_day, kDay);
  const double air = drive.requirement.air_speed;
  const auto settled = day < 0.99 * kDay ? drive::periodic(drive, ambient, {day, kDay - day}, c) : std::nullopt;
  Following warming(drive, c, settled ? settled->cycle_start : heat::NodeTemperatures{ambient, ambient});
  Chart chart = temperature_chart("warming", settled ? "A working day" : "Warming up from cold");
  warming.run(settled ? day : kDay / 3, air, mean, 60);
  if (settled) warming.run(kDay - day, drive::air_at_rest(drive), none, 30);
  chart.series = warming.series(limit);
  out.charts.push_back(std::move(chart));
  if (e.cycle) {
    Following cycle(drive, c, e.cycle->cycle_start);
    cycle.run(drive.requirement.intermittent->first, air, running, 60);
    cycle.run(drive.requirement.intermittent->second, drive::air_at_rest(drive), none, 60);
    Chart swing = temperature_chart("duty_cycle", "One cycle of running and rest, once it repeats");
    swing.series = cycle.series(limit);
    out.charts.push_back(std::move(swing));
  }
}

}  // namespace

void write_heat(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const double ambient = drive.requirement.ambient_high;
  const double limit = drive::lubricant_limit(drive.oil);
  const auto& intermittent = drive.requirement.intermittent;
  if (!e.warm || (intermittent && !e.cycle)) {
    out.answer = {
        "No steady temperature exists at {} surroundings: the losses grow faster than the housing gives them off.",
        {{ambient, Quantity::temperature}}};
  } else if (e.cycle) {
    out.answer = {
        "Running {} and resting {} the lubricant swings between {} and {} in {} surroundings; {} is the limit of "
        "lubricant and seals.",
        {{intermittent->first, Quantity::duration},
         {intermittent->second, Quantity::duration},
         {e.cycle->oil_trough, Quantity::temperature},
         {e.cycle->oil_peak, Quantity::temperature},
         {ambient, Quantity::temperature},
         {limit, Quantity::temperature}}};
  } else {
    out.answer = {
        "The lubricant settles at {} in {} surroundings, the housing at {}; {} is the limit of lubricant and seals.",
        {{e.warm->oil_temperature, Quantity::temperature},
         {ambient, Quantity::temperature},
         {e.warm->housing_temperature, Quantity::temperature},
         {limit, Quantity::temperature}}};
  }
  if (e.warm) {
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
    if (e.cycle)
      out.working.push_back({"T_peak",
                             "warmest of the lubricant once the cycle repeats, the motor's fan standing in the rests",
                             "C_oil T_o' = P - G_oil (T_o - T_h), C_h T_h' = G_oil (T_o - T_h) - Q(T_h)",
                             {{"t_run", "running", intermittent->first, Quantity::duration},
                              {"t_rest", "resting", intermittent->second, Quantity::duration},
                              {"v_rest", "air meanwhile", drive::air_at_rest(drive), Quantity::speed}},
                             e.cycle->oil_peak,
                             Quantity::temperature,
                             "derived, docs/theory/heat.md"});
    if (std::max(e.warm->housing_temperature, e.cycle ? e.cycle->housing_peak : 0) > kTouch)
      out.cautions.push_back(
          {"hot_surface",
           "Hot surface: above about 65 °C bare metal burns skin at a touch (ISO 13732-1 gives thresholds, not "
           "limits). Mark, guard or place it out of reach; keep ventilation clear."});
  }
  write_capacity(context, out);
  if (context.in_time) write_day(context, out);
  out.left_out = {"Heat from a hot motor flange, and the first stage's own housing in a two-stage unit.",
                  "Dust on the fins, which may cost tens of kelvin."};
}

std::vector<Check> lubrication_checks(const Drive& drive, const Evaluation& e) {
  std::vector<Check> checks;
  double kappa = 1e9, factor = 0;
  for (const drive::PartLife& part : e.lives.parts)
    if (part.bearing && part.id.rfind("output", 0) != 0) kappa = std::min(kappa, part.kappa);
  checks.push_back(
      {"viscosity ratio of the fast bearings", kappa, kLeastViscosityRatio, Quantity::number, false, {}, {}});
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
      what + " at {} keeps {} at its temperature of {}; the fast bearings get {} of the viscosity they ask for.",
      {{fill.viscosity_40, Quantity::kinematic_viscosity},
       {kZeroCelsius + 40, Quantity::temperature},
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
  for (const drive::PartLife& part : e.lives.parts) {
    if (!part.bearing) continue;
    const double asked = part.kappa > 0 ? drive.oil.nu(e.oil_temperature, 1) / part.kappa : 0;
    out.working.push_back({"kappa",
                           "viscosity ratio of the " + part.label,
                           contact::slow_for_reference_viscosity(part.speed)
                               ? "kappa = nu / nu_1, nu_1 = 45000 n^-0.83 D_pw^-0.5"
                               : "kappa = nu / nu_1, nu_1 = 4500 n^-0.5 D_pw^-0.5",
                           {{"nu", "viscosity", drive.oil.nu(e.oil_temperature, 1), Quantity::kinematic_viscosity},
                            {"n", "relative speed of its rings, in 1/min", part.speed, Quantity::angular_speed},
                            {"D_pw", "its pitch diameter, in mm", part.pitch_diameter, Quantity::length},
                            {"nu_1", "viscosity it asks for", asked, Quantity::kinematic_viscosity}},
                           part.kappa,
                           Quantity::number,
                           "[iso281] reference viscosity, its branch below or from 1000 1/min on, as quoted in public "
                           "code"});
    if (part.id.rfind("output", 0) == 0 && part.kappa < kLeastViscosityRatio)
      out.notes.push_back(
          {"The " + part.label +
               " turns slowly and gets {} of the viscosity it asks for: mixed friction, which additives "
               "must carry; its life counts it.",
           {{part.kappa, Quantity::share}}});
  }
  const double lambda = drive::lobe_film_ratio(drive, e.oil_temperature, e.coefficients);
  out.working.push_back({"Lambda",
                         "film at a loaded lobe over the roughness",
                         "h = 2.65 R U^0.7 G^0.54 W^-0.13, Lambda = h / sigma",
                         {{"sigma", "roughness", drive.build.last().profile_roughness, Quantity::length}},
                         lambda,
                         Quantity::number,
                         "[dowson1968] line-contact fit, from memory"});
  out.working.push_back({"kappa_lobe",
                         "what that film is worth as a viscosity ratio; below 0.1 wear decides, not fatigue",
                         "kappa = Lambda^1.3",
                         {{"Lambda", "film over roughness", lambda, Quantity::number}},
                         contact::viscosity_ratio_of_film(lambda),
                         Quantity::number,
                         "from memory, docs/theory/lubricant.md"});
  double fastest = 0;
  for (const drive::StageRef& ref : drive.build.stages)
    fastest = std::max(fastest, contact::speed_factor(drive.input_speed, ref.stage->eccentric_bearing.pitch_diameter));
  out.working.push_back(
      {"n d_m",
       "speed factor of the fastest eccentric bearing, mm/min; grease serves up to 300 000 in roller bearings",
       "n d_m",
       {{"n", "input speed", drive.input_speed, Quantity::angular_speed}},
       fastest,
       Quantity::number,
       "common practice, no source"});
  const double cold = drive.requirement.ambient_low;
  const double stiff = no_load_torque(drive, e, cold);
  out.notes.push_back(
      {"On the coldest day, {}, the oil has {}; turning it then takes up to {} at the input (an upper bound: the "
       "formula "
       "overstates cold oil).",
       {{cold, Quantity::temperature},
        {drive.oil.nu(cold, 1), Quantity::kinematic_viscosity},
        {stiff, Quantity::torque}}});
  if (drive.motor && stiff > 0.5 * drive.motor->rated_torque)
    out.notes.push_back(
        {"That is {} of the motor's rated torque: warm the oil before the start or take a thinner "
         "synthetic one.",
         {{stiff / drive.motor->rated_torque, Quantity::share}}});
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
  const double interval = renewal_interval(drive.oil, e.oil_temperature);
  out.working.push_back({"t_change",
                         "renewal: halved for every 10 K above 70 °C",
                         "t = t_0 2^(-max(0, T - T_0) / dT)",
                         {{"t_0", "up to 70 °C", renewal_when_cool(drive.oil), Quantity::duration},
                          {"T", "lubricant", e.oil_temperature, Quantity::temperature},
                          {"T_0", "from here on", kRenewalFalls, Quantity::temperature},
                          {"dT", "halves it", kRenewalHalves, Quantity::temperature_difference}},
                         interval,
                         Quantity::duration,
                         "common practice, no source"});
  out.notes.push_back({"Renew it after about {}, sooner where it is dusty or wet (common practice, no source).",
                       {{interval, Quantity::duration}}});
  out.charts = lubricant_charts(drive, e);
  out.left_out = {"Starvation, water, ageing and additives.",
                  "The pour point: near it the oil no longer flows as its curve of viscosity says."};
}

}  // namespace lobewise::evidence
