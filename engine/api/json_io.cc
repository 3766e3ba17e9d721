#include "engine/api/json_io.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace lobewise::api {
namespace {

using model::Field;
using model::FieldKind;
using model::RecordType;

std::string join(const std::string& path, std::string_view key) {
  return path.empty() ? std::string(key) : fmt::format("{}.{}", path, key);
}

/// By brackets outside of strings.
bool deeper_than(std::string_view json, int most) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (quoted) {
      if (c == '\\') ++i;
      if (c == '"') quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == '{' || c == '[') {
      if (++depth > most) return true;
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return false;
}

std::string shown(const Json& json) {
  if (json.is_string()) return json.get<std::string>().substr(0, 80);
  return json.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 80);
}

std::string limits_text(const Field& field) {
  const auto show = [&](double value) { return format_quantity(value, field.quantity, UnitSystem::si, 6); };
  if (std::isfinite(field.limits.low) && std::isfinite(field.limits.high))
    return fmt::format("{} to {}", show(field.limits.low), show(field.limits.high));
  if (std::isfinite(field.limits.low))
    return field.limits.low > 0 && field.limits.low < 1e-200 ? std::string("more than zero")
                                                             : fmt::format("{} or more", show(field.limits.low));
  return fmt::format("at most {}", show(field.limits.high));
}

/// A value in a quantity field; nullopt after adding an error.
std::optional<double> read_quantity(const Json& json, const Field& field, const std::string& path, Numbers numbers,
                                    Errors& errors) {
  double value = 0;
  const bool unitless = info(field.quantity).units.front().name.empty();
  if (json.is_string() || (json.is_number() && numbers == Numbers::need_unit && !unitless)) {
    const Result<double> parsed = parse_quantity(shown(json), field.quantity, path);
    if (!parsed) {
      errors.insert(errors.end(), parsed.errors().begin(), parsed.errors().end());
      return std::nullopt;
    }
    value = *parsed;
  } else if (json.is_number()) {
    value = json.get<double>();
  } else {
    errors.push_back(input_error(path, shown(json),
                                 fmt::format("{} is needed, such as '{}'", info(field.quantity).label,
                                             format_quantity(1, field.quantity, UnitSystem::si))));
    return std::nullopt;
  }
  if (!std::isfinite(value)) {
    errors.push_back(input_error(path, shown(json), "not a finite number"));
    return std::nullopt;
  }
  // Slack of a few units in the last place: 45 deg written as text must not miss a limit of 45 deg by rounding.
  const double slack = 1e-12 * std::abs(value);
  if (value < field.limits.low - slack || value > field.limits.high + slack) {
    errors.push_back(input_error(path, shown(json), fmt::format("out of range; allowed: {}", limits_text(field))));
    return std::nullopt;
  }
  return value;
}

bool inside(const Span& span, const model::Limits& limits) {
  const double slack = 1e-12 * std::max(std::abs(span.low), std::abs(span.high));
  return span.low >= limits.low - slack && span.high <= limits.high + slack;
}

/// One value, or a list of low and high or of low, likely and high, each as in a quantity field; or text with both
/// ends.
void read_span(const Json& json, const Field& field, void* object, const std::string& path, Numbers numbers,
               Errors& errors) {
  if (json.is_string()) {
    const Result<Span> parsed = parse_span(json.get_ref<const std::string&>(), field.quantity, path);
    if (!parsed)
      errors.insert(errors.end(), parsed.errors().begin(), parsed.errors().end());
    else if (!inside(*parsed, field.limits))
      errors.push_back(input_error(path, shown(json), fmt::format("out of range; allowed: {}", limits_text(field))));
    else
      field.set_span(object, *parsed);
    return;
  }
  const Json list = json.is_array() ? json : Json::array({json});
  if (list.empty() || list.size() > 3) {
    errors.push_back(input_error(path, shown(json), "one value, [low, high] or [low, likely, high]"));
    return;
  }
  std::vector<double> values;
  for (const Json& item : list)
    if (const auto value = read_quantity(item, field, path, numbers, errors)) values.push_back(*value);
  if (values.size() != list.size()) return;
  if (!std::is_sorted(values.begin(), values.end())) {
    errors.push_back(input_error(path, shown(json), "the low end comes first, then the likely value and the high end"));
    return;
  }
  field.set_span(
      object, {values.front(), values.size() == 3 ? values[1] : 0.5 * (values.front() + values.back()), values.back()});
}

void read_choice(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  std::vector<std::string_view> keys;
  for (const model::Choice& choice : *field.choices) keys.push_back(choice.key);
  const std::string word = json.is_string() ? json.get<std::string>() : shown(json);
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (keys[i] != word) continue;
    field.set_number(object, static_cast<double>(i));
    return;
  }
  const std::string_view near = model::nearest_word(word, keys);
  errors.push_back(
      input_error(path, word.substr(0, 80),
                  fmt::format("unknown word{}; allowed: {}",
                              near.empty() ? "" : fmt::format(", did you mean '{}'?", near), fmt::join(keys, ", "))));
}

