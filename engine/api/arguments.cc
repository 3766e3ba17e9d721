#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

/// One field on its own, so that the one reader in json_io.cc does limits, units and messages.
struct NumberSlot {
  double value = 0;
};
struct ListSlot {
  std::vector<double> values;
};

std::string shown(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace).substr(0, 80); }

Json number_schema(Quantity quantity, model::Limits limits) {
  Json schema{{"type", "number"},
              {"x-quantity", std::string(info(quantity).key)},
              {"x-unit", std::string(info(quantity).units.front().name)}};
  if (std::isfinite(limits.low)) schema["minimum"] = limits.low < 1e-200 ? 0.0 : limits.low;
  if (std::isfinite(limits.high)) schema["maximum"] = limits.high;
  return schema;
}

Json words_schema(const std::vector<std::string_view>& allowed) {
  Json words = Json::array();
  for (std::string_view word : allowed) words.push_back(std::string(word));
  return Json{{"type", "string"}, {"enum", std::move(words)}};
}

}  // namespace

Arguments::Arguments(const Json& input, std::string path) : input_(input), path_(std::move(path)) {
  if (input_.is_object()) return;
  errors_.push_back(input_error(path_, shown(input_), "fields are needed"));
  input_ = Json::object();
}

Arguments Arguments::describing() {
  Arguments arguments;
  arguments.input_ = Json::object();
  arguments.describing_ = true;
  return arguments;
}

std::string Arguments::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

void Arguments::note(std::string_view key, Json schema, bool required) {
  known_.emplace_back(key);
  if (!describing_) return;
  properties_[std::string(key)] = std::move(schema);
  if (required) required_.push_back(std::string(key));
}

const Json* Arguments::find(std::string_view key, bool required) {
  const auto it = input_.find(std::string(key));
  if (it != input_.end() && !it->is_null()) return &*it;
  if (required && !describing_) errors_.push_back(input_error(path_of(key), "", "missing"));
  return nullptr;
}

bool Arguments::has(std::string_view key) const {
  const auto it = input_.find(std::string(key));
  return it != input_.end() && !it->is_null();
}

double Arguments::number(std::string_view key, Quantity quantity, model::Limits limits) {
  note(key, number_schema(quantity, limits), true);
  const Json* json = find(key, true);
  if (json == nullptr) return 1;
  NumberSlot slot;
  const model::RecordType type{"", "", "", {model::field<&NumberSlot::value>(key, key, "", quantity, limits)}};
  read_record(Json{{std::string(key), *json}}, type, &slot, path_, Numbers::si, errors_);
  return slot.value;
}

double Arguments::number_or(std::string_view key, Quantity quantity, double fallback, model::Limits limits) {
  if (has(key)) return number(key, quantity, limits);
  note(key, number_schema(quantity, limits), false);
  return fallback;
}

int Arguments::count(std::string_view key, model::Limits limits) {
  const double value = number(key, Quantity::number, {std::max(limits.low, -1e9), std::min(limits.high, 1e9)});
  if (value == std::floor(value)) return static_cast<int>(value);
  errors_.push_back(input_error(path_of(key), fmt::format("{}", value), "a whole number is needed"));
  return 1;
}

bool Arguments::flag_or(std::string_view key, bool fallback) {
  note(key, Json{{"type", "boolean"}}, false);
  const Json* json = find(key, false);
  if (json == nullptr) return fallback;
  if (json->is_boolean()) return json->get<bool>();
  errors_.push_back(input_error(path_of(key), shown(*json), "true or false is needed"));
  return fallback;
}

std::vector<double> Arguments::numbers(std::string_view key, Quantity quantity, model::Limits limits) {
  note(key, Json{{"type", "array"}, {"items", number_schema(quantity, limits)}}, true);
  const Json* json = find(key, true);
  if (json == nullptr) return {};
  ListSlot slot;
  const model::RecordType type{"", "", "", {model::field<&ListSlot::values>(key, key, "", quantity, limits)}};
  read_record(Json{{std::string(key), *json}}, type, &slot, path_, Numbers::si, errors_);
  return slot.values;
}

std::vector<double> Arguments::numbers_if_given(std::string_view key, Quantity quantity, model::Limits limits) {
  if (has(key)) return numbers(key, quantity, limits);
  note(key, Json{{"type", "array"}, {"items", number_schema(quantity, limits)}}, false);
  return {};
}

