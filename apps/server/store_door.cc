#include "apps/server/store_door.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>

#include "apps/store/base64.h"
#include "apps/store/head_json.h"
#include "apps/store/record.h"

namespace lobewise::server {
namespace {

using Json = nlohmann::json;
using store::Problem;
using store::Trouble;

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

template <class T>
T take(store::Outcome<T> outcome) {
  if (!outcome) throw outcome.problem();
  return std::move(*outcome);
}

/// Members of an input; what nobody asked for is refused.
class Input {
 public:
  explicit Input(const Json& json) : json_(json) {
    if (!json.is_object()) throw Problem{Trouble::input, "`input` must be an object."};
  }
  std::optional<std::string> text(const char* name) {
    const Json* found = find(name);
    if (found == nullptr) return std::nullopt;
    if (!found->is_string()) throw Problem{Trouble::input, fmt::format("`{}` must be text.", name)};
    return found->get<std::string>();
  }
  std::string text_or(const char* name, const char* otherwise = "") { return text(name).value_or(otherwise); }
  std::int64_t count(const char* name) {
    const Json* found = find(name);
    if (found == nullptr) throw Problem{Trouble::input, fmt::format("`{}` is missing.", name)};
    return whole(*found, name);
  }
  std::int64_t count_or(const char* name, std::int64_t otherwise) {
    const Json* found = find(name);
    return found == nullptr ? otherwise : whole(*found, name);
  }
  bool flag_or(const char* name, bool otherwise) {
    const Json* found = find(name);
    if (found == nullptr) return otherwise;
    if (!found->is_boolean()) throw Problem{Trouble::input, fmt::format("`{}` must be true or false.", name)};
    return found->get<bool>();
  }
  std::optional<store::State> state() {
    const std::optional<std::string> name = text("state");
    if (!name) return std::nullopt;
    const std::optional<store::State> state = store::state_of(*name);
    if (!state) throw Problem{Trouble::input, fmt::format("`state` is one of {}.", fmt::join(store::kStates, ", "))};
    return state;
  }
  /// The members of a revision, for the engine.
  Json draft() {
    Json out = Json::object();
    for (const char* name : {"enquiry", "build", "range"})
      if (const Json* found = find(name)) out[name] = *found;
    return out;
  }
  void finish() const {
    for (const auto& [key, value] : json_.items())
      if (asked_.count(key) == 0)
        throw Problem{Trouble::input,
                      fmt::format("`{}` is unknown here; known: {}.", key.substr(0, 80), fmt::join(asked_, ", "))};
  }

 private:
  const Json* find(const char* name) {
    asked_.insert(name);
    const auto found = json_.find(name);
    return found == json_.end() || found->is_null() ? nullptr : &*found;
  }
  static std::int64_t whole(const Json& json, const char* name) {
    constexpr std::int64_t kMost = 1'000'000'000'000;
    if (!json.is_number_integer() || (json.is_number_unsigned() && json.get<std::uint64_t>() > kMost) ||
        json.get<std::int64_t>() < 0 || json.get<std::int64_t>() > kMost)
      throw Problem{Trouble::input, fmt::format("`{}` must be a whole number from 0.", name)};
    return json.get<std::int64_t>();
  }

