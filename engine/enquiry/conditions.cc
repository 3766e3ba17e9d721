#include "engine/enquiry/conditions.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "engine/base/constants.h"

namespace lobewise::model {
template <>
const std::vector<Choice>& choices_of<enquiry::Place>();
template <>
const std::vector<Choice>& choices_of<enquiry::Starting>();
template <>
const std::vector<Choice>& choices_of<enquiry::EfficiencyClass>();
template <>
const std::vector<Choice>& choices_of<enquiry::MountingKind>();
}  // namespace lobewise::model

namespace lobewise::enquiry {
namespace {

template <class E>
std::string label(E value) {
  return std::string(model::choices_of<E>()[static_cast<std::size_t>(value)].label);
}

bool explosive(const Site& site) { return site.explosive_atmosphere.value_or(site.explosive.has_value()); }

std::string explosive_words(const Site& site) {
  if (!explosive(site)) return site.explosive_atmosphere ? "not explosive" : "nobody said whether it is explosive";
  const Explosive particulars = site.explosive.value_or(Explosive{});
  const std::vector<std::string> missing = missing_particulars(particulars);
  const std::string known = in_words(particulars);
  std::string out = "explosive";
  if (!known.empty()) out += ": " + known;
  if (!missing.empty()) out += fmt::format("; not stated: {}", fmt::join(missing, ", "));
  return out;
}

std::string words(const std::optional<bool>& flag, const char* yes, const char* no) {
  return !flag ? fmt::format("nobody said whether it is {}", yes) : *flag ? yes : no;
}

const char* orientation_words(Orientation orientation) {
  switch (orientation) {
    case Orientation::output_down:
      return "upright, output shaft down";
    case Orientation::output_up:
      return "upright, output shaft up";
    case Orientation::horizontal:
      break;
  }
  return "horizontal";
}

}  // namespace

std::string not_offered(const Site& site) {
  if (!explosive(site)) return "";
  const Explosive particulars = site.explosive.value_or(Explosive{});
  if (const auto missing = missing_particulars(particulars); !missing.empty())
    return fmt::format("Not offered for this zone: the place is explosive, and nobody stated {}.",
                       fmt::join(missing, ", "));
  if (category_of(*particulars.zone) == 1 || particulars.category == 1)
    return fmt::format(
        "Not offered for this zone: {} asks for equipment of category 1, which no drive of a general "
        "range is; refer it to a specialist.",
        label(*particulars.zone));
  return "";
}

std::vector<Condition> conditions_of(const Enquiry& enquiry) {
  const Site site = enquiry.site.value_or(Site{});
  const Mounting mounting = enquiry.mounting.value_or(Mounting{});
  const Supply supply = enquiry.supply.value_or(Supply{});
  std::vector<Condition> out;
  out.push_back({"site.place", "Place", label(site.place.value_or(Place::indoors)), site.place.has_value()});
  out.push_back({"site.explosive_atmosphere", "Explosive atmosphere", explosive_words(site),
                 site.explosive_atmosphere || site.explosive});
  out.push_back({"site.food_area", "Food area", words(site.food_area, "a food area", "no food area"),
                 site.food_area.has_value()});
  out.push_back({"site.washed_down", "Washed down", words(site.washed_down, "washed down", "not washed down"),
                 site.washed_down.has_value()});
  out.push_back({"site.dusty", "Dusty", words(site.dusty, "dusty", "not dusty"), site.dusty.has_value()});
  out.push_back(
      {"mounting.kind", "Mounting", label(mounting.kind.value_or(MountingKind::foot)), mounting.kind.has_value()});
  out.push_back({"mounting.orientation", "Position of the shaft",
                 orientation_words(mounting.orientation.value_or(Orientation::horizontal)),
                 mounting.orientation.has_value()});
  const bool inverter = supply.inverter_low || supply.inverter_high;
  out.push_back({"supply.starting", "Starting",
                 label(supply.starting.value_or(inverter ? Starting::inverter : Starting::direct)),
                 supply.starting || inverter});
  out.push_back({"supply.efficiency_class", "Efficiency class of the motor",
                 label(supply.efficiency_class.value_or(EfficiencyClass::ie3)), supply.efficiency_class.has_value()});
  if (supply.poles) out.push_back({"supply.poles", "Poles of the motor", fmt::format("{}", *supply.poles), true});
  return out;
}

std::vector<demand::Caution> cautions_of(const Enquiry& enquiry, double ambient_low, double altitude) {
  const Site site = enquiry.site.value_or(Site{});
  std::vector<demand::Caution> out;
  if (explosive(site))
    out.push_back(
        {"explosive",
         "Explosive atmosphere: backstop, seals, couplings and a low oil level are sources of ignition. Only a "
         "drive whose ignition hazards were assessed (ISO 80079-36 and -37) and that is certified and marked "
         "for the zone may stand there; these figures are no such assessment."});
  if (site.food_area == true) {
    out.push_back({"food",
                   "Food area: only registered lubricants (incidental contact, H1 or ISO 21469); expect a lower load "
                   "limit or a shorter change interval, and write the registration into the record of each fill."});
    const bool down = enquiry.mounting && enquiry.mounting->orientation == Orientation::output_down;
    out.push_back(
        {"food_leak",
         fmt::format("Food area: a seal that leaks lets oil run {}. Decide where a leak goes: a drip tray with "
                     "a drain beside the product, or the drive beside it rather than above.",
                     down ? "down its own shaft onto the product" : "to the lowest point under the drive")});
    out.push_back({"food_residue",
                   "Food area: a registered lubricant mixed with the residue of another fill is registered no longer. "
                   "Drain warm, rinse with the new one and drain again before the first filling."});
  }
  if (ambient_low < kZeroCelsius - 10)
    out.push_back(
        {"cold",
         "Cold start: thick oil multiplies the starting torque; agree on lubricant and warm-up for the coldest "
         "day."});
  if (site.washed_down == true)
    out.push_back(
        {"washdown",
         "Washed down: water at the shaft seals ends seal and bearing life early. Order double-lip or cassette "
         "seals, a closed breather (bladder or valve) and a smooth drained top; never aim the jet at a seal."});
  if (site.dusty == true)
    out.push_back({"dust",
                   "Dusty: a layer on the housing keeps its heat in and grit works through the seals. Keep fins and "
                   "breather free, order dust lips and a filter breather."});
  if (site.place && *site.place != Place::indoors)
    out.push_back(
        {"outdoors",
         "Outdoors: rain stands on flat tops and enters at breather and seals, sun ages them. Roof it, order a "
         "shielded breather and drain holes at the motor's lowest point."});
  if (altitude > 1000)
    out.push_back({"altitude",
                   "Above 1000 m thinner air cools motor and reducer less: motor rating and temperature account for it "
                   "here; insulation and switchgear are the supplier's to confirm."});
  const bool inverter = enquiry.supply && (enquiry.supply->starting == Starting::inverter ||
                                           enquiry.supply->inverter_low || enquiry.supply->inverter_high);
  if (inverter)
    out.push_back(
        {"inverter_charge",
         "The inverter stays charged after isolation: wait as its plate says, at least 5 min, and measure that "
         "nothing is left before a cable is touched (common practice)."});
  return out;
}

}  // namespace lobewise::enquiry
