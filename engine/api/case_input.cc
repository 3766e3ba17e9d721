#include "engine/api/case_input.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/model/describe.h"

namespace lobewise::api {

using Json = nlohmann::json;

bool CaseReader::has(const char* key) const {
  return object_.is_object() && object_.contains(key) && !object_[key].is_null();
}

double CaseReader::number(const char* key, std::optional<double> fallback) {
  const auto found = find(key, fallback.has_value());
  if (!found) return fallback.value_or(0);
  if (found->is_number() && std::isfinite(found->get<double>())) return found->get<double>();
  return reject(key, *found, "must be a finite number."), 0;
}

int CaseReader::count(const char* key) {
  const auto found = find(key, false);
  if (!found) return 0;
  if (found->is_number() && found->get<double>() == std::floor(found->get<double>()) &&
      std::abs(found->get<double>()) <= 10000)
    return static_cast<int>(found->get<double>());
  return reject(key, *found, "must be a whole number up to 10000."), 0;
}

bool CaseReader::flag(const char* key, bool fallback) {
  const auto found = find(key, true);
  if (!found) return fallback;
  if (found->is_boolean()) return found->get<bool>();
  return reject(key, *found, "must be true or false."), fallback;
}

contact::LawKind CaseReader::law(const char* key) {
  const auto found = find(key, true);
  if (!found) return contact::LawKind::log;
  for (const auto kind : {contact::LawKind::palmgren, contact::LawKind::log, contact::LawKind::linear})
    if (found->is_string() && found->get<std::string>() == contact::law_name(kind)) return kind;
  return reject(key, *found, "must be one of palmgren, log, linear."), contact::LawKind::log;
}

std::string CaseReader::text(const char* key) {
  const auto found = find(key, false);
  if (!found) return {};
  if (found->is_string()) return found->get<std::string>();
  return reject(key, *found, "must be a text."), std::string();
}

std::vector<double> CaseReader::numbers(const char* key) {
  const auto found = find(key, false);
  if (!found) return {};
  std::vector<double> values;
  if (found->is_array())
    for (const Json& item : *found)
      if (item.is_number() && std::isfinite(item.get<double>())) values.push_back(item.get<double>());
  if (found->is_array() && values.size() == found->size()) return values;
  return reject(key, *found, "must be a list of finite numbers."), std::vector<double>();
}

const Json* CaseReader::find(const char* key, bool optional) {
  if (object_.is_object()) {
    const auto found = object_.find(key);
    if (found != object_.end()) return &*found;
  }
  if (!optional) errors_.push_back(input_error(path_ + key, "", "is missing."));
  return nullptr;
}

void CaseReader::reject(const char* key, const Json& value, const char* message) {
  errors_.push_back(input_error(path_ + key, value.dump().substr(0, 60), message));
}

void refuse_unknown(const Json& object, const std::string& path, std::initializer_list<const char*> known,
                    Errors& errors) {
  if (!object.is_object()) return;
  const std::vector<std::string_view> words(known.begin(), known.end());
  for (const auto& [key, value] : object.items()) {
    if (std::find(words.begin(), words.end(), key) != words.end()) continue;
    const std::string_view near = model::nearest_word(key, words);
    errors.push_back(input_error(path + key, key.substr(0, 80),
                                 near.empty() ? std::string("is no field of such a case.")
                                              : fmt::format("is no field of such a case; did you mean '{}'?", near)));
  }
}

namespace {

/// Key in the files for a member of MeshModel.
std::string file_key(const std::string& member) {
  static constexpr std::array<std::pair<const char*, const char*>, 25> kKeys = {{
      {"stage.lobes", "N"},
      {"stage.pitch_radius", "R"},
      {"stage.roller_radius", "r"},
      {"stage.eccentricity", "e"},
      {"stage.width", "b"},
      {"stage.discs", "n_d"},
      {"stage.pins", "M"},
      {"stage.pin_circle_radius", "Rw"},
      {"stage.pin_radius", "rw"},
      {"stage.hole_clearance", "cl_hole"},
      {"stage.roller_offset", "dr"},
      {"stage.radius_offset", "dR"},
      {"stage.flank_relief", "dang"},
      {"material.modulus", "E"},
      {"material.poisson", "nu"},
      {"ring_law.multiplier", "m_ring"},
      {"ring_law.extra_compliance", "c_ring"},
      {"ring_law.depth", "h_ring"},
      {"ring_law.linear_stiffness", "k_lin"},
      {"pin_law.multiplier", "m_pin"},
      {"pin_law.extra_compliance", "c_pin"},
      {"pin_law.depth", "h_pin"},
      {"pin_law.linear_stiffness", "k_lin"},
      {"support.stiffness", "k_b"},
      {"support.clearance", "cl_b"},
  }};
  for (const auto& [name, key] : kKeys)
    if (member == name) return key;
  return member;
}

}  // namespace

Result<StageInput> read_params(const Json& params, const std::string& path) {
  Errors errors;
  if (!params.is_object()) return input_error(path, "", "must be an object with the parameters of a stage.");
  refuse_unknown(params, path + ".",
                 {"N",       "R",     "r",      "e",       "b",      "n_d",       "M",       "Rw",      "rw",
                  "cl_hole", "dr",    "dR",     "dang",    "E",      "nu",        "law",     "m_ring",  "m_pin",
                  "c_ring",  "c_pin", "h_ring", "h_pin",   "k_lin",  "k_b",       "cl_b",    "mu_ring", "mu_pin",
                  "mu_b",    "d_b",   "T0",     "rb_ring", "rb_pin", "ring_free", "pin_free"},
                 errors);
  CaseReader in(params, path + ".", errors);
  StageInput input;
  auto& stage = input.model.stage;
  stage.lobes = in.count("N");
  stage.pitch_radius = in.number("R") * kMm;
  stage.roller_radius = in.number("r") * kMm;
  stage.eccentricity = in.number("e") * kMm;
  stage.width = in.number("b") * kMm;
  stage.discs = in.count("n_d");
  stage.pins = in.count("M");
  stage.pin_circle_radius = in.number("Rw") * kMm;
  stage.pin_radius = in.number("rw") * kMm;
  stage.hole_clearance = in.number("cl_hole", 0) * kMm;
  stage.roller_offset = in.number("dr", 0) * kMm;
  stage.radius_offset = in.number("dR", 0) * kMm;
  stage.flank_relief = in.number("dang", 0);
  input.model.material.modulus = in.number("E", 206000) * kMpa;
  input.model.material.poisson = in.number("nu", 0.3);
  auto& ring = input.model.ring_law;
  auto& pin = input.model.pin_law;
  ring.kind = pin.kind = in.law("law");
  ring.multiplier = in.number("m_ring", 1);
  pin.multiplier = in.number("m_pin", 1);
  ring.extra_compliance = in.number("c_ring", 0) * kMmPerN;
  pin.extra_compliance = in.number("c_pin", 0) * kMmPerN;
  ring.depth = in.number("h_ring", stage.width / kMm) * kMm;
  pin.depth = in.number("h_pin", stage.width / kMm) * kMm;
  ring.linear_stiffness = pin.linear_stiffness = in.number("k_lin", 1e6) * kPerMm;
  input.model.support.stiffness = in.number("k_b", 5e5) * kPerMm;
  input.model.support.clearance = in.number("cl_b", 0) * kMm;
  auto& friction = input.friction;
  friction.ring = in.number("mu_ring", friction.ring);
  friction.pin = in.number("mu_pin", friction.pin);
  friction.bearing = in.number("mu_b", friction.bearing);
  friction.bearing_diameter = in.number("d_b", friction.bearing_diameter / kMm) * kMm;
  friction.ring_free = in.flag("ring_free", false);
  friction.ring_core_radius = in.number("rb_ring", friction.ring_core_radius / kMm) * kMm;
  friction.pin_free = in.flag("pin_free", true);
  friction.pin_core_radius = in.number("rb_pin", friction.pin_core_radius / kMm) * kMm;
  friction.drag = in.number("T0", 0) * kNmm;
  if (!errors.empty()) return errors;
  errors = contact::check_model(input.model);
  for (Error& error : errors) error.path = path + "." + file_key(error.path);
  if (!errors.empty()) return errors;
  return input;
}

}  // namespace lobewise::api