void read_count(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  double value = 0.5;
  if (json.is_number()) value = json.get<double>();
  if (json.is_string()) {  // YAML scalars arrive as text
    const Result<double> parsed = parse_number(json.get<std::string>(), path);
    if (parsed) value = *parsed;
  }
  if (value != std::floor(value) || std::abs(value) > 1e9) {
    errors.push_back(input_error(path, shown(json), "a whole number is needed"));
  } else if (value < field.limits.low || value > field.limits.high) {
    errors.push_back(input_error(path, shown(json), fmt::format("out of range; allowed: {}", limits_text(field))));
  } else {
    field.set_number(object, value);
  }
}

void read_flag(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  const std::string word = shown(json);
  if (word == "yes" || word == "true")
    field.set_number(object, 1);
  else if (word == "no" || word == "false")
    field.set_number(object, 0);
  else
    errors.push_back(input_error(path, word, "yes or no is needed"));
}

void read_text(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  constexpr std::size_t kMostCharacters = 20000;
  if (!json.is_string())
    errors.push_back(input_error(path, shown(json), "text is needed"));
  else if (json.get_ref<const std::string&>().size() > kMostCharacters)
    errors.push_back(input_error(path, shown(json), fmt::format("at most {} characters", kMostCharacters)));
  else
    field.set_text(object, json.get<std::string>());
}

void read_list(const Json& json, const Field& field, void* object, const std::string& path, Numbers numbers,
               Errors& errors) {
  constexpr std::size_t kMostItems = 10000;  // far above any real enquiry or range; keeps a hostile file small
  if (!json.is_array()) {
    errors.push_back(input_error(path, shown(json), "a list is needed"));
    return;
  }
  if (json.size() > kMostItems) {
    errors.push_back(
        input_error(path, fmt::format("{} items", json.size()), fmt::format("at most {} items", kMostItems)));
    return;
  }
  field.clear(object);
  for (std::size_t i = 0; i < json.size(); ++i) {
    const std::string item_path = fmt::format("{}[{}]", path, i);
    if (field.kind == FieldKind::record_list) {
      read_record(json[i], field.record(), field.append(object), item_path, numbers, errors);
    } else if (field.kind == FieldKind::quantity_list) {
      if (const auto value = read_quantity(json[i], field, item_path, numbers, errors))
        *static_cast<double*>(field.append(object)) = *value;
    } else if (json[i].is_string()) {
      *static_cast<std::string*>(field.append(object)) = json[i].get<std::string>();
    } else {
      errors.push_back(input_error(item_path, shown(json[i]), "text is needed"));
    }
  }
}

void read_field(const Json& json, const Field& field, void* object, const std::string& path, Numbers numbers,
                Errors& errors) {
  switch (field.kind) {
    case FieldKind::quantity:
      if (const auto value = read_quantity(json, field, path, numbers, errors)) field.set_number(object, *value);
      return;
    case FieldKind::span:
      return read_span(json, field, object, path, numbers, errors);
    case FieldKind::count:
      return read_count(json, field, object, path, errors);
    case FieldKind::text:
      return read_text(json, field, object, path, errors);
    case FieldKind::choice:
      return read_choice(json, field, object, path, errors);
    case FieldKind::flag:
      return read_flag(json, field, object, path, errors);
    case FieldKind::record:
      return read_record(json, field.record(), field.make_child(object), path, numbers, errors);
    case FieldKind::quantity_list:
    case FieldKind::text_list:
    case FieldKind::record_list:
      return read_list(json, field, object, path, numbers, errors);
  }
}

Json quantity_schema(const Field& field) {
  const QuantityInfo& quantity = info(field.quantity);
  Json schema{{"type", Json::array({"number", "string"})}, {"x-quantity", std::string(quantity.key)}};
  schema["x-unit"] = std::string(quantity.units.front().name);
  Json units = Json::array();
  for (const Unit& unit : quantity.units) units.push_back(std::string(unit.name));
  schema["x-units"] = std::move(units);
  schema["x-display"] = Json{{"si", std::string(quantity.si_display)}, {"us", std::string(quantity.us_display)}};
  return schema;
}

void add_limits(Json& schema, const Field& field) {
  if (std::isfinite(field.limits.low)) schema["minimum"] = field.limits.low < 1e-200 ? 0.0 : field.limits.low;
  if (std::isfinite(field.limits.high)) schema["maximum"] = field.limits.high;
}

