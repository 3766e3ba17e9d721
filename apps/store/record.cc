#include "apps/store/record.h"

#include <fmt/format.h>

#include "engine/api/moved.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string prove(const api::Session& session, Json input, const std::string& range) {
  input["range"] = Json::parse(range);
  const Result<Json> result = session.registry().run("prove", input);
  return dump(result.ok() ? *result : api::error_json(result.errors()));
}

void compare(const Json& was, const Json& is, const std::string& path, std::vector<std::string>& out) {
  constexpr std::size_t kMost = 20;
  if (out.size() >= kMost || was == is) return;
  if (was.is_object() && is.is_object()) {
    for (const auto& [key, value] : was.items())
      compare(value, is.contains(key) ? is[key] : Json(), path.empty() ? key : path + "." + key, out);
    for (const auto& [key, value] : is.items())
      if (!was.contains(key)) compare(Json(), value, path.empty() ? key : path + "." + key, out);
    return;
  }
  if (was.is_array() && is.is_array() && was.size() == is.size()) {
    for (std::size_t i = 0; i < was.size(); ++i) compare(was[i], is[i], fmt::format("{}[{}]", path, i), out);
    return;
  }
  const auto shown = [](const Json& json) {
    return json.is_null() ? std::string("nothing") : dump(json).substr(0, 120);
  };
  out.push_back(fmt::format("{}: was {}, is {}", path, shown(was), shown(is)));
}

}  // namespace

Outcome<Draft> make_draft(const api::Session& session, const Json& input, std::string note) {
  return guarded([&] {
    if (!input.is_object() || !input.contains("enquiry") || !input["enquiry"].is_object())
      throw Problem{Trouble::input, "An input {\"enquiry\": {…}} is needed."};
    for (const auto& [key, value] : input.items())
      if (key != "enquiry" && key != "build" && key != "range")
        throw Problem{Trouble::input,
                      fmt::format("'{}' is not kept; known: enquiry, build, range.", key.substr(0, 80))};
    Draft draft;
    Json kept{{"enquiry", input["enquiry"]}};
    if (input.contains("build") && !input["build"].is_null()) kept["build"] = input["build"];
    const bool own_range = input.contains("range") && !input["range"].is_null();
    const Result<Json> range = own_range ? session.registry().run("check", Json{{"range", input["range"]}})
                                         : session.registry().run("range", Json::object());
    if (!range) {
      const Error& error = range.errors().front();
      throw Problem{Trouble::input, fmt::format("The range is not sound: {} {}", error.path, error.message)};
    }
    draft.input = dump(kept);
    draft.range = dump(own_range ? input["range"] : *range);
    draft.engine = LOBEWISE_VERSION;
    draft.result = prove(session, kept, draft.range);
    draft.note = std::move(note);
    return draft;
  });
}

Remade remake(const api::Session& session, const Revision& revision) {
  Remade out;
  out.engine = LOBEWISE_VERSION;
  out.same_engine = out.engine == revision.draft.engine;
  const std::string result = prove(session, Json::parse(revision.draft.input), revision.draft.range);
  out.identical = result == revision.draft.result;
  out.result = Json::parse(result);
  const Json saved = Json::parse(revision.draft.result);
  out.moved = api::moved(saved, out.result);
  if (!out.identical) compare(saved, out.result, "", out.differences);
  return out;
}

}  // namespace lobewise::store
