#include "engine/enquiry/requirement.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/strength/shaft_overhung.h"

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

void fill_duty(const Duty& duty, Filler& fill, Requirement& out) {
  out.hours_per_day =
      fill.take(duty.hours_per_day, "duty.hours_per_day", "Running time a day", Quantity::duration,
                {16 * kHour, 8 * kHour, 24 * kHour, kPractice}, "How many hours a day does it run?", 0.15);
  const double days =
      fill.take(duty.days_per_year, "duty.days_per_year", "Days a year", Quantity::number, {250, 200, 350, kPractice});
  out.running_per_year = out.hours_per_day * days;
  out.starts_per_hour = fill.take(duty.starts_per_hour, "duty.starts_per_hour", "Starts an hour", Quantity::per_hour,
                                  {1, 0.1, 6, kPractice}, "How often is it started?", 0.1);
  out.reversing = duty.reversing.value_or(false);
  if (duty.run_time && duty.rest_time) out.intermittent = {*duty.run_time, *duty.rest_time};
}

Errors fill_spectrum(const Duty& duty, Requirement& out) {
  Errors errors;
  if (duty.spectrum.empty()) {
    out.duty = {{1, out.torque, out.speed}};
    return errors;
  }
  double sum = 0;
  for (const DutyBlock& block : duty.spectrum) sum += block.time_share;
  if (std::abs(sum - 1) > 0.01)
    errors.push_back(input_error("duty.spectrum", format_quantity(sum, Quantity::share, UnitSystem::si),
                                 "the time shares must add up to 100 %"));
  for (const DutyBlock& block : duty.spectrum)
    out.duty.push_back({block.time_share / sum, block.torque * out.torque, block.speed * out.speed});
  return errors;
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
  out.frequency =
      fill.take(supply.frequency, "supply.frequency", "Mains frequency", Quantity::frequency, {50, 50, 60, kPractice});
  out.starting = fill.word(supply.starting, "supply.starting", Starting::direct,
                           "How is the motor started: direct, star-delta, soft starter or inverter?", 0.2);
  out.motor_class = fill.word(supply.efficiency_class, "supply.efficiency_class", EfficiencyClass::ie3);
  out.poles = supply.poles.value_or(4);
  out.motor_power = supply.motor_power;
  out.motor_speed = supply.motor_speed;
  out.inverter_low = out.inverter_high = out.frequency;
  if (out.starting == Starting::inverter) {
    // Below about half speed the motor's own fan no longer cools it; above the mains frequency its torque falls.
    out.inverter_low = supply.inverter_low.value_or(0.5 * out.frequency);
    out.inverter_high = supply.inverter_high.value_or(out.frequency);
  }
}

void fill_wishes(const Wishes& wishes, Filler& fill, Requirement& out) {
  out.life = fill.take(wishes.life, "wishes.life", "Service life asked for", Quantity::duration,
                       {20000 * kHour, 10000 * kHour, 40000 * kHour, kPractice}, "How many hours should it last?", 0.2);
  out.reliability = fill.take(wishes.reliability, "wishes.reliability", "Share that must reach it", Quantity::share,
                              {0.9, 0.9, 0.9, "ISO 281: L10 is the life that 90 % reach"});
  out.speed_tolerance = fill.take(wishes.speed_tolerance, "wishes.speed_tolerance", "Tolerance of the speed",
                                  Quantity::share, {0.05, 0.02, 0.1, kPractice}, "How far may the speed be off?", 0.05);
  out.service_factor = wishes.service_factor;
}

/// Element of the overhung table for a link; none for a coupling or a stated force.
const strength::OverhungElement* element_of(Link link) {
  switch (link) {
    case Link::chain:
      return &strength::kOverhungElements[0];
    case Link::toothed_belt:
      return &strength::kOverhungElements[2];
    case Link::spur_gear:
      return &strength::kOverhungElements[3];
    case Link::v_belt:
      return &strength::kOverhungElements[4];
    case Link::flat_belt:
      return &strength::kOverhungElements[5];
    case Link::coupling:
    case Link::force:
      break;
  }
  return nullptr;
}

