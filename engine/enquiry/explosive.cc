#include "engine/enquiry/explosive.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/base/constants.h"
#include "engine/base/quantity.h"
#include "engine/demand/contradiction.h"
#include "engine/model/describe.h"

namespace lobewise::model {
template <>
const std::vector<Choice>& choices_of<enquiry::Zone>();
template <>
const std::vector<Choice>& choices_of<enquiry::ExplosiveGroup>();
template <>
const std::vector<Choice>& choices_of<enquiry::TemperatureClass>();
}  // namespace lobewise::model

namespace lobewise::enquiry {
namespace {

constexpr const char* kPath = "site.explosive.";

template <class E>
std::string label(E value) {
  return std::string(model::choices_of<E>()[static_cast<std::size_t>(value)].label);
}

bool dust(Zone zone) { return zone == Zone::zone_20 || zone == Zone::zone_21 || zone == Zone::zone_22; }

}  // namespace

std::vector<std::string> missing_particulars(const Explosive& e) {
  std::vector<std::string> missing;
  if (!e.zone) missing.emplace_back("the zone");
  if (!e.group && !e.category) missing.emplace_back("the group or category");
  if (!hottest_surface(e)) missing.emplace_back("the temperature class or the highest surface temperature");
  if (e.certifier.empty()) missing.emplace_back("who certifies it");
  return missing;
}

int category_of(Zone zone) {
  switch (zone) {
    case Zone::zone_1:
    case Zone::zone_21:
      return 2;
    case Zone::zone_2:
    case Zone::zone_22:
      return 3;
    case Zone::zone_0:
    case Zone::zone_20:
    case Zone::mine:
      break;
  }
  return 1;
}

std::optional<double> hottest_surface(const Explosive& e) {
  constexpr std::array<double, 6> kClasses{450, 300, 200, 135, 100, 85};  // [degC]
  std::optional<double> allowed = e.surface_temperature;
  if (e.temperature_class) {
    const auto index = static_cast<std::size_t>(*e.temperature_class);
    const double distance = *e.temperature_class <= TemperatureClass::t2 ? 10 : 5;  // [K]
    const double of_class = kZeroCelsius + kClasses[index] - distance;
    allowed = std::min(allowed.value_or(of_class), of_class);
  }
  return allowed;
}

std::string in_words(const Explosive& e) {
  std::vector<std::string> parts;
  if (e.zone) parts.push_back(label(*e.zone));
  if (e.group) parts.push_back("group " + label(*e.group));
  if (e.category) parts.push_back(fmt::format("category {}", *e.category));
  if (e.temperature_class) parts.push_back("temperature class " + label(*e.temperature_class));
  if (e.surface_temperature)
    parts.push_back("surfaces up to " + format_quantity(*e.surface_temperature, Quantity::temperature, UnitSystem::si));
  if (!e.certifier.empty()) parts.push_back("certified by " + e.certifier);
  std::string out;
  for (const std::string& part : parts) out += (out.empty() ? "" : ", ") + part;
  return out;
}

Errors contradictions(const Explosive& e) {
  Errors errors;
  const auto at = [](const char* name, const std::string& value) {
    return demand::Said{kPath + std::string(name), value};
  };
  if (e.zone && e.group) {
    const bool of_mines = *e.group == ExplosiveGroup::i;
    const bool of_dusts = *e.group >= ExplosiveGroup::iiia;
    if (of_mines != (*e.zone == Zone::mine) || of_dusts != dust(*e.zone))
      errors.push_back(
          demand::contradiction(at("group", label(*e.group)), at("zone", label(*e.zone)),
                                "group I is for mines, II for gas (zones 0, 1, 2), III for dust (zones 20, "
                                "21, 22)."));
  }
  if (e.zone && e.category && *e.category > category_of(*e.zone))
    errors.push_back(demand::contradiction(at("category", fmt::format("{}", *e.category)), at("zone", label(*e.zone)),
                                           fmt::format("that zone asks for category {}.", category_of(*e.zone))));
  return errors;
}

}  // namespace lobewise::enquiry

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<enquiry::Zone>() {
  static const std::vector<Choice> words{{"zone_0", "zone 0"},          {"zone_1", "zone 1"},   {"zone_2", "zone 2"},
                                         {"zone_20", "zone 20"},        {"zone_21", "zone 21"}, {"zone_22", "zone 22"},
                                         {"mine", "mine with firedamp"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::ExplosiveGroup>() {
  static const std::vector<Choice> words{{"i", "I"},       {"iia", "IIA"},   {"iib", "IIB"},  {"iic", "IIC"},
                                         {"iiia", "IIIA"}, {"iiib", "IIIB"}, {"iiic", "IIIC"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<enquiry::TemperatureClass>() {
  static const std::vector<Choice> words{{"t1", "T1"}, {"t2", "T2"}, {"t3", "T3"},
                                         {"t4", "T4"}, {"t5", "T5"}, {"t6", "T6"}};
  return words;
}

template <>
const RecordType& describe<enquiry::Explosive>() {
  using E = enquiry::Explosive;
  static const RecordType type{
      "explosive",
      "Explosive place",
      "Nothing is offered there until all of it is stated; the plant's explosion protection document holds it",
      {
          field<&E::zone>("zone", "Zone", "Of the plant's explosion protection document"),
          field<&E::group>("group", "Group", "Of the gas or dust"),
          field<&E::category>("category", "Category", "Of the equipment, 1 to 3; 1 is the strictest", Quantity::number,
                              {1, 3}),
          field<&E::temperature_class>("temperature_class", "Temperature class", "Of the gas or of the place"),
          field<&E::surface_temperature>("surface_temperature", "Highest surface temperature", "As stated for a dust",
                                         Quantity::temperature, {323.15, 773.15}),
          field<&E::certifier>("certifier", "Certified by", "Who certifies the drive for this place").with_default(),
      }};
  return type;
}

}  // namespace lobewise::model