  const Json& json_;
  std::set<std::string> asked_;
};

Json info_json(const store::RevisionInfo& info) {
  return {{"revision", info.revision}, {"saved", info.saved},        {"saved_by", info.saved_by},   {"note", info.note},
          {"engine", info.engine},     {"range_sha256", info.range}, {"result_sha256", info.result}};
}

Json document_json(const store::DocumentInfo& info) {
  return {{"revision", info.revision}, {"name", info.name},   {"type", info.type},        {"size", info.size},
          {"sha256", info.sha256},     {"saved", info.saved}, {"saved_by", info.saved_by}};
}

/// What a call works with.
struct Work {
  store::Store& store;
  Engines& engines;
  const store::Actor& by;
};

Engines::Lease engine_of(const Work& work) {
  Engines::Lease engine = work.engines.take();
  if (!engine) throw Problem{Trouble::busy, "All engines are busy. Nothing was written; try again."};
  return engine;
}

Json list(const Work& work, Input& in) {
  store::Query query;
  query.text = in.text_or("text");
  query.state = in.state();
  query.due = in.text_or("due");
  query.owner = in.text_or("owner");
  query.limit = in.count_or("limit", 100);
  query.offset = in.count_or("offset", 0);
  in.finish();
  const store::Page page = take(work.store.list(query));
  Json heads = Json::array();
  for (const store::Head& head : page.heads) heads.push_back(store::head_json(head));
  return {{"enquiries", std::move(heads)}, {"total", page.total}};
}

Json open(const Work& work, Input& in) {
  const std::int64_t number = in.count("number"), wanted = in.count_or("revision", 0);
  const bool with_result = in.flag_or("result", false);
  in.finish();
  Json out{{"head", store::head_json(take(work.store.head(number)))}};
  const store::Revision revision = take(work.store.revision(number, wanted));
  out["revision"] = info_json(revision.info);
  out["input"] = Json::parse(revision.draft.input);
  if (with_result) {
    out["range"] = Json::parse(revision.draft.range);
    out["result"] = Json::parse(revision.draft.result);
  }
  out["revisions"] = out["steps"] = out["documents"] = Json::array();
  for (const store::RevisionInfo& info : take(work.store.revisions(number)))
    out["revisions"].push_back(info_json(info));
  for (const store::Step& step : take(work.store.history(number)))
    out["steps"].push_back({{"at", step.at},
                            {"person", step.person},
                            {"state", name_of(step.state)},
                            {"follow_up", step.follow_up},
                            {"note", step.note}});
  for (const store::DocumentInfo& info : take(work.store.documents(number)))
    out["documents"].push_back(document_json(info));
  return out;
}

Json save(const Work& work, Input& in) {
  const Json draft = in.draft();
  const std::string note = in.text_or("note");
  in.finish();
  return store::head_json(take(work.store.save(work.by, take(store::make_draft(*engine_of(work), draft, note)))));
}

Json revise(const Work& work, Input& in) {
  const std::int64_t number = in.count("number"), version = in.count("version");
  const Json draft = in.draft();
  const std::string note = in.text_or("note");
  in.finish();
  return store::head_json(
      take(work.store.revise(work.by, number, version, take(store::make_draft(*engine_of(work), draft, note)))));
}

Json step(const Work& work, Input& in) {
  const std::int64_t number = in.count("number"), version = in.count("version");
  store::NewStep next;
  const std::optional<store::State> state = in.state();
  next.follow_up = in.text("follow_up");
  next.owner = in.text("owner");
  next.note = in.text_or("note");
  in.finish();
  if (!state) throw Problem{Trouble::input, "`state` is missing."};
  next.state = *state;
  return store::head_json(take(work.store.step(work.by, number, version, next)));
}

Json remake(const Work& work, Input& in) {
  const std::int64_t number = in.count("number"), wanted = in.count_or("revision", 0);
  in.finish();
  const store::Revision revision = take(work.store.revision(number, wanted));
  const store::Remade remade = store::remake(*engine_of(work), revision);
  return {{"identical", remade.identical},
          {"saved_engine", revision.draft.engine},
          {"engine", remade.engine},
          {"moved", remade.moved},
          {"differences", remade.differences}};
}

Json attach(const Work& work, Input& in) {
  const std::int64_t number = in.count("number"), wanted = in.count_or("revision", 0);
  store::Document document;
  document.name = in.text_or("name");
  document.type = in.text_or("type");
  document.request = in.text_or("request");
  const std::optional<std::string> bytes = store::from_base64(in.text_or("base64"));
  in.finish();
  if (!bytes) throw Problem{Trouble::input, "`base64` must be the document's bytes in base64."};
  document.bytes = *bytes;
  return document_json(take(work.store.attach(work.by, number, wanted, document)));
}

void require_keeper(const Work& work) {
  if (work.by.role != store::Role::keeper) throw Problem{Trouble::denied, "This needs the role `keeper`."};
}

Json people(const Work& work, Input& in) {
  in.finish();
  require_keeper(work);
  Json list = Json::array();
  for (const store::Person& person : take(work.store.people()))
    list.push_back({{"name", person.name}, {"role", name_of(person.role)}, {"active", person.active}});
  return {{"people", std::move(list)}};
}

Json set_person(const Work& work, Input& in) {
  store::Person person;
  person.name = in.text_or("name");
  const std::string role = in.text_or("role"), password = in.text_or("password");
  person.active = in.flag_or("active", true);
  in.finish();
  const auto known = std::find_if(std::begin(store::kRoles), std::end(store::kRoles),
                                  [&](store::Role each) { return role == name_of(each); });
  if (known == std::end(store::kRoles)) throw Problem{Trouble::input, "`role` is one of reader, engineer, keeper."};
  person.role = *known;
  person = take(work.store.set_person(work.by, person, password));
  return {{"name", person.name}, {"role", name_of(person.role)}, {"active", person.active}};
}

Json audit(const Work& work, Input& in) {
  const std::int64_t most = std::min<std::int64_t>(in.count_or("most", 100), 10'000);
  in.finish();
  require_keeper(work);
  Json list = Json::array();
  for (const store::AuditLine& line : take(work.store.audit(most)))
    list.push_back({{"at", line.at},
                    {"person", line.person},
                    {"action", line.action},
                    {"subject", line.subject},
                    {"detail", line.detail}});
  return {{"lines", std::move(list)}};
}

const std::map<std::string, Json (*)(const Work&, Input&)>& calls() {
  static const std::map<std::string, Json (*)(const Work&, Input&)> kCalls{
      {"list", list},     {"open", open},     {"save", save},     {"revise", revise},         {"step", step},
      {"remake", remake}, {"attach", attach}, {"people", people}, {"set_person", set_person}, {"audit", audit}};
  return kCalls;
}

int status_of(Trouble trouble) {
  switch (trouble) {
    case Trouble::input:
      return 400;
    case Trouble::denied:
      return 403;
    case Trouble::not_found:
      return 404;
    case Trouble::conflict:
      return 409;
    case Trouble::wait:
      return 429;
    case Trouble::busy:
      return 503;
    case Trouble::full:
      return 507;
    default:
      return 500;
  }
}

}  // namespace

Answer refusal(const Problem& problem) {
  const bool asked_wrongly = problem.trouble <= Trouble::wait;
  return {status_of(problem.trouble), dump({{"errors",
                                             {{{"kind", asked_wrongly ? "input" : "data"},
                                               {"trouble", name_of(problem.trouble)},
                                               {"path", ""},
                                               {"message", problem.message}}}}})};
}

Answer StoreDoor::answer(const store::Actor& by, std::string_view request) const {
  try {
    const Result<Json> json = api::parse_json(request);
    if (!json) throw Problem{Trouble::input, "This is no request: " + json.errors().front().message + "."};
    if (!json->is_object() || !json->contains("call") || !(*json)["call"].is_string())
      throw Problem{Trouble::input, "This is no request; needed: {\"call\": NAME, \"input\": {…}}."};
    const auto call = calls().find((*json)["call"].get_ref<const std::string&>());
    if (call == calls().end()) {
      std::vector<std::string> names;
      for (const auto& [name, function] : calls()) names.push_back(name);
      throw Problem{Trouble::input, fmt::format("There is no such call; known: {}.", fmt::join(names, ", "))};
    }
    const Json none = Json::object();
    Input input(json->contains("input") ? (*json)["input"] : none);
    return {200, dump(call->second({store_, engines_, by}, input))};
  } catch (const Problem& problem) {
    return refusal(problem);
  } catch (const std::exception& problem) {  // the wall: nothing leaves the door but an answer
    return refusal({Trouble::internal, fmt::format("internal error: {}", problem.what())});
  }
}

}  // namespace lobewise::server
