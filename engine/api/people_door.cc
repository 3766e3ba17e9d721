#include "engine/api/people_door.h"

#include "engine/enquiry/people.h"

namespace lobewise::api {
namespace {

std::string text_of(const Json& json, const char* key) {
  return json.is_object() && json.contains(key) && json[key].is_string() ? json[key].get<std::string>() : std::string();
}

const Json& member(const Json& json, const char* key) {
  static const Json kNothing;
  return json.is_object() && json.contains(key) ? json[key] : kNothing;
}

/// `yes` as files write it.
std::optional<bool> flag_of(const Json& json, const char* key) {
  const Json& value = member(json, key);
  if (value.is_boolean()) return value.get<bool>();
  if (value == "yes" || value == "true") return true;
  if (value == "no" || value == "false") return false;
  return std::nullopt;
}

}  // namespace

std::optional<Error> people_refused(const Json& enquiry) {
  // What can be read of it, field by field: a draft may be far from complete.
  enquiry::Enquiry read;
  read.title = text_of(enquiry, "title");
  read.note = text_of(enquiry, "note");
  const Json& machine = member(enquiry, "machine");
  if (machine.is_object() && machine.contains("bucket_elevator")) read.machine.bucket_elevator.emplace();
  if (machine.is_object() && machine.contains("hoist"))
    read.machine.hoist.emplace().lifts_people = flag_of(member(machine, "hoist"), "lifts_people");
  const auto yes = [](const char* path) {
    return input_error(path, "yes", "lifting or carrying people is refused here, in every form");
  };
  if (read.machine.hoist && read.machine.hoist->lifts_people == true) return yes("machine.hoist.lifts_people");
  if (flag_of(member(machine, "travel_drive"), "carries_people") == true)
    return yes("machine.travel_drive.carries_people");
  const Json& shocks = member(member(enquiry, "duty"), "shocks");
  if (shocks.is_array()) {
    read.duty.emplace();
    for (const Json& shock : shocks) read.duty->shocks.push_back({text_of(shock, "what"), 1, 0});
  }
  const Json& incumbent = member(enquiry, "incumbent");
  if (incumbent.is_object()) {
    read.incumbent.emplace();
    read.incumbent->note = text_of(incumbent, "note");
    read.incumbent->trouble = text_of(incumbent, "trouble");
    const Json& troubles = member(incumbent, "troubles");
    if (troubles.is_array())
      for (const Json& trouble : troubles) {
        read.incumbent->troubles.emplace_back();
        read.incumbent->troubles.back().note = text_of(trouble, "note");
      }
  }
  return enquiry::people_refused(read);
}

}  // namespace lobewise::api
