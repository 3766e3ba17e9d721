#include "engine/enquiry/contradictions.h"

#include <fmt/format.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/case/energy.h"
#include "engine/demand/contradiction.h"

namespace lobewise::enquiry {
namespace {

using demand::contradiction;
using demand::Said;

Said at(const char* path, double value, Quantity quantity) {
  return {path, format_quantity(value, quantity, UnitSystem::si)};
}

void of_site(const Site& site, Errors& errors) {
  constexpr double kStormIndoors = 10;  // [m/s] common practice, no source
  if (site.ambient_low && site.ambient_high && *site.ambient_low > *site.ambient_high)
    errors.push_back(contradiction(at("site.ambient_low", *site.ambient_low, Quantity::temperature),
                                   at("site.ambient_high", *site.ambient_high, Quantity::temperature),
                                   "the coldest surroundings are not above the warmest."));
  if (site.place == Place::indoors && site.air_speed && *site.air_speed > kStormIndoors)
    errors.push_back(contradiction(at("site.air_speed", *site.air_speed, Quantity::speed), {"site.place", "indoors"},
                                   "no air moves like that indoors; 10 m/s is a storm."));
  if (site.explosive_atmosphere == false && site.explosive)
    errors.push_back(contradiction({"site.explosive_atmosphere", "no"}, {"site.explosive", in_words(*site.explosive)},
                                   "particulars of an explosive place are stated; say yes, or leave them out."));
  if (site.explosive) {
    const Errors own = contradictions(*site.explosive);
    errors.insert(errors.end(), own.begin(), own.end());
    const std::optional<double> hottest = hottest_surface(*site.explosive);
    if (hottest && site.ambient_high && *site.ambient_high >= *hottest)
      errors.push_back(contradiction(at("site.ambient_high", *site.ambient_high, Quantity::temperature),
                                     {"site.explosive", in_words(*site.explosive)},
                                     "the surroundings alone are warmer than any surface may be."));
  }
}

void of_supply(const Supply& supply, Errors& errors) {
  if (supply.frequency && *supply.frequency != 50 && *supply.frequency != 60)
    errors.push_back(input_error(
        "supply.frequency", format_quantity(*supply.frequency, Quantity::frequency, UnitSystem::si), "50 Hz or 60 Hz"));
  if (supply.poles && *supply.poles % 2 != 0)
    errors.push_back(
        input_error("supply.poles", fmt::format("{}", *supply.poles), "2, 4, 6 or 8: poles come in pairs"));
  const bool inverter = supply.starting == Starting::inverter;
  if (supply.inverter_low && supply.inverter_high && *supply.inverter_low > *supply.inverter_high)
    errors.push_back(contradiction(at("supply.inverter_low", *supply.inverter_low, Quantity::frequency),
                                   at("supply.inverter_high", *supply.inverter_high, Quantity::frequency),
                                   "the lowest frequency is not above the highest."));
  if (supply.starting && !inverter)
    for (const auto& [path, value] :
         {std::pair{"supply.inverter_low", supply.inverter_low}, {"supply.inverter_high", supply.inverter_high}})
      if (value)
        errors.push_back(contradiction(at(path, *value, Quantity::frequency), {"supply.starting", "no inverter"},
                                       "only an inverter has a range of frequencies."));
  const double frequency = supply.frequency.value_or(50);
  if (supply.inverter_low && !supply.inverter_high && *supply.inverter_low > frequency)
    errors.push_back(contradiction(at("supply.inverter_low", *supply.inverter_low, Quantity::frequency),
                                   {"supply.inverter_high", "not said, that of the mains taken"},
                                   "say the highest frequency too."));
  if (supply.inverter_high && !supply.inverter_low && *supply.inverter_high < 0.5 * frequency)
    errors.push_back(contradiction(at("supply.inverter_high", *supply.inverter_high, Quantity::frequency),
                                   {"supply.inverter_low", "not said, half of the mains taken"},
                                   "say the lowest frequency too."));
}

void of_duty(const demand::Duty& duty, const std::optional<Cycle>& cycle, const Supply& supply,
             const std::optional<demand::Link>& link, Errors& errors) {
  constexpr double kHour = 3600, kDay = 86400, kRounding = 1.02;  // stated figures are rounded
  if (cycle) {
    const double share = cycle->run_time / (cycle->run_time + cycle->rest_time);
    if (!(cycle->rest_time > 0))
      errors.push_back(input_error("cycle.rest_time", "0 s", "a cycle has a rest; leave the cycle out without one"));
    if (duty.hours_per_day && *duty.hours_per_day > kRounding * share * kDay)
      errors.push_back(
          contradiction(at("duty.hours_per_day", *duty.hours_per_day, Quantity::duration),
                        at("cycle.rest_time", cycle->rest_time, Quantity::time),
                        fmt::format("hours a day are hours of running; with that rest at most {} fit into a day.",
                                    format_quantity(share * kDay, Quantity::duration, UnitSystem::si))));
    const double starts = kHour / cycle->run_time;
    if (duty.starts_per_hour && *duty.starts_per_hour * kRounding < starts)
      errors.push_back(
          contradiction(at("duty.starts_per_hour", *duty.starts_per_hour, Quantity::per_hour),
                        at("cycle.run_time", cycle->run_time, Quantity::time),
                        fmt::format("with such a cycle it starts {:.3g} times an hour of running.", starts)));
  }
  bool turns = duty.blocks.empty();
  const bool steady_speed =
      supply.starting && *supply.starting != Starting::inverter && link != demand::Link::variable_belt;
  constexpr double kSameSpeed = 0.1;  // slip of a motor between empty and full, and rounding
  for (std::size_t i = 0; i < duty.blocks.size(); ++i) {
    const demand::DutyBlock& block = duty.blocks[i];
    turns = turns || (block.speed > 0 && block.time_share > 0);
    if (steady_speed && block.speed > 0 && std::abs(block.speed - 1) > kSameSpeed)
      errors.push_back(contradiction(
          {fmt::format("duty.blocks[{}].speed", i), fmt::format("{:.0f} %", 100 * block.speed)},
          {"supply.starting", "no inverter"}, "without an inverter or a variable belt the motor has one speed."));
  }
  if (!turns)
    errors.push_back(input_error("duty.blocks", "0", "at least one block must turn: a speed and a time share above 0"));
}

}  // namespace

Errors record_contradictions(const Enquiry& enquiry) {
  Errors errors;
  const Supply supply = enquiry.supply.value_or(Supply{});
  if (enquiry.site) of_site(*enquiry.site, errors);
  of_supply(supply, errors);
  of_duty(enquiry.duty.value_or(demand::Duty{}), enquiry.cycle, supply,
          enquiry.connection ? enquiry.connection->link : std::nullopt, errors);
  if (enquiry.economics && !enquiry.economics->country.empty() && !cost::country_code(enquiry.economics->country))
    errors.push_back(input_error("economics.country", enquiry.economics->country,
                                 fmt::format("a country of which grid or price are known: {}; leave it out and say "
                                             "economics.grid_carbon and economics.energy_price instead",
                                             cost::known_countries())));
  if (enquiry.build && enquiry.build->frame.empty() &&
      (enquiry.build->lobes || enquiry.build->first_lobes || !enquiry.build->first_frame.empty()))
    errors.push_back(input_error("build.frame", "", "say the frame of the build too"));
  return errors;
}

}  // namespace lobewise::enquiry
