#pragma once
// Records <-> JSON by their description. All errors at once, each with its path.

#include <nlohmann/json.hpp>
#include <string>

#include "engine/api/json_instances.h"
#include "engine/base/result.h"
#include "engine/model/describe.h"
#include "engine/result/json.h"

namespace lobewise::api {

using Json = nlohmann::json;

/// How a bare number in a field with a unit is taken.
enum class Numbers {
  need_unit,  ///< files people write: `7.5 hp`; a bare number is refused
  si,         ///< programs: a bare number is SI; text with a unit is still understood
};

/// Fills a record; fields not in the JSON keep their value.
/// @param object  address of a value of the described type
/// @param path    path of the record itself for errors, empty at the root
void read_record(const Json& json, const model::RecordType& type, void* object, const std::string& path,
                 Numbers numbers, Errors& errors);

template <class T>
Result<T> read(const Json& json, Numbers numbers) {
  T value{};
  Errors errors;
  read_record(json, model::describe<T>(), &value, "", numbers, errors);
  if (!errors.empty()) return errors;
  return value;
}

/// Record -> JSON, quantities as SI numbers, absent fields left out.
template <class T>
Json write(const T& value) {
  return result::write_record(model::describe<T>(), &value);
}
template <class T>
Json write_list(const std::vector<T>& values) {
  Json list = Json::array();
  for (const T& value : values) list.push_back(write(value));
  return list;
}

/// JSON Schema (draft 2020-12) of a record, with units, limits, labels and help as `x-…` hints for forms.
[[nodiscard]] Json schema_of(const model::RecordType& type);

/// Reads JSON that may come from anybody. Errors: not JSON, nested deeper than 64 levels (what reads, copies or writes
/// a tree goes down it level by level: a file of a million brackets would take the stack).
[[nodiscard]] Result<Json> parse_json(std::string_view text);

/// {"errors": [{kind, path, message, offending?, line?}]}
[[nodiscard]] Json error_json(const Errors& errors);
/// Path of the first number that is not finite, empty when all are.
[[nodiscard]] std::string find_not_finite(const Json& json);

}  // namespace lobewise::api
