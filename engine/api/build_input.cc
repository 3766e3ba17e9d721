#include "engine/api/build_input.h"

#include "engine/api/main_job.h"
#include "engine/range/bearing.h"
#include "engine/range/demo_range.h"
#include "engine/range/describe_range.h"

namespace lobewise::api {

Result<drive::Build> named_build(const Json& input, std::optional<range::Range>& own) {
  if (!input.is_object()) return input_error("input", "", "{\"build\": {…}} is needed");
  if (input.contains("range") && !input["range"].is_null()) {
    Result<range::Range> range = read_range(input["range"]);
    if (!range) return range.errors();
    own = std::move(*range);
  }
  const Json given = input.contains("build") && !input["build"].is_null() ? input["build"] : Json::object();
  const Result<enquiry::BuildChoice> choice = read<enquiry::BuildChoice>(given, Numbers::si);
  if (!choice) return choice.errors();
  return drive::find_build(own ? *own : range::demo_range(),
                           {choice->frame, choice->lobes, choice->first_frame, choice->first_lobes});
}

Json geometry_json(const range::Stage& stage) {
  Json json = write(stage.geometry);
  json["hole_radius"] = stage.geometry.hole_radius();
  json["rollers"] = stage.geometry.rollers();
  json["bore_radius"] = range::outer_raceway_radius(stage.eccentric_bearing);
  json["bearing_rollers"] = stage.eccentric_bearing.elements;
  json["bearing_roller_radius"] = stage.eccentric_bearing.element_diameter / 2;
  json["output_pin_radius"] = stage.output_pin_radius;
  json["ring_pin_radius"] = stage.ring_pin_radius;
  json["input_shaft_radius"] = stage.input_shaft_diameter / 2;
  return json;
}

}  // namespace lobewise::api
