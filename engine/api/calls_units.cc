// units, quantity: the registry of quantities for screens, so that no other place lists units or reads them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/api/calls.h"

namespace lobewise::api {
namespace {

constexpr std::size_t kMostItems = 2000;

/// Units of one system only; every other unit is at home in both.
constexpr std::array<std::string_view, 49> kSiOnly = {
    "m",       "mm",   "cm",    "um",         "km",       "m2",   "mm2",   "cm2",  "m3",    "L",
    "mm3",     "cm3",  "kg",    "g",          "t",        "m/s",  "m/min", "km/h", "mm/s",  "N",
    "kN",      "MN",   "N·m",   "kN·m",       "N·mm",     "Pa",   "MPa",   "kPa",  "GPa",   "bar",
    "N/mm2",   "°C",   "kg/s",  "t/h",        "kg/h",     "m3/s", "m3/h",  "L/s",  "kg/m3", "kg/L",
    "N·m/rad", "kg/m", "kg·m2", "N·m/arcmin", "kN·m/rad", "N/m",  "N/mm",  "N/um", "mm2/s"};
constexpr std::array<std::string_view, 39> kUsOnly = {
    "in",     "ft",     "mil",    "yd",  "in2",    "ft2",    "ft3",        "gal",           "qt",        "lb",
    "st",     "ft/min", "ft/s",   "mph", "lbf",    "kip",    "lbf·in",     "lbf·ft",        "psi",       "ksi",
    "°F",     "st/h",   "lb/h",   "hp",  "Btu/h",  "ft3/h",  "ft3/min",    "gal/min",       "lb/ft3",    "lb/ft",
    "lb/min", "lb·ft2", "lb·in2", "Btu", "lbf/in", "Btu/°F", "lbf·in/rad", "lbf·in/arcmin", "Btu/(h·°F)"};

Json units_json() {
  Json quantities = Json::object();
  for (const QuantityInfo& quantity : all_quantities()) {
    Json units = Json::array();
    for (const Unit& unit : quantity.units) {
      Json item{{"name", std::string(unit.name)}, {"factor", unit.factor}, {"offset", unit.offset}};
      const auto in = [&](const auto& list) { return std::find(list.begin(), list.end(), unit.name) != list.end(); };
      if (in(kSiOnly)) item["system"] = "si";
      if (in(kUsOnly)) item["system"] = "us";
      units.push_back(std::move(item));
    }
    quantities[std::string(quantity.key)] = Json{{"label", std::string(quantity.label)},
                                                 {"units", std::move(units)},
                                                 {"si", std::string(quantity.si_display)},
                                                 {"us", std::string(quantity.us_display)},
                                                 {"digits", quantity.digits}};
  }
  return Json{{"quantities", std::move(quantities)}};
}

/// {value, si, us}, or {error} for a text that is no such quantity.
Json read_item(const Json& item, const std::string& path, Errors& errors) {
  if (!item.is_object() || !item.contains("text") || !item["text"].is_string() || !item.contains("quantity") ||
      !item["quantity"].is_string()) {
    errors.push_back(input_error(path, "", "needed: {text, quantity}, both text"));
    return {};
  }
  const std::string& key = item["quantity"].get_ref<const std::string&>();
  for (const QuantityInfo& quantity : all_quantities()) {
    if (quantity.key != key) continue;
    const Result<double> value = parse_quantity(item["text"].get_ref<const std::string&>(), quantity.quantity, path);
    if (!value) return Json{{"error", value.errors().front().message}};
    return Json{{"value", *value},
                {"si", format_quantity(*value, quantity.quantity, UnitSystem::si)},
                {"us", format_quantity(*value, quantity.quantity, UnitSystem::us)}};
  }
  errors.push_back(input_error(path + ".quantity", key.substr(0, 80), "unknown quantity; the call `units` lists them"));
  return {};
}

Result<Json> read_items(const Json& input) {
  if (!input.is_object() || !input.contains("items") || !input["items"].is_array() ||
      input["items"].size() > kMostItems)
    return input_error("items", "", fmt::format("a list of at most {} items is needed", kMostItems));
  Json values = Json::array();
  Errors errors;
  for (std::size_t i = 0; i < input["items"].size(); ++i)
    values.push_back(read_item(input["items"][i], fmt::format("items[{}]", i), errors));
  if (!errors.empty()) return errors;
  return Json{{"values", std::move(values)}};
}

Json items_schema() {
  const Json item{{"type", "object"},
                  {"properties", {{"text", {{"type", "string"}}}, {"quantity", {{"type", "string"}}}}},
                  {"required", {"text", "quantity"}},
                  {"additionalProperties", false}};
  return Json{{"type", "object"},
              {"properties", {{"items", {{"type", "array"}, {"items", item}, {"maxItems", kMostItems}}}}},
              {"required", {"items"}},
              {"additionalProperties", false}};
}

}  // namespace

void add_unit_calls(Registry& registry) {
  registry.add({"units", "Every quantity with its units: SI = factor * x + offset",
                [](const Json&) -> Result<Json> { return units_json(); },
                [] {
                  return Json{{"type", "object"}, {"additionalProperties", false}};
                }});
  registry.add({"quantity", "Reads what people write, such as '7.5 hp', and shows it in both systems", read_items,
                items_schema});
}

}  // namespace lobewise::api