Json field_schema(const Field& field) {
  Json schema;
  switch (field.kind) {
    case FieldKind::quantity:
      schema = quantity_schema(field);
      add_limits(schema, field);
      break;
    case FieldKind::span:
      schema = quantity_schema(field);
      schema["type"] = Json::array({"number", "string", "array"});
      schema["x-range"] = true;
      add_limits(schema, field);
      break;
    case FieldKind::count:
      schema["type"] = "integer";
      add_limits(schema, field);
      break;
    case FieldKind::text:
      schema["type"] = "string";
      break;
    case FieldKind::choice: {
      schema["type"] = "string";
      Json keys = Json::array(), labels = Json::object();
      for (const model::Choice& choice : *field.choices) {
        keys.push_back(std::string(choice.key));
        labels[std::string(choice.key)] = std::string(choice.label);
      }
      schema["enum"] = std::move(keys);
      schema["x-labels"] = std::move(labels);
      break;
    }
    case FieldKind::flag:
      schema["type"] = "boolean";
      break;
    case FieldKind::record:
      schema = schema_of(field.record());
      break;
    case FieldKind::quantity_list:
      schema = Json{{"type", "array"}, {"items", quantity_schema(field)}};
      add_limits(schema["items"], field);
      break;
    case FieldKind::text_list:
      schema = Json{{"type", "array"}, {"items", Json{{"type", "string"}}}};
      break;
    case FieldKind::record_list:
      schema = Json{{"type", "array"}, {"items", schema_of(field.record())}};
      break;
  }
  schema["title"] = std::string(field.label);
  if (!field.help.empty()) schema["description"] = std::string(field.help);
  return schema;
}

}  // namespace

void read_record(const Json& json, const RecordType& type, void* object, const std::string& path, Numbers numbers,
                 Errors& errors) {
  if (!json.is_object()) {
    errors.push_back(input_error(path, shown(json), fmt::format("fields of '{}' are needed", type.label)));
    return;
  }
  std::vector<std::string_view> keys;
  for (const Field& field : type.fields) keys.push_back(field.key);
  std::vector<std::string> given;
  for (const auto& [key, value] : json.items()) {
    const std::string field_path = join(path, key);
    const Field* found = nullptr;
    for (const Field& field : type.fields)
      if (field.key == key) found = &field;
    if (found == nullptr) {
      const std::string_view near = model::nearest_word(key, keys);
      errors.push_back(input_error(field_path, key.substr(0, 80),
                                   near.empty()
                                       ? fmt::format("unknown field; '{}' has: {}", type.label, fmt::join(keys, ", "))
                                       : fmt::format("unknown field; did you mean '{}'?", near)));
      continue;
    }
    if (value.is_null()) continue;  // an empty line in a form: not given
    given.emplace_back(key);
    read_field(value, *found, object, field_path, numbers, errors);
  }
  if (type.one_of) {
    if (given.size() != 1)
      errors.push_back(input_error(path, given.empty() ? "nothing" : fmt::format("{}", fmt::join(given, " and ")),
                                   fmt::format("exactly one is needed of: {}", fmt::join(keys, ", "))));
    return;
  }
  for (const Field& field : type.fields) {
    if (!field.required) continue;
    const auto it = json.find(std::string(field.key));
    if (it == json.end() || it->is_null())
      errors.push_back(input_error(join(path, field.key), "", fmt::format("missing; '{}' is needed", field.label)));
  }
}

Json schema_of(const RecordType& type) {
  Json properties = Json::object();
  Json required = Json::array();
  Json order = Json::array();
  for (const Field& field : type.fields) {
    properties[std::string(field.key)] = field_schema(field);
    order.push_back(std::string(field.key));
    if (field.required && !type.one_of) required.push_back(std::string(field.key));
  }
  Json schema{{"type", "object"},
              {"additionalProperties", false},
              {"properties", std::move(properties)},
              {"x-order", std::move(order)}};
  schema["title"] = std::string(type.label);
  if (!type.help.empty()) schema["description"] = std::string(type.help);
  if (!required.empty()) schema["required"] = std::move(required);
  if (type.one_of) {
    schema["minProperties"] = 1;
    schema["maxProperties"] = 1;
  }
  return schema;
}

Json error_json(const Errors& errors) {
  Json list = Json::array();
  constexpr std::string_view kKinds[] = {"input", "data", "model", "internal"};
  for (const Error& error : errors) {
    Json item{{"kind", std::string(kKinds[static_cast<std::size_t>(error.kind)])},
              {"path", error.path},
              {"message", error.message}};
    if (!error.offending.empty()) item["offending"] = error.offending;
    if (error.line > 0) item["line"] = error.line;
    list.push_back(std::move(item));
  }
  return Json{{"errors", std::move(list)}};
}

Result<Json> parse_json(std::string_view text) {
  constexpr int kDeepest = 64;
  if (deeper_than(text, kDeepest)) return input_error("", "", fmt::format("nested deeper than {} levels", kDeepest));
  Json json = Json::parse(text, nullptr, false);
  if (json.is_discarded()) return input_error("", std::string(text.substr(0, 80)), "not JSON");
  return json;
}

std::string find_not_finite(const Json& json) {
  if (!json.is_structured()) return "";
  for (const auto& [key, value] : json.items()) {
    if (value.is_number_float() && !std::isfinite(value.get<double>())) return key;
    const std::string below = find_not_finite(value);
    if (!below.empty()) return fmt::format("{}.{}", key, below);
  }
  return "";
}

}  // namespace lobewise::api
