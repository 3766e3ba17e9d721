#include "engine/enquiry/requirement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"
#include "engine/demand/contradiction.h"
#include "engine/enquiry/contradictions.h"
#include "engine/enquiry/people.h"
#include "engine/enquiry/present.h"

namespace lobewise::enquiry {
namespace {

constexpr const char* kPractice = "common practice, no source";
constexpr double kHour = 3600;

/// Collects lines and assumptions while the requirement is filled.
class Filler {
 public:
  explicit Filler(Requirement& out) : out_(out) {}

  /// The value given, or the assumption with its range; either way a line.
  double take(const std::optional<double>& given, const char* path, const char* label, Quantity quantity,
              const Coefficient& fallback, const char* question = "", double influence = 0) {
    const double value = given.value_or(fallback.nominal);
    RequirementLine line{path,   label,        value,         quantity,
                         !given, fallback.low, fallback.high, given ? "" : fallback.source};
    out_.lines.push_back(line);
    if (!given) {
      out_.assumptions.push_back({path, fmt::format("{} taken, not said", label), value, fallback.low, fallback.high,
                                  quantity, fallback.source});
      if (*question != '\0') out_.questions.push_back({path, question, influence});
    }
    return value;
  }

  /// A word given or assumed.
  template <class E>
  E word(const std::optional<E>& given, const char* path, E fallback, const char* question = "", double influence = 0) {
    if (given) return *given;
    if (*question != '\0') out_.questions.push_back({path, question, influence});
    return fallback;
  }

