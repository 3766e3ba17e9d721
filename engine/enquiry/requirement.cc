#include "engine/enquiry/requirement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
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
  out.ambient_high = fill.take(site.ambient_high, "site.ambient_high", "Warmest surroundings", Quantity::temperature,
                               {kZeroCelsius + 35, kZeroCelsius + 25, kZeroCelsius + 45, kPractice},
                               "How warm does it get where it stands?", 0.3);
  out.ambient_low = fill.take(site.ambient_low, "site.ambient_low", "Coldest surroundings", Quantity::temperature,
                              {kZeroCelsius + 0, kZeroCelsius - 20, kZeroCelsius + 10, kPractice});
  out.altitude = fill.take(site.altitude, "site.altitude", "Altitude", Quantity::length, {200, 0, 1000, kPractice});
  out.air_speed =
      fill.take(site.air_speed, "site.air_speed", "Air over the housing", Quantity::speed, {1.5, 0.5, 4, kPractice});
  out.food_area = site.food_area.value_or(false);
  out.explosive = site.explosive_atmosphere.value_or(false);
  out.washed_down = site.washed_down.value_or(false);
}

void fill_supply(const Supply& supply, Filler& fill, Requirement& out) {
  out.frequency = fill.take(supply.frequency, "supply.frequency", "Mains frequency", Quantity::frequency,
                            {usual_frequency(supply), 50, 60, kPractice});
  out.starting = fill.word(supply.starting, "supply.starting", Starting::direct,
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
    out.inverter_low = supply.inverter_low.value_or(0.5 * out.frequency);
    out.inverter_high = supply.inverter_high.value_or(out.frequency);
    out.coupled.speeds_said = supply.inverter_low && supply.inverter_high;
  }
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
  out.position = connection.position.value_or(out.demand.radial_position > 0 ? out.demand.radial_position : -1);
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

void add_site_cautions(const Site& site, Requirement& out) {
  if (out.explosive)
    out.cautions.push_back({"explosive",
                            "Explosive atmosphere: a standard unit and this estimate are not valid there; certified "
                            "equipment, an ignition "
                            "hazard assessment (ISO 80079-36/-37) and a specialist decide."});
  if (out.food_area)
    out.cautions.push_back({"food",
                            "Food area: only registered lubricants (incidental contact, H1 or ISO 21469); never mix "
                            "them with another fill, and "
                            "expect a lower load limit or shorter change interval."});
  if (out.ambient_low < kZeroCelsius - 10)
    out.cautions.push_back(
        {"cold",
         "Cold start: thick oil multiplies the starting torque; agree on lubricant and warm-up for the coldest day."});
  if (site.washed_down.value_or(false))
    out.cautions.push_back(
        {"washdown",
         "Washed down: water at the shaft seals ends seal and bearing life early; agree on seals and breather."});
  if (out.altitude > 1000)
    out.cautions.push_back({"altitude",
                            "Above 1000 m thinner air cools motor and reducer less: motor rating and temperature "
                            "account for it here; check "
                            "the electrical side with the supplier."});
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
  if (Errors against = contradictions(enquiry); !against.empty()) return against;
  Result<demand::Demand> demand = demand_of(enquiry);
  if (!demand) return demand.errors();
  Requirement out;
  out.demand = std::move(*demand);
  Filler fill(out);
  Connection connection = enquiry.connection.value_or(Connection{});
  if (by_plates(enquiry)) connection.ratio = connection.efficiency = 1;  // they speak of the shaft in front of the link
  Errors errors = fill_connection(connection, out);
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
  add_figure(out, "machine.inertia", "Inertia at the output shaft", out.demand.inertia, Quantity::inertia);
  out.lines.push_back(force);
  errors = fill_duty(enquiry.duty.value_or(demand::Duty{}), fill, out);
  if (!errors.empty()) return errors;
  if (enquiry.cycle && enquiry.cycle->rest_time > 0)
    out.intermittent = {enquiry.cycle->run_time, enquiry.cycle->rest_time};
  fill_site(enquiry.site.value_or(Site{}), fill, out);
  fill_supply(enquiry.supply.value_or(Supply{}), fill, out);
  fill_wishes(enquiry.wishes.value_or(Wishes{}), fill, out);
  if (out.ambient_low > out.ambient_high)
    errors.push_back(
        input_error("site.ambient_low", format_quantity(out.ambient_low, Quantity::temperature, UnitSystem::si),
                    fmt::format("not above the warmest surroundings, {}",
                                format_quantity(out.ambient_high, Quantity::temperature, UnitSystem::si))));
  if (out.frequency != 50 && out.frequency != 60)
    errors.push_back(input_error(
        "supply.frequency", format_quantity(out.frequency, Quantity::frequency, UnitSystem::si), "50 Hz or 60 Hz"));

  const Mounting mounting = enquiry.mounting.value_or(Mounting{});
  out.mounting = mounting.kind.value_or(MountingKind::foot);
  out.orientation = mounting.orientation.value_or(Orientation::horizontal);
  out.max_length = mounting.max_length;
  out.max_width = mounting.max_width;
  out.max_height = mounting.max_height;
  out.lifting = mounting.lifting;
  out.incumbent = enquiry.incumbent;
  out.economics = enquiry.economics;

  out.peak_torque = std::max(out.torque, out.demand.starting_torque.value);
  for (const demand::SpectrumShock& shock : out.spectrum.shocks)
    out.peak_torque = std::max(out.peak_torque, std::abs(shock.torque));

  for (const Assumption& assumption : out.demand.assumptions) out.assumptions.push_back(assumption);
  for (const Assumption& assumption : out.spectrum.assumptions) out.assumptions.push_back(assumption);
  for (const demand::Question& question : out.demand.questions) out.questions.push_back(question);
  for (const demand::Question& question : out.spectrum.questions) out.questions.push_back(question);
  for (const demand::Question& question : doubts(enquiry)) out.questions.push_back(question);
  if (enquiry.economics && enquiry.incumbent && enquiry.incumbent->kind && !enquiry.economics->spare_on_shelf)
    out.questions.push_back({"economics.spare_on_shelf", "Does a spare of the present unit lie on the shelf?", 0.05});
  std::stable_sort(out.questions.begin(), out.questions.end(),
                   [](const auto& a, const auto& b) { return a.influence > b.influence; });
  for (const demand::Caution& caution : out.demand.cautions) out.cautions.push_back(caution);
  add_site_cautions(enquiry.site.value_or(Site{}), out);
  if (!errors.empty()) return errors;
  return out;
}

}  // namespace lobewise::enquiry
