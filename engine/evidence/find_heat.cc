// heat: how warm it gets, and whether heat or strength limits it.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/base/formula/record.h"
#include "engine/evidence/heat_working.h"
#include "engine/evidence/questions.h"
#include "engine/heat/hot_surface.h"
#include "engine/heat/transient.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Beyond this a temperature is no answer: no lubricant, seal or curve of viscosity reaches so far.
constexpr double kBeyondModel = kZeroCelsius + 200;

/// No temperature that could be told: the losses grow faster than they are given off, or only far beyond any lubricant
/// they would be equal.
bool runs_away(const Drive& drive, const Evaluation& e) {
  return !e.warm || (drive.requirement.intermittent && !e.cycle) || e.oil_temperature > kBeyondModel;
}

}  // namespace

std::vector<Check> heat_checks(const Drive& drive, const Evaluation& e) {
  const double limit = drive::lubricant_limit(drive.oil);
  // A runaway has no temperature; the end of the search stands for it, which fails whatever the limit.
  const double temperature = runs_away(drive, e) ? heat::kHottestSearched : e.oil_temperature;
  Check check{drive.requirement.intermittent ? "warmest of the lubricant in its cycle" : "temperature of the lubricant",
              temperature,
              limit,
              Quantity::temperature,
              true,
              {},
              {}};
  check.zero = drive.requirement.ambient_high;
  std::vector<Check> checks{check};
  if (const auto hottest = drive::hottest_surface(drive)) {
    Check surface{"hottest surface, the lip of a seal, in the explosive place",
                  temperature + heat::kSealLip.nominal,
                  *hottest,
                  Quantity::temperature,
                  true,
                  {},
                  {}};
    surface.zero = drive.requirement.ambient_high;
    checks.push_back(std::move(surface));
  }
  return checks;
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
  const auto capacity = drive::thermal_torque(drive, drive.requirement.ambient_high, most, e.coefficients);
  const double heat = capacity ? capacity->torque : 0;
  record_strength(context, out.working);
  record_heat_torque(context, capacity, out.working);
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
  const double ambient = drive.requirement.ambient_high, limit = drive::oil_limit(drive);
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

/// What the housing does to skin, by the time of contact.
void write_touch(double housing, Finding& out) {
  constexpr double kLongestCare = 60;  // [s]: nobody rests on a reducer for longer unawares
  const heat::BurnThreshold* burns = heat::burns_within(housing);
  if (burns == nullptr || burns->contact > kLongestCare) return;
  formula::record_looked_up(
      out.working, "T_burn", fmt::format("bare metal burns skin within {} from here on", burns->contact_words).c_str(),
      Quantity::temperature, burns->temperature, "burn thresholds of bare metal, the first that the housing reaches",
      {{"t", "time of contact", burns->contact, Quantity::time}, {"T_s", "housing", housing, Quantity::temperature}},
      "[iso13732] from memory; thresholds, no limits");
  out.notes.push_back(
      {fmt::format("The housing gets {{}} warm: bare metal burns skin within {} from {{}} on.", burns->contact_words),
       {{housing, Quantity::temperature}, {burns->temperature, Quantity::temperature}}});
  out.cautions.push_back(
      {"hot_surface",
       fmt::format(
           "Hot surface: the housing gets {} ({}) warm; bare metal burns skin within {} from {} on (ISO 13732-1: "
           "thresholds by time of contact, no limits). Mark, guard or place it out of reach; keep ventilation "
           "clear.",
           format_quantity(housing, Quantity::temperature, UnitSystem::si),
           format_quantity(housing, Quantity::temperature, UnitSystem::us), burns->contact_words,
           format_quantity(burns->temperature, Quantity::temperature, UnitSystem::si))});
}

}  // namespace

void write_heat(const Context& context, Finding& out) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  const double ambient = drive.requirement.ambient_high;
  const double limit = drive::lubricant_limit(drive.oil);
  const auto& intermittent = drive.requirement.intermittent;
  const bool away = runs_away(drive, e);
  if (away) {
    out.answer = {
        "Its temperature cannot be computed: at {} surroundings the losses grow faster than the housing gives them off "
        "(a runaway), and no figure above {} would mean anything.",
        {{ambient, Quantity::temperature}, {kBeyondModel, Quantity::temperature}}};
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
  if (!away) {
    record_heat_balance(drive, e, out.working);
    if (e.cycle)
      formula::record_followed(
          out.working, "T_peak",
          "warmest of the lubricant once the cycle repeats, the motor's fan standing in the rests",
          Quantity::temperature, e.cycle->oil_peak,
          "two nodes, lubricant and housing, each taking up what it is given less what it gives off, until the cycle "
          "repeats",
          {{"t_run", "running", intermittent->first, Quantity::duration},
           {"t_rest", "resting", intermittent->second, Quantity::duration},
           {"v_rest", "air meanwhile", drive::air_at_rest(drive), Quantity::speed},
           {"T_oil", "settled on the mean of the losses: the swing lies around it", e.warm->oil_temperature,
            Quantity::temperature}},
          "derived, docs/theory/heat.md");
  }
  if (const auto hottest = drive::hottest_surface(drive))
    formula::record(
        out.working, "T_lip", "hottest surface: lip of a seal", Quantity::temperature,
        formula::input("T_oil", "lubricant", away ? heat::kHottestSearched : e.oil_temperature, Quantity::temperature) +
            formula::input("dT_lip", "lip over lubricant", heat::kSealLip.nominal, Quantity::temperature_difference),
        heat::kSealLip.source);
  write_touch(
      away ? heat::kHottestSearched : std::max(e.warm->housing_temperature, e.cycle ? e.cycle->housing_peak : 0.0),
      out);
  write_capacity(context, out);
  if (context.in_time) write_day(context, out);
  out.left_out = {"The first stage's own housing in a two-stage unit; neighbours that are hot.",
                  "A motor's flange is taken by its typical warmth, not by its own test."};
  if (!drive.requirement.dusty) out.left_out.emplace_back("Dust on the fins, which may cost tens of kelvin.");
}

}  // namespace lobewise::evidence
