#include "apps/handover/source.h"

#include <fmt/format.h>

#include "apps/handover/demo_model.h"
#include "apps/handover/text.h"

namespace lobewise::handover {
namespace {

Json with_range(Json input, const Json& range) {
  if (!range.is_null()) input["range"] = range;
  return input;
}

}  // namespace

std::string Source::shown(const Json& both) const {
  if (both.is_string()) return both.get<std::string>();
  if (both.is_object()) return typeset(both.value(units, std::string("–")), both.contains("quantity"));
  return both.is_null() ? std::string("–") : both.dump();
}

std::string Source::title() const { return prove.value("title", std::string("Enquiry without a title")); }
std::string Source::customer() const {
  return order.enquiry.contains("customer") && order.enquiry["customer"].is_string()
             ? order.enquiry["customer"].get<std::string>()
             : std::string();
}
std::string Source::build_name() const { return prove["build_name"]; }

std::string Source::offered_as() const { return serves() ? "Offered" : "Closest, not offered"; }

std::string Source::lubricant() const {
  const Json& oil = offer()["lubricant"];
  return fmt::format("{}{} {}, {} at 40 °C", oil["food_grade"].get<bool>() ? "food-grade (incidental contact) " : "",
                     oil["base"].get<std::string>(), oil["kind"].get<std::string>(), shown(oil["viscosity_40"]));
}

std::string Source::fact(const Json& fact) const {
  const std::string id = fact.value("id", std::string());
  if (id == "lubricant") return lubricant();
  if (id != "motor" || !offer().contains("motor")) return shown(fact["value"]);
  const Json& motor = offer()["motor"];
  const std::string frame = motor["frame"];
  return fmt::format("{}, {} poles{}", shown(motor["power"]), motor["poles"].get<int>(),
                     frame.empty() ? "" : ", frame " + frame);
}

Result<Source> gather(const Ask& ask, Order order) {
  Source source;
  source.order = std::move(order);
  const Json& range = source.order.range;
  const Json job = with_range(Json{{"enquiry", source.order.enquiry}}, range);
  Json proof = job;
  if (!source.order.build.is_null()) proof["build"] = source.order.build;
  proof["cells"] = true;
  Result<Json> prove = ask("prove", proof);
  if (!prove) return prove.errors();
  source.prove = std::move(*prove);
  source.units = source.order.units.empty() ? source.prove.value("units", std::string("si")) : source.order.units;
  const auto add = [&](const char* call, Json input, Json& into) -> Errors {
    Result<Json> result = ask(call, with_range(std::move(input), range));
    if (!result) return result.errors();
    into = std::move(*result);
    return {};
  };
  const Json build{{"build", source.prove["build"]}};
  Json drawing = build;
  const Json& enquiry = source.order.enquiry;
  if (enquiry.contains("mounting") && enquiry["mounting"].is_object() && enquiry["mounting"].contains("kind"))
    drawing["mounting"] = enquiry["mounting"]["kind"];
  if (source.offer().contains("motor")) {
    const Json& motor = source.offer()["motor"];
    if (!motor["frame"].get<std::string>().empty()) drawing["motor_frame"] = motor["frame"];
    drawing["poles"] = motor["poles"];
  }
  Json orders = build;
  orders["input_speed"] = source.offer()["input_speed"]["value"];
  Errors errors = add("size", Json{{"enquiry", source.order.enquiry}}, source.size);
  if (errors.empty()) errors = add("dimensions", drawing, source.dimensions);
  if (errors.empty()) errors = add("excitations", orders, source.excitations);
  if (errors.empty()) errors = add("mechanism_outline", build, source.outline);
  if (!errors.empty()) return errors;
  if (source.order.enquiry.contains("incumbent") && source.order.enquiry["incumbent"].is_object()) {
    Json beside = build;
    beside["enquiry"] = source.order.enquiry;
    errors = add("compare", beside, source.compare);
    if (!errors.empty()) return errors;
  }
  // Each stage again with the printing clearance brought to full size.
  for (std::size_t i = 0; i < source.outline["stages"].size(); ++i) {
    Json& stage = source.outline["stages"][i];
    Json wanted = build;
    wanted["clearance"] = source.order.clearance / demo_scale(stage["geometry"], source.order.model_size * 1000);
    Result<Json> outline = ask("mechanism_outline", with_range(std::move(wanted), range));
    if (outline)
      stage["outline"] = (*outline)["stages"][i]["outline"];
    else
      stage["refused"] = outline.errors().front().message;
  }
  return source;
}

}  // namespace lobewise::handover
