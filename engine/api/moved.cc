#include "engine/api/moved.h"

#include <algorithm>

#include "engine/judge/moved.h"

namespace lobewise::api {
namespace {

std::string text_in(const Json& json, const char* key) {
  const auto found = json.is_object() ? json.find(key) : json.end();
  return found != json.end() && found->is_string() ? found->get<std::string>() : "";
}

const Json& list_in(const Json& json, const char* key) {
  static const Json kNone = Json::array();
  const auto found = json.is_object() ? json.find(key) : json.end();
  return found != json.end() && found->is_array() ? *found : kNone;
}

std::optional<double> value_of(const Json& json) {
  const Json* value = json.is_object() && json.contains("value") ? &json["value"] : &json;
  return value->is_number() ? std::optional(value->get<double>()) : std::nullopt;
}

Quantity quantity_of(const Json& json) {
  const std::string key = text_in(json, "quantity");
  for (const QuantityInfo& info : all_quantities())
    if (info.key == key) return info.quantity;
  return Quantity::number;
}

std::vector<judge::KeptFinding> findings_of(const Json& proof) {
  std::vector<judge::KeptFinding> out;
  for (const Json& finding : list_in(proof, "findings")) {
    judge::KeptFinding kept{text_in(finding, "id"), text_in(finding, "verdict")};
    for (const Json& check : list_in(finding, "checks")) {
      if (!check.is_object() || !check.contains("figure") || !check.contains("limit") || !check.contains("margin"))
        continue;
      const auto figure = value_of(check["figure"]), limit = value_of(check["limit"]),
                 margin = value_of(check["margin"]);
      if (figure && limit && margin)
        kept.checks.push_back({text_in(check, "name"), *figure, *limit, *margin, quantity_of(check["figure"])});
    }
    out.push_back(std::move(kept));
  }
  return out;
}

Json side_of(const Json& proof) {
  Json out = Json::object();
  if (const std::string build = text_in(proof, "build_name"); !build.empty()) out["build"] = build;
  if (const Json& errors = list_in(proof, "errors"); !errors.empty())
    out["error"] = text_in(errors.front(), "path") + ": " + text_in(errors.front(), "message");
  return out;
}

Json amount(double value, Quantity quantity) {
  return Json{{"value", value},
              {"si", format_quantity(value, quantity, UnitSystem::si)},
              {"us", format_quantity(value, quantity, UnitSystem::us)}};
}

Json check_json(const judge::KeptCheck& check) {
  return Json{{"figure", amount(check.figure, check.quantity)},
              {"limit", amount(check.limit, check.quantity)},
              {"margin", check.margin}};
}

}  // namespace

Json moved(const Json& before, const Json& after) {
  const judge::Moved moved = judge::moved(findings_of(before), findings_of(after));
  Json out{
      {"before", side_of(before)}, {"after", side_of(after)}, {"turned", Json::array()}, {"checks", Json::array()}};
  for (const judge::Turned& turned : moved.turned) {
    Json json{{"finding", turned.finding}};
    if (!turned.before.empty()) json["before"] = turned.before;
    if (!turned.after.empty()) json["after"] = turned.after;
    out["turned"].push_back(std::move(json));
  }
  for (const judge::MovedCheck& check : moved.checks) {
    Json json{{"finding", check.finding}, {"check", check.before ? check.before->name : check.after->name}};
    if (check.before) json["before"] = check_json(*check.before);
    if (check.after) json["after"] = check_json(*check.after);
    out["checks"].push_back(std::move(json));
  }
  return out;
}

}  // namespace lobewise::api