std::string Arguments::text(std::string_view key, const std::vector<std::string_view>& allowed) {
  note(key, words_schema(allowed), true);
  const Json* json = find(key, true);
  if (json == nullptr) return std::string(allowed.front());
  const std::string word = json->is_string() ? json->get<std::string>() : shown(*json);
  if (std::find(allowed.begin(), allowed.end(), word) != allowed.end()) return word;
  errors_.push_back(
      input_error(path_of(key), word.substr(0, 80), fmt::format("allowed: {}", fmt::join(allowed, ", "))));
  return std::string(allowed.front());
}

std::string Arguments::text_or(std::string_view key, std::string_view fallback,
                               const std::vector<std::string_view>& allowed) {
  if (has(key)) return text(key, allowed);
  note(key, words_schema(allowed), false);
  return std::string(fallback);
}

std::string Arguments::free_text(std::string_view key, std::size_t longest) {
  note(key, Json{{"type", "string"}, {"maxLength", longest}}, true);
  const Json* json = find(key, true);
  if (json == nullptr) return {};
  if (json->is_string() && json->get_ref<const std::string&>().size() <= longest) return json->get<std::string>();
  errors_.push_back(input_error(path_of(key), shown(*json).substr(0, 80),
                                fmt::format("a text of at most {} characters is needed", longest)));
  return {};
}

std::vector<std::pair<double, double>> Arguments::intervals(std::string_view key) {
  const Json number{{"type", "number"}};
  note(key,
       Json{{"type", "array"}, {"items", {{"type", "array"}, {"items", number}, {"minItems", 2}, {"maxItems", 2}}}},
       true);
  const Json* json = find(key, true);
  std::vector<std::pair<double, double>> list;
  if (json == nullptr) return list;
  const auto readable = [](const Json& item) {
    return item.is_array() && item.size() == 2 && item[0].is_number() && item[1].is_number() &&
           std::isfinite(item[0].get<double>()) && std::isfinite(item[1].get<double>()) &&
           item[0].get<double>() < item[1].get<double>();
  };
  if (!json->is_array() || json->empty()) {
    errors_.push_back(input_error(path_of(key), shown(*json).substr(0, 80), "a list of [low, high] is needed"));
    return list;
  }
  for (std::size_t i = 0; i < json->size(); ++i) {
    const Json& item = (*json)[i];
    if (readable(item))
      list.emplace_back(item[0].get<double>(), item[1].get<double>());
    else
      errors_.push_back(input_error(fmt::format("{}[{}]", path_of(key), i), shown(item).substr(0, 80),
                                    "two numbers are needed, the lower first"));
  }
  return list;
}

Arguments Arguments::record(std::string_view key) {
  known_.emplace_back(key);
  if (describing_) return describing();
  const Json* json = find(key, true);
  return json == nullptr ? describing() : Arguments(*json, path_of(key));
}

std::vector<Arguments> Arguments::records(std::string_view key) {
  known_.emplace_back(key);
  std::vector<Arguments> list;
  if (describing_) {
    list.push_back(describing());
    return list;
  }
  const Json* json = find(key, true);
  if (json == nullptr) return list;
  if (!json->is_array() || json->empty() || json->size() > 10000) {
    errors_.push_back(input_error(path_of(key), shown(*json), "a list of 1 to 10000 records is needed"));
    return list;
  }
  for (std::size_t i = 0; i < json->size(); ++i)
    list.push_back(Arguments((*json)[i], fmt::format("{}[{}]", path_of(key), i)));
  return list;
}

void Arguments::absorb(const Arguments& child) {
  if (describing_) {
    properties_[known_.back()] = child.schema();
    return;
  }
  refuse(child.finish());
}

void Arguments::refuse(std::string_view key, std::string message) {
  errors_.push_back(input_error(path_of(key), "", std::move(message)));
}

void Arguments::refuse(const Errors& errors) { errors_.insert(errors_.end(), errors.begin(), errors.end()); }

Errors Arguments::finish() const {
  Errors errors = errors_;
  const std::vector<std::string_view> words(known_.begin(), known_.end());
  for (const auto& [key, value] : input_.items()) {
    if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
    const std::string_view near = model::nearest_word(key, words);
    errors.push_back(input_error(path_of(key), key.substr(0, 80),
                                 near.empty() ? fmt::format("unknown field; known: {}", fmt::join(known_, ", "))
                                              : fmt::format("unknown field; did you mean '{}'?", near)));
  }
  return errors;
}

Json Arguments::schema() const {
  Json schema{{"type", "object"}, {"additionalProperties", false}, {"properties", properties_}};
  if (!required_.empty()) schema["required"] = required_;
  return schema;
}

}  // namespace lobewise::api