Errors fill_connection(const Connection& connection, Requirement& out) {
  Errors errors;
  out.axial_force = connection.axial_force.value_or(out.demand.axial_load.value);
  out.position = connection.position.value_or(out.demand.radial_position > 0 ? out.demand.radial_position : -1);
  const bool assumed = !connection.link && !connection.radial_force;
  if (assumed && out.demand.radial_load.value > 0) {
    out.link = "what the machine puts on the shaft";
    out.radial_force = out.demand.radial_load.value;
  } else if (connection.radial_force) {
    out.link = "stated force";
    out.radial_force = *connection.radial_force;
  } else if (const strength::OverhungElement* element = connection.link ? element_of(*connection.link) : nullptr) {
    out.link = element->name;
    if (!connection.pitch_diameter) {
      errors.push_back(input_error(
          "connection.pitch_diameter", "",
          fmt::format("missing; the pitch diameter of the {} is needed for its pull on the shaft", element->name)));
      return errors;
    }
    out.radial_force = strength::overhung_force(out.torque, *connection.pitch_diameter, element->factor.nominal);
  } else {
    out.link = "coupling";
    out.radial_force = 0;
  }
  if (connection.link == Link::force && !connection.radial_force)
    errors.push_back(input_error("connection.radial_force", "", "missing; the force is needed"));
  RequirementLine line{
      "connection.radial_force",
      fmt::format("Radial force ({})", out.link),
      out.radial_force,
      Quantity::force,
      assumed,
      out.radial_force,
      out.radial_force,
      assumed ? "nobody said what sits on the output shaft; a coupling without radial force is taken" : ""};
  out.lines.push_back(line);
  if (assumed) {
    out.assumptions.push_back({"connection.link",
                               "A coupling without radial force is taken; nobody said what sits on the output shaft", 0,
                               0, 0, Quantity::force, "common practice, no source"});
    out.questions.push_back(
        {"connection.link",
         "What sits on the output shaft: coupling, chain, belt or pinion, of which pitch diameter, how far out?", 0.4});
  }
  return errors;
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

Result<Requirement> require(const Enquiry& enquiry) {
  Result<demand::Demand> demand = demand::compute(enquiry.machine);
  if (!demand) return demand.errors();
  Requirement out;
  out.demand = std::move(*demand);
  Filler fill(out);
  out.torque = out.demand.torque.value;
  out.speed = out.demand.speed.value;
  if (!(out.torque > 0) || !(out.speed > 0))
    return model_error("machine", format_quantity(out.torque, Quantity::torque, UnitSystem::si),
                       "the machine needs no driving torque at full load; a brake or a generator drive is another job, "
                       "refer it to a specialist");
  add_figure(out, "machine.torque", "Torque at full load", out.demand.torque, Quantity::torque);
  add_figure(out, "machine.speed", "Speed of the driven shaft", out.demand.speed, Quantity::angular_speed);
  add_figure(out, "machine.starting_torque", "Torque to break away", out.demand.starting_torque, Quantity::torque);
  add_figure(out, "machine.inertia", "Inertia at the driven shaft", out.demand.inertia, Quantity::inertia);

  const Duty duty = enquiry.duty.value_or(Duty{});
  fill_duty(duty, fill, out);
  Errors errors = fill_spectrum(duty, out);
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

  const Errors connection_errors = fill_connection(enquiry.connection.value_or(Connection{}), out);
  errors.insert(errors.end(), connection_errors.begin(), connection_errors.end());
  const Mounting mounting = enquiry.mounting.value_or(Mounting{});
  out.mounting = mounting.kind.value_or(MountingKind::foot);
  out.orientation = mounting.orientation.value_or(Orientation::horizontal);
  out.max_length = mounting.max_length;
  out.max_width = mounting.max_width;
  out.max_height = mounting.max_height;

  out.peak_torque = std::max(out.torque, out.demand.starting_torque.value);
  for (const ShockEvent& shock : duty.shocks) out.peak_torque = std::max(out.peak_torque, shock.torque * out.torque);

  for (const Assumption& assumption : out.demand.assumptions) out.assumptions.push_back(assumption);
  for (const demand::Question& question : out.demand.questions) out.questions.push_back(question);
  std::stable_sort(out.questions.begin(), out.questions.end(),
                   [](const auto& a, const auto& b) { return a.influence > b.influence; });
  for (const demand::Caution& caution : out.demand.cautions) out.cautions.push_back(caution);
  add_site_cautions(enquiry.site.value_or(Site{}), out);
  if (!errors.empty()) return errors;
  return out;
}

}  // namespace lobewise::enquiry
