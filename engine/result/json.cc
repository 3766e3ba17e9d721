#include "engine/result/json.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace lobewise::result {
namespace {

using model::Field;
using model::FieldKind;
using model::RecordType;

Json list_json(const Field& field, const void* object) {
  Json out = Json::array();
  const std::size_t size = field.size(object);
  out.get_ref<Json::array_t&>().reserve(size);
  for (std::size_t i = 0; i < size; ++i) {
    const void* item = field.item(object, i);
    if (field.kind == FieldKind::quantity_list)
      out.push_back(*static_cast<const double*>(item));
    else if (field.kind == FieldKind::text_list)
      out.push_back(*static_cast<const std::string*>(item));
    else
      out.push_back(write_record(field.record(), item));
  }
  return out;
}

Json value_json(const Field& field, const void* object) {
  switch (field.kind) {
    case FieldKind::quantity:
      return field.number(object);
    case FieldKind::span: {
      const Span& span = field.span(object);
      return span.exact() ? Json(span.likely) : Json::array({span.low, span.likely, span.high});
    }
    case FieldKind::count:
      return static_cast<long long>(field.number(object));
    case FieldKind::text:
      return field.text(object);
    case FieldKind::choice:
      return std::string((*field.choices)[static_cast<std::size_t>(field.number(object))].key);
    case FieldKind::flag:
      return field.number(object) != 0;
    case FieldKind::record:
      return write_record(field.record(), field.child(object));
    case FieldKind::quantity_list:
    case FieldKind::text_list:
    case FieldKind::record_list:
      break;
  }
  return list_json(field, object);
}

/// Whether a value may stand for a field; fields that share a key differ in this.
bool is_kind(const Json& json, FieldKind kind) {
  switch (kind) {
    case FieldKind::quantity:
    case FieldKind::count:
      return json.is_number();
    case FieldKind::text:
    case FieldKind::choice:
      return json.is_string();
    case FieldKind::flag:
      return json.is_boolean();
    case FieldKind::record:
      return json.is_object();
    case FieldKind::span:
      return json.is_number() || json.is_array();
    case FieldKind::quantity_list:
    case FieldKind::text_list:
    case FieldKind::record_list:
      return json.is_array();
  }
  return false;
}

std::string_view words_of(FieldKind kind) {
  switch (kind) {
    case FieldKind::quantity:
    case FieldKind::count:
    case FieldKind::span:
      return "a number";
    case FieldKind::text:
    case FieldKind::choice:
      return "text";
    case FieldKind::flag:
      return "true or false";
    case FieldKind::record:
      return "a record";
    case FieldKind::quantity_list:
    case FieldKind::text_list:
    case FieldKind::record_list:
      break;
  }
  return "a list";
}

std::string shown(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 80); }

void refuse(const Json& json, FieldKind kind, const std::string& path, Errors& errors) {
  errors.push_back(input_error(path, shown(json), fmt::format("{} is needed", words_of(kind))));
}

void read_list(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  field.make_child(object);
  for (std::size_t i = 0; i < json.size(); ++i) {
    const Json& item = json[i];
    if (field.kind == FieldKind::record_list) {
      read_result(item, field.record(), field.append(object), fmt::format("{}[{}]", path, i), errors);
    } else if (field.kind == FieldKind::quantity_list) {
      if (item.is_number())
        *static_cast<double*>(field.append(object)) = item.get<double>();
      else
        refuse(item, FieldKind::quantity, fmt::format("{}[{}]", path, i), errors);
    } else if (item.is_string()) {
      *static_cast<std::string*>(field.append(object)) = item.get<std::string>();
    } else {
      refuse(item, FieldKind::text, fmt::format("{}[{}]", path, i), errors);
    }
  }
}

void read_value(const Json& json, const Field& field, void* object, const std::string& path, Errors& errors) {
  switch (field.kind) {
    case FieldKind::quantity:
    case FieldKind::count:
      field.set_number(object, json.get<double>());
      return;
    case FieldKind::text:
      field.set_text(object, json.get<std::string>());
      return;
    case FieldKind::choice: {
      const auto& word = json.get_ref<const std::string&>();
      const auto found = std::find_if(field.choices->begin(), field.choices->end(),
                                      [&](const model::Choice& choice) { return choice.key == word; });
      if (found == field.choices->end())
        errors.push_back(input_error(path, word.substr(0, 80), "unknown word"));
      else
        field.set_number(object, static_cast<double>(found - field.choices->begin()));
      return;
    }
    case FieldKind::flag:
      field.set_number(object, json.get<bool>() ? 1 : 0);
      return;
    case FieldKind::record:
      return read_result(json, field.record(), field.make_child(object), path, errors);
    case FieldKind::span:  // no result has one
      return refuse(json, field.kind, path, errors);
    case FieldKind::quantity_list:
    case FieldKind::text_list:
    case FieldKind::record_list:
      return read_list(json, field, object, path, errors);
  }
}

