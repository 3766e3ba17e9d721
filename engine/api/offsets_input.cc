#include "engine/api/offsets_input.h"

#include <fmt/core.h>

#include "engine/api/case_input.h"

namespace lobewise::api {
namespace {

using Json = nlohmann::json;

void read_lists(const Json& offsets, const char* key, const std::string& path, std::vector<std::vector<double>>& lists,
                Errors& errors) {
  if (!offsets.contains(key) || offsets[key].is_null()) return;
  const Json& found = offsets[key];
  if (!found.is_array()) {
    errors.push_back(input_error(path + "." + key, found.dump().substr(0, 60), "must be a list of lists, one a disc."));
    return;
  }
  for (std::size_t d = 0; d < found.size(); ++d) {
    const std::string name = fmt::format("{}[{}]", key, d);
    const Json one = {{name, found[d]}};
    CaseReader in(one, path + ".", errors);
    lists.push_back(in.numbers(name.c_str()));
  }
}

}  // namespace

Result<contact::PartOffsets> read_offsets(const Json& json, const std::string& path,
                                          const mechanism::StageGeometry& stage) {
  contact::PartOffsets offsets;
  Errors errors;
  if (!json.is_object())
    return input_error(path, json.dump().substr(0, 60), "must be an object with lists of offsets.");
  refuse_unknown(json, path + ".",
                 {"roller_radial", "roller_tangential", "roller_radius", "hole_radial", "hole_tangential",
                  "hole_radius", "pin_radial", "pin_tangential", "pin_radius"},
                 errors);
  CaseReader in(json, path + ".", errors);
  const auto list = [&](const char* key, std::vector<double>& values) {
    if (in.has(key)) values = in.numbers(key);
    for (double& value : values) value *= kMm;
  };
  const auto lists = [&](const char* key, std::vector<std::vector<double>>& values) {
    read_lists(json, key, path, values, errors);
    for (auto& one : values)
      for (double& value : one) value *= kMm;
  };
  list("roller_radial", offsets.roller_radial);
  list("roller_tangential", offsets.roller_tangential);
  list("roller_radius", offsets.roller_radius);
  lists("hole_radial", offsets.hole_radial);
  lists("hole_tangential", offsets.hole_tangential);
  lists("hole_radius", offsets.hole_radius);
  list("pin_radial", offsets.pin_radial);
  list("pin_tangential", offsets.pin_tangential);
  list("pin_radius", offsets.pin_radius);
  if (!errors.empty()) return errors;
  errors = contact::check_offsets(offsets, stage);
  for (Error& error : errors) error.path = path + "." + error.path;
  if (!errors.empty()) return errors;
  return offsets;
}

}  // namespace lobewise::api
