#pragma once
// Described records as JSON and back, and the schema of results.

#include <nlohmann/json_fwd.hpp>

#include "engine/base/result.h"
#include "engine/result/field.h"

namespace lobewise::result {

using Json = nlohmann::json;

/// Numbers SI, absent fields left out.
[[nodiscard]] Json write_record(const model::RecordType& type, const void* object);

/// Fills a record. Members that nobody described are passed over: a later engine may say more.
/// Errors: what is missing or of another kind, each with its path.
void read_result(const Json& json, const model::RecordType& type, void* object, const std::string& path,
                 Errors& errors);

template <class T>
[[nodiscard]] Result<T> read(const Json& json) {
  T value{};
  Errors errors;
  read_result(json, model::describe<T>(), &value, "", errors);
  if (!errors.empty()) return errors;
  return value;
}

/// JSON Schema (draft 2020-12), records by name under `$defs`, those of the same name once.
[[nodiscard]] Json schema_of_result(const model::RecordType& type);

/// Every result that has a schema, by the name of its record.
[[nodiscard]] const std::vector<const model::RecordType*>& all_results();
/// Null when there is none of that name.
[[nodiscard]] const model::RecordType* result_named(std::string_view key);

}  // namespace lobewise::result