/// Number, word or record of a field, without its meaning.
Json kind_schema(const Field& field, Json& defs);

/// A reference to a record, which is added to `defs`.
Json reference(const RecordType& type, Json& defs) {
  const std::string key(type.key);
  if (!defs.contains(key)) {
    defs[key] = nullptr;  // a record may hold records of its own kind
    Json properties = Json::object(), required = Json::array(), order = Json::array();
    for (const Field& field : type.fields) {
      const std::string name(field.key);
      Json schema = kind_schema(field, defs);
      const bool alternative = properties.contains(name);
      if (alternative) {
        Json& first = properties[name];
        if (!first.contains("anyOf"))
          first = Json{{"description", first["description"]}, {"anyOf", Json::array({std::move(first)})}};
        first["anyOf"].push_back(std::move(schema));
        if (field.required && std::find(required.begin(), required.end(), name) == required.end())
          required.push_back(name);
        continue;
      }
      if (field.kind == FieldKind::record && field.required && field.clear != nullptr)
        schema = Json{{"anyOf", Json::array({std::move(schema), Json{{"type", "null"}}})}};
      schema["description"] = std::string(field.help);
      properties[name] = std::move(schema);
      order.push_back(name);
      if (field.required) required.push_back(name);
    }
    defs[key] = Json{{"type", "object"},
                     {"description", std::string(type.help)},
                     {"properties", std::move(properties)},
                     {"required", std::move(required)},
                     {"additionalProperties", false},
                     {"x-order", std::move(order)}};
  }
  return Json{{"$ref", "#/$defs/" + key}};
}

Json kind_schema(const Field& field, Json& defs) {
  const auto number = [&] {
    Json schema{{"type", "number"}};
    if (field.quantity == Quantity::number) return schema;
    schema["x-quantity"] = std::string(info(field.quantity).key);
    schema["x-unit"] = std::string(info(field.quantity).units.front().name);
    return schema;
  };
  switch (field.kind) {
    case FieldKind::quantity:
      return number();
    case FieldKind::span:
      return Json{{"anyOf", Json::array({number(), Json{{"type", "array"}, {"items", number()}}})}};
    case FieldKind::count:
      return Json{{"type", "integer"}};
    case FieldKind::text:
      return Json{{"type", "string"}};
    case FieldKind::choice: {
      Json schema{{"type", "string"}};
      for (const model::Choice& choice : *field.choices) {
        schema["enum"].push_back(std::string(choice.key));
        schema["x-labels"][std::string(choice.key)] = std::string(choice.label);
      }
      return schema;
    }
    case FieldKind::flag:
      return Json{{"type", "boolean"}};
    case FieldKind::record:
      return reference(field.record(), defs);
    case FieldKind::quantity_list:
      return Json{{"type", "array"}, {"items", number()}};
    case FieldKind::text_list:
      return Json{{"type", "array"}, {"items", {{"type", "string"}}}};
    case FieldKind::record_list:
      break;
  }
  return Json{{"type", "array"}, {"items", reference(field.record(), defs)}};
}

}  // namespace

Json write_record(const RecordType& type, const void* object) {
  Json json = Json::object();
  for (const Field& field : type.fields) {
    if (field.present(object))
      json[std::string(field.key)] = value_json(field, object);
    else if (field.required && field.kind == FieldKind::record)
      json[std::string(field.key)] = nullptr;
  }
  return json;
}

void read_result(const Json& json, const RecordType& type, void* object, const std::string& path, Errors& errors) {
  if (!json.is_object()) return refuse(json, FieldKind::record, path, errors);
  const auto& members = json.get_ref<const Json::object_t&>();
  for (const Field& field : type.fields) {
    const auto alternative = [&](bool taken) {
      return std::any_of(type.fields.begin(), type.fields.end(), [&](const Field& other) {
        return &other != &field && other.key == field.key &&
               (!taken || is_kind(members.find(field.key)->second, other.kind));
      });
    };
    const auto here = [&] { return path.empty() ? std::string(field.key) : fmt::format("{}.{}", path, field.key); };
    const auto member = members.find(field.key);
    if (member == members.end()) {
      if (field.required && !alternative(false)) errors.push_back(input_error(here(), "", "missing"));
    } else if (is_kind(member->second, field.kind)) {
      read_value(member->second, field, object, here(), errors);
    } else if (!member->second.is_null() && !alternative(true)) {
      refuse(member->second, field.kind, here(), errors);
    }
  }
}

Json schema_of_result(const RecordType& type) {
  Json defs = Json::object();
  Json schema = reference(type, defs);
  schema["$defs"] = std::move(defs);
  return schema;
}

}  // namespace lobewise::result
