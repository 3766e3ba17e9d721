#include "apps/store/draft_check.h"

#include <fmt/format.h>

#include <algorithm>

#include "apps/store/words.h"
#include "engine/api/json_io.h"
#include "engine/api/people_door.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

/// Every text of the enquiry, in the form that is searched.
void collect(const Json& json, std::string& out) {
  if (json.is_string()) {
    out += fold(json.get_ref<const std::string&>());
    out.push_back('\n');
  } else if (json.is_structured()) {
    for (const Json& child : json) collect(child, out);
  }
}

Summary summarise(const Json& input) {
  const Json& enquiry = input["enquiry"];
  const auto field = [&](const char* name) {
    const auto found = enquiry.find(name);
    return found != enquiry.end() && found->is_string() ? line_of(found->get_ref<const std::string&>(), kMostName)
                                                        : std::string();
  };
  Summary summary{field("title"), field("customer"), ""};
  collect(input, summary.search);
  return summary;
}

}  // namespace

void check_draft(const Draft& draft) {
  const auto require = [](const std::string& json, std::size_t most, const char* what) -> Json {
    if (json.size() > most) throw Problem{Trouble::input, fmt::format("{} has at most {} KiB.", what, most / 1024)};
    Result<Json> parsed = api::parse_json(json);
    if (!parsed) throw Problem{Trouble::input, fmt::format("{}: {}.", what, parsed.errors().front().message)};
    return std::move(*parsed);
  };
  const Json input = require(draft.input, kMostInput, "An enquiry");
  (void)require(draft.range, kMostRange, "A range");
  (void)require(draft.result, kMostResult, "A result");
  require_text(draft.note, kMostNote, "A note");
  require_text(draft.engine, kMostName, "The engine's version");
  if (!input.is_object() || !input.contains("enquiry") || !input["enquiry"].is_object())
    throw Problem{Trouble::input, "An input {\"enquiry\": {…}} is needed."};
  if (const std::optional<Error> people = api::people_refused(input["enquiry"]))
    throw Problem{Trouble::input, fmt::format("{}: {}.", people->path, people->message)};
}

Summary summary_of(const std::string& input) { return summarise(Json::parse(input)); }

void require_document(const std::string& name, const std::string& type) {
  const auto any_of = [](const std::string& text, std::string_view characters) {
    return text.find_first_of(characters) != std::string::npos;
  };
  require_text(name, kMostName, "A document's name");
  const bool plain =
      std::none_of(name.begin(), name.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  if (name.empty() || name.front() == '.' || name.back() == ' ' || !plain || any_of(name, "/\\:*?\"<>|"))
    throw Problem{Trouble::input,
                  "A document's name is a file's name without a path, not beginning with a dot and without "
                  "any of / \\ : * ? \" < > |"};
  if (type.empty() || type.size() > 100 ||
      type.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789/.+-") != std::string::npos)
    throw Problem{Trouble::input, "A document's type is a media type in small letters such as application/pdf."};
}

}  // namespace lobewise::store
