#include "engine/api/registry.h"

#include <fmt/format.h>

#include <exception>

#include "engine/api/calls.h"
#include "engine/api/table_shelf.h"

namespace lobewise::api {

void Registry::add(Call call) { calls_.push_back(std::move(call)); }

void Registry::add(std::string name, std::string help, std::function<void(Arguments&, Json&)> function) {
  Call call;
  call.name = std::move(name);
  call.help = std::move(help);
  call.run = [function](const Json& input) -> Result<Json> {
    Arguments arguments(input);
    Json out = Json::object();
    function(arguments, out);
    Errors errors = arguments.finish();
    if (!errors.empty()) return errors;
    return out;
  };
  call.schema = [function] {
    Arguments arguments = Arguments::describing();
    Json out;
    function(arguments, out);
    return arguments.schema();
  };
  calls_.push_back(std::move(call));
}

Result<Json> Registry::run(std::string_view name, const Json& input) const {
  for (const Call& call : calls_) {
    if (call.name != name) continue;
    Result<Json> result = call.run(input);
    if (!result) return result;
    const std::string place = find_not_finite(*result);
    if (place.empty()) return result;
    return model_error(place, "",
                       fmt::format("'{}' has no finite answer for this input; it lies outside the model", name));
  }
  std::vector<std::string_view> names;
  for (const Call& call : calls_) names.push_back(call.name);
  const std::string_view near = model::nearest_word(name, names);
  return input_error("call", std::string(name.substr(0, 80)),
                     near.empty() ? "unknown call; `lobewise schema` lists them"
                                  : fmt::format("unknown call; did you mean '{}'?", near));
}

Session::Session() : Session(std::make_shared<TableShelf>()) {}

Session::Session(std::shared_ptr<TableShelf> shelf) : shelf_(std::move(shelf)) { add_calls(registry_, shelf_); }

std::string answer(std::string_view request) { return Session().answer(request); }

std::string Session::answer(std::string_view request) const {
  constexpr std::size_t kMostBytes = 16U << 20U;
  const auto dump = [](const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); };
  try {
    if (request.size() > kMostBytes)
      return dump(
          error_json({input_error("", fmt::format("{} bytes", request.size()), "a request has at most 16 MiB")}));
    const Result<Json> json = parse_json(request);
    if (!json.ok() || !json->is_object() || !json->contains("call") || !(*json)["call"].is_string())
      return dump(error_json({input_error("", std::string(request.substr(0, 80)),
                                          fmt::format("not a request{}; needed: {{\"call\": NAME, \"input\": {{…}}}}",
                                                      json.ok() ? "" : " (" + json.errors().front().message + ")"))}));
    const Result<Json> result =
        registry_.run((*json)["call"].get_ref<const std::string&>(), json->value("input", Json::object()));
    return dump(result.ok() ? *result : error_json(result.errors()));
  } catch (const std::exception& problem) {  // the wall: nothing leaves the door but an answer
    return dump(error_json({Error{ErrorKind::internal, "", "", fmt::format("internal error: {}", problem.what()), 0}}));
  }
}

}  // namespace lobewise::api