 private:
  Requirement& out_;
};

/// Duty at the output shaft. Bearings and lobes do not care which way they are loaded.
Errors fill_duty(const demand::Duty& duty, Filler& fill, Requirement& out) {
  Result<demand::DutySpectrum> spectrum = demand::spectrum_of(duty, out.demand);
  if (!spectrum) return spectrum.errors();
  out.spectrum = std::move(*spectrum);
  const demand::DutySpectrum& s = out.spectrum;
  out.hours_per_day =
      fill.take(duty.hours_per_day, "duty.hours_per_day", "Running time a day", Quantity::duration,
                {s.hours_per_day, 8 * kHour, 24 * kHour, kPractice}, "How many hours a day does it run?", 0.15);
  out.running_per_year = s.running_time;
  const double days = s.running_time / s.hours_per_day;
  const bool days_said = duty.days_per_year.has_value(), hours_said = duty.hours_per_day.has_value();
  const double fewest = days_said ? days : 220, most = days_said ? days : 360;
  out.lines.push_back(
      {"duty.days_per_year", "Days a year", days, Quantity::number, !days_said, fewest, most, kPractice});
  out.lines.push_back({"duty.running_time", "Running time a year", s.running_time, Quantity::duration,
                       !days_said || !hours_said, fewest * (hours_said ? s.hours_per_day : 8 * kHour),
                       most * (hours_said ? s.hours_per_day : 24 * kHour), kPractice});
  out.starts_per_hour = fill.take(duty.starts_per_hour, "duty.starts_per_hour", "Starts an hour", Quantity::per_hour,
                                  {s.starts_per_hour, 0.3 * s.starts_per_hour, 3 * s.starts_per_hour, kPractice},
                                  "How often is it started?", 0.1);
  out.reversing = s.reversals_per_hour > 0;
  for (const demand::SpectrumBin& bin : s.bins)
    if (bin.speed > 0 && bin.share > 0) out.duty.push_back({bin.share, std::abs(bin.torque), bin.speed});
  double running = 0;
  for (const Block& block : out.duty) running += block.time_share;
  for (Block& block : out.duty) block.time_share /= running;
  const Result<demand::CrossCheck> check = demand::cross_check(out.demand, s, demand::PrimeMover::electric);
  if (check) out.practice = *check;
  return {};
}

void fill_site(const Site& site, Filler& fill, Requirement& out) {
  const Place place = fill.word(site.place, "site.place", Place::indoors);
  out.sun = place == Place::outdoors_sun;
  // What is taken for one end never passes the other end that was said.
  const double least_warm = site.ambient_low.value_or(0);
  out.ambient_high = fill.take(site.ambient_high, "site.ambient_high", "Warmest surroundings", Quantity::temperature,
                               {std::max(kZeroCelsius + 35, least_warm), std::max(kZeroCelsius + 25, least_warm),
                                std::max(kZeroCelsius + 45, least_warm), kPractice},
                               "How warm does it get where it stands?", 0.3);
  const double most_cold = out.ambient_high;
  out.ambient_low = fill.take(site.ambient_low, "site.ambient_low", "Coldest surroundings", Quantity::temperature,
                              {std::min(kZeroCelsius + 0, most_cold), std::min(kZeroCelsius - 20, most_cold),
                               std::min(kZeroCelsius + 10, most_cold), kPractice},
                              "How cold does it get where it stands, with the drive at rest?", 0.2);
  out.altitude = fill.take(site.altitude, "site.altitude", "Altitude", Quantity::length, {200, 0, 1000, kPractice});
  out.air_speed =
      fill.take(site.air_speed, "site.air_speed", "Air over the housing", Quantity::speed, {1.5, 0.5, 4, kPractice});
  out.food_area = site.food_area.value_or(false);
  out.explosive = site.explosive_atmosphere.value_or(site.explosive.has_value());
  out.washed_down = site.washed_down.value_or(false);
  out.dusty = site.dusty.value_or(false);
  out.site = site;
  out.not_offered = not_offered(site);
  if (!site.explosive_atmosphere && !site.explosive)
    out.questions.push_back(
        {"site.explosive_atmosphere", "Can the air around it explode: gas, vapour or dust? Which zone is it?", 1});
  if (!site.dusty || !site.washed_down || !site.food_area)
    out.questions.push_back({!site.dusty         ? "site.dusty"
                             : !site.washed_down ? "site.washed_down"
                                                 : "site.food_area",
                             "Is the place dusty, washed down or a food area?", 0.2});
}

void fill_supply(const Supply& supply, Filler& fill, Requirement& out) {
  out.frequency = fill.take(supply.frequency, "supply.frequency", "Mains frequency", Quantity::frequency,
                            {usual_frequency(supply), 50, 60, kPractice});
  // Who states an inverter's frequencies has an inverter.
  const bool inverter = supply.inverter_low || supply.inverter_high;
  out.starting = inverter ? Starting::inverter
                          : fill.word(supply.starting, "supply.starting", Starting::direct,
                                      "How is the motor started: direct, star-delta, soft starter or inverter?", 0.2);
  out.motor_class = fill.word(supply.efficiency_class, "supply.efficiency_class", EfficiencyClass::ie3);
  out.voltage = supply.voltage;
  out.poles = supply.poles;
  out.motor_power = supply.motor_power;
  out.motor_speed = supply.motor_speed;
  out.coupled.motor_coupling = supply.coupling_stiffness;
  out.inverter_low = out.inverter_high = out.frequency;
  if (out.starting == Starting::inverter) {
    // Below about half speed the motor's own fan no longer cools it; above the mains frequency its torque falls.
    out.inverter_low = fill.take(supply.inverter_low, "supply.inverter_low", "Lowest inverter frequency",
                                 Quantity::frequency, {0.5 * out.frequency, 5, out.frequency, kPractice});
    out.inverter_high = fill.take(supply.inverter_high, "supply.inverter_high", "Highest inverter frequency",
                                  Quantity::frequency, {out.frequency, out.frequency, 1.2 * out.frequency, kPractice});
    out.coupled.speeds_said = supply.inverter_low && supply.inverter_high;
  }
}

/// A line for a figure that was said; nothing when it was not.
void say(const std::optional<double>& value, const char* path, const char* label, Quantity quantity, Requirement& out) {
  if (value) out.lines.push_back({path, label, *value, quantity, false, *value, *value, ""});
}

void fill_wishes(const Wishes& wishes, Filler& fill, Requirement& out) {
  out.life =
      fill.take(wishes.life, "wishes.life", "Service life asked for", Quantity::duration,
                {kUsualLife, 0.5 * kUsualLife, 2 * kUsualLife, kPractice}, "How many hours should it last?", 0.2);
  out.reliability = fill.take(wishes.reliability, "wishes.reliability", "Share that must reach it", Quantity::share,
                              {0.9, 0.9, 0.9, "ISO 281: L10 is the life that 90 % reach"});
  out.speed_tolerance = fill.take(wishes.speed_tolerance, "wishes.speed_tolerance", "Tolerance of the speed",
                                  Quantity::share, {0.05, 0.02, 0.1, kPractice}, "How far may the speed be off?", 0.05);
  out.service_factor = wishes.service_factor;
  say(wishes.service_factor, "wishes.service_factor", "Service factor asked for", Quantity::number, out);
  out.unit_share = wishes.unit_share;
  say(wishes.unit_share, "wishes.unit_share", "Share of the units made that must hold", Quantity::share, out);
}

/// Demand at the driven shaft -> at the output shaft, and the forces there.
Errors fill_connection(const Connection& connection, Requirement& out) {
  demand::Connection link;
  link.link = connection.link;
  link.pitch_diameter = connection.pitch_diameter;
  link.ratio = connection.ratio;
  link.efficiency = connection.efficiency;
  link.position = connection.position;
  Result<demand::Demand> at_output = demand::connect(std::move(out.demand), link);
  if (!at_output) return at_output.errors();
  out.demand = std::move(*at_output);
  const bool assumed = !connection.link && !connection.radial_force;
  const demand::Link is = connection.link.value_or(demand::Link::coupling);
  out.by_chain_or_belt = is != demand::Link::coupling && is != demand::Link::pinion &&
                         is != demand::Link::rack_pinion && is != demand::Link::friction_wheel;
  out.coupled.link = is;
  out.coupled.link_stiffness = connection.stiffness;
  if (connection.teeth) out.coupled.teeth = *connection.teeth;
  if (connection.machine_pulses) out.coupled.machine_pulses = *connection.machine_pulses / connection.ratio.value_or(1);
  if (!connection.stiffness)
    out.questions.push_back(
        {"connection.stiffness", "How stiff in torsion is the coupling, chain or belt on the output shaft?", 0.05});
  out.link = connection.radial_force
                 ? "stated force"
                 : std::string(model::choices_of<demand::Link>()[static_cast<std::size_t>(is)].label);
  out.radial_force = connection.radial_force.value_or(out.demand.radial_load.value);
  out.axial_force = connection.axial_force.value_or(out.demand.axial_load.value);
  out.pull = connection.pull;
  out.link_torque = connection.largest_torque;
  out.axial_direction = connection.axial_direction;
  if (out.axial_force > 0 && !out.axial_direction)
    out.questions.push_back(
        {"connection.axial_direction", "Does the axial force pull the shaft out of the unit, or push it in?", 0.1});
  out.position = connection.position.value_or(out.demand.radial_position > 0 ? out.demand.radial_position : -1);
  if (connection.position && is == demand::Link::coupling && !(out.radial_force > 0))
    return {demand::contradiction(
        {"connection.position", format_quantity(*connection.position, Quantity::length, UnitSystem::si)},
        {"connection.link", connection.link ? "coupling" : "not said"},
        "it is the place of a radial force, and no force was said; say the link or the force.")};
  // Both forces stated on the connection say all that the machine left open.
  if (!connection.radial_force || !connection.axial_force) out.shaft_load_open = out.demand.shaft_load_open;
  out.lines.push_back({"connection.radial_force", fmt::format("Radial force ({})", out.link), out.radial_force,
                       Quantity::force, assumed, out.demand.radial_load.low, out.demand.radial_load.high,
                       assumed ? "nobody said what sits on the output shaft; a coupling is taken" : ""});
  if (assumed)
    out.questions.push_back(
        {"connection.link",
         "What sits on the output shaft: coupling, chain, belt or pinion, of which pitch diameter, how far out?", 0.4});
  return {};
}

void add_figure(Requirement& out, const char* path, const char* label, const demand::Figure& figure,
                Quantity quantity) {
  const bool assumed = figure.low < figure.value || figure.high > figure.value;
  out.lines.push_back({path, label, figure.value, quantity, assumed, figure.low, figure.high,
                       assumed ? "computed from the machine; the range comes from what was not said" : ""});
}

/// Starts and hours of a day that follow from a cycle, where nobody said them.
demand::Duty duty_with_cycle(demand::Duty duty, const std::optional<Cycle>& cycle) {
  if (!cycle || !(cycle->rest_time > 0)) return duty;
  if (!duty.starts_per_hour) duty.starts_per_hour = kHour / cycle->run_time;
  constexpr double kUsualDay = 16 * kHour;
  const double longest = 24 * kHour * cycle->run_time / (cycle->run_time + cycle->rest_time);
  if (!duty.hours_per_day && longest < kUsualDay) duty.hours_per_day = longest;
  return duty;
}

}  // namespace

const RequirementLine* line_of(const Requirement& requirement, std::string_view path) {
  for (const RequirementLine& line : requirement.lines)
    if (line.path == path) return &line;
  return nullptr;
}

bool said(const Requirement& requirement, std::string_view path) {
  const RequirementLine* line = line_of(requirement, path);
  return line != nullptr && !line->assumed;
}

Result<Requirement> require(const Enquiry& enquiry) {
  if (std::optional<Error> refused = people_refused(enquiry)) return *refused;
  Errors errors = contradictions(enquiry);
  const Errors across = record_contradictions(enquiry);
  errors.insert(errors.end(), across.begin(), across.end());
  if (!errors.empty()) return errors;
  Result<demand::Demand> demand = demand_of(enquiry);
  if (!demand) return demand.errors();
  Requirement out;
  out.demand = std::move(*demand);
  Filler fill(out);
  Connection connection = enquiry.connection.value_or(Connection{});
  // Plates speak of the shaft in front of the link.
  if (by_plates(enquiry) && connection.link && *connection.link != demand::Link::coupling)
    connection.ratio = connection.efficiency = 1;
  errors = fill_connection(connection, out);
  if (!errors.empty()) return errors;
  bound_by_present(enquiry, out.demand);
  out.torque = out.demand.torque.value;
  out.speed = out.demand.speed.value;
  if (!(out.torque > 0) || !(out.speed > 0))
    return model_error("machine", format_quantity(out.torque, Quantity::torque, UnitSystem::si),
                       "the machine needs no driving torque at full load; a brake or a generator drive is another job, "
                       "refer it to a specialist");
  const RequirementLine force = out.lines.back();
  out.lines.pop_back();
  add_figure(out, "machine.torque", "Torque at full load", out.demand.torque, Quantity::torque);
  add_figure(out, "machine.speed", "Speed of the output shaft", out.demand.speed, Quantity::angular_speed);
  add_figure(out, "machine.starting_torque", "Torque to break away", out.demand.starting_torque, Quantity::torque);
  say(out.demand.starting_in_time, "machine.start_time", "Torque to start in the time asked for", Quantity::torque,
      out);
  add_figure(out, "machine.inertia", "Inertia at the output shaft", out.demand.inertia, Quantity::inertia);
  out.lines.push_back(force);
  errors = fill_duty(duty_with_cycle(enquiry.duty.value_or(demand::Duty{}), enquiry.cycle), fill, out);
  if (!errors.empty()) return errors;
  if (enquiry.cycle && enquiry.cycle->rest_time > 0)
    out.intermittent = {enquiry.cycle->run_time, enquiry.cycle->rest_time};
  if (enquiry.cycle) {
    say(enquiry.cycle->run_time, "cycle.run_time", "Running time of a cycle", Quantity::time, out);
    say(enquiry.cycle->rest_time, "cycle.rest_time", "Rest of a cycle", Quantity::time, out);
  }
  fill_site(enquiry.site.value_or(Site{}), fill, out);
  fill_supply(enquiry.supply.value_or(Supply{}), fill, out);
  fill_wishes(enquiry.wishes.value_or(Wishes{}), fill, out);
  const Mounting mounting = enquiry.mounting.value_or(Mounting{});
  out.mounting = mounting.kind.value_or(MountingKind::foot);
  out.orientation = mounting.orientation.value_or(Orientation::horizontal);
  out.max_length = mounting.max_length;
  out.max_width = mounting.max_width;
  out.max_height = mounting.max_height;
  out.lifting = mounting.lifting;
  say(out.voltage, "supply.voltage", "Voltage", Quantity::voltage, out);
  say(out.motor_power, "supply.motor_power", "Power of the motor that stands", Quantity::power, out);
  say(out.motor_speed, "supply.motor_speed", "Speed of the motor that stands", Quantity::angular_speed, out);
  say(out.max_length, "mounting.max_length", "Room along the shaft", Quantity::length, out);
  say(out.max_width, "mounting.max_width", "Room across", Quantity::length, out);
  say(out.max_height, "mounting.max_height", "Room in height", Quantity::length, out);
  say(out.lifting, "mounting.lifting", "What the hoist above it lifts", Quantity::mass, out);
  out.conditions = conditions_of(enquiry);
  out.incumbent = enquiry.incumbent;
  out.economics = enquiry.economics;

  for (const Assumption& assumption : out.demand.assumptions) out.assumptions.push_back(assumption);
  for (const Assumption& assumption : out.spectrum.assumptions) out.assumptions.push_back(assumption);
  for (const demand::Question& question : out.demand.questions) out.questions.push_back(question);
  for (const demand::Question& question : out.spectrum.questions) out.questions.push_back(question);
  for (const demand::Question& question : doubts(enquiry)) out.questions.push_back(question);
  if (enquiry.economics && enquiry.incumbent && enquiry.incumbent->kind && !enquiry.economics->spare_on_shelf)
    out.questions.push_back({"economics.spare_on_shelf", "Does a spare of the present unit lie on the shelf?", 0.05});
  // The one measurement that settles a bounded load stands before all else.
  const auto settles = [&out](const demand::Question& question) {
    return !out.demand.settled_by.empty() && question.path == "machine.measured.measured_power";
  };
  std::stable_sort(out.questions.begin(), out.questions.end(), [&](const auto& a, const auto& b) {
    return settles(a) != settles(b) ? settles(a) : a.influence > b.influence;
  });
  for (const demand::Caution& caution : out.demand.cautions) out.cautions.push_back(caution);
  for (demand::Caution& caution : cautions_of(enquiry, out.ambient_low, out.altitude))
    out.cautions.push_back(std::move(caution));
  out.cautions.push_back(demand::lockout_caution());
  if (lifts_goods_unasked(enquiry)) {
    out.cautions.push_back(demand::lifting_caution());
    out.cautions.push_back(demand::no_people_caution());
    out.questions.insert(out.questions.begin(),
                         {"machine", "Its words speak of lifting: is anybody ever lifted or carried by it?", 1});
  }
  return out;
}

}  // namespace lobewise::enquiry
