// The main job: prove, size, check; and what describes it: schema, range.

#include <fmt/format.h>

#include <algorithm>

#include "engine/api/calls.h"
#include "engine/api/evidence_json.h"
#include "engine/api/machine_json.h"
#include "engine/api/main_job.h"
#include "engine/api/offer_json.h"
#include "engine/api/worth_asking.h"
#include "engine/drive/lifting.h"
#include "engine/range/describe_range.h"
#include "engine/sizing/size.h"

namespace lobewise::api {
namespace {

Json fact(const char* id, const char* label, double value, Quantity quantity) {
  return Json{{"id", id}, {"label", label}, {"value", quantity_json(value, quantity)}};
}
Json fact(const char* id, const char* label, std::string text) {
  return Json{{"id", id}, {"label", label}, {"value", std::move(text)}};
}

/// @param offered  false: nothing is, and no price is named
Json drive_facts(const drive::Drive& drive, const range::Range& range, bool offered) {
  Json facts = Json::array();
  facts.push_back(fact("ratio", "Ratio", drive.build.ratio(), Quantity::number));
  facts.push_back(fact("input_speed", "Input speed", drive.input_speed, Quantity::angular_speed));
  facts.push_back(fact("output_speed", "Output speed", drive.output_speed, Quantity::angular_speed));
  facts.push_back(fact("output_torque", "Torque at full load", drive.requirement.torque, Quantity::torque));
  if (drive.motor)
    facts.push_back(
        fact("motor", "Motor",
             fmt::format("{}, {} poles{}", format_quantity(drive.motor->rated_power, Quantity::power, UnitSystem::si),
                         drive.motor->poles, drive.motor->frame.empty() ? "" : ", frame " + drive.motor->frame)));
  const range::Lubricant& fill = drive.oil.fill;
  facts.push_back(fact("lubricant", "Lubricant",
                       fmt::format("{} {}, {} at 40 °C", fill.base == range::BaseOil::mineral ? "mineral" : "synthetic",
                                   fill.kind == range::LubricantKind::grease ? "grease" : "oil",
                                   format_quantity(fill.viscosity_40, Quantity::kinematic_viscosity, UnitSystem::si))));
  facts.push_back(fact("output_shaft", "Output shaft", drive.build.frame().output.diameter, Quantity::length));
  facts.push_back(fact("length", "Length", drive.build.length(), Quantity::length));
  facts.push_back(fact("mass", "Mass without motor", drive.build.mass(), Quantity::mass));
  if (drive.requirement.service_factor)
    facts.push_back(
        fact("service_factor", "Service factor asked for", *drive.requirement.service_factor, Quantity::number));
  if (drive.motor) {
    const drive::Lifted lifted = drive::lifted(drive);
    facts.push_back(fact("mass_with_motor", "Mass with motor (estimated)", lifted.mass.nominal, Quantity::mass));
    if (const auto& voltage = drive.requirement.voltage)
      facts.push_back(fact("motor_current", "Rated current of the motor (estimated)",
                           drive::rated_current(*drive.motor, *voltage), Quantity::current));
  }
  if (offered)
    facts.push_back(fact("price", "Price without motor",
                         fmt::format("{} {}", format_number(drive.build.price(), 4), range.currency)));
  return facts;
}

Result<Json> prove(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors =
      read_job(input, {"enquiry", "range", "build", "samples", "in_time", "questions", "working", "cells"}, job);
  if (!errors.empty()) return errors;
  Choice choice;
  const Result<drive::Drive> drive = chosen_drive(input, job, shelf, choice);
  if (!drive) return drive.errors();
  evidence::ProveOptions options;
  if (input.contains("samples")) {
    if (!input["samples"].is_number_integer() || input["samples"].get<long long>() < 0 ||
        input["samples"].get<long long>() > 5000)
      return input_error("samples", input["samples"].dump().substr(0, 40), "a whole number from 0 to 5000");
    options.samples = input["samples"].get<int>();
  }
  bool questions = true;
  WorkingWanted wanted;
  if (input.contains("working")) {
    const Json& list = input["working"];
    const auto is_text = [](const Json& id) { return id.is_string(); };
    if (!list.is_array() || !std::all_of(list.begin(), list.end(), is_text))
      return input_error("working", list.dump().substr(0, 40), "a list of findings whose working is asked for");
    wanted.of = list.get<std::vector<std::string>>();
  }
  for (const auto& [name, option] :
       {std::pair{"in_time", &options.in_time}, {"questions", &questions}, {"cells", &wanted.cells}}) {
    if (!input.contains(name)) continue;
    if (!input[name].is_boolean()) return input_error(name, input[name].dump().substr(0, 40), "true or false");
    *option = input[name].get<bool>();
  }
  const evidence::Evidence evidence = evidence::prove(*drive, options);
  Json out{{"title", title_of(job.enquiry)},
           {"units", units_of(job.enquiry)},
           {"build", build_json(drive->build)},
           {"build_name", drive->build.name()}};
  out["drive"] = drive_facts(*drive, job.range(), job.requirement.not_offered.empty());
  out["offer"] = offer_json(*drive, job.range());
  out["requirement"] = requirement_json(job.requirement);
  Json findings = Json::array();
  for (const evidence::Finding& finding : evidence.findings) findings.push_back(finding_json(finding, wanted));
  out["findings"] = std::move(findings);
  Json influences = Json::array();
  for (const evidence::Influence& influence : evidence.influences)
    if (influence.change > 0 && influences.size() < 6)
      influences.push_back({{"unknown", influence.unknown}, {"change", influence.change}});
  out["influences"] = std::move(influences);
  if (wanted.wants("demand")) out["demand_working"] = working_json(job.requirement.demand.working, wanted.cells);
  if (!choice.why.empty()) out["chosen_because"] = sentence_json(choice.why);
  if (!choice.none.empty()) out["why_none"] = sentence_json(choice.none);
  out["machine"] = machine_json(job.requirement);
  add_gaps(job.requirement, evidence.findings, out);
  if (questions)
    out["questions"] = worth_asking(input["enquiry"], *drive);
  else
    out.erase("questions");  // unranked as yet
  return out;
}

Result<Json> size(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range"}, job);
  if (!errors.empty()) return errors;
  const sizing::Sources sources{[&](const range::Stage& stage, double torque) { return shelf.rigid(stage, torque); },
                                nullptr,
                                [&](const range::Stage& stage, double torque) { return shelf.elastic(stage, torque); }};
  const sizing::Sizing sizing = sizing::size(job.requirement, job.range(), sources);
  constexpr const char* kVerdicts[] = {"holds", "holds_if", "does_not_hold", "cannot_be_judged"};
  const auto word = [&](evidence::Verdict verdict) { return kVerdicts[static_cast<std::size_t>(verdict)]; };
  Json candidates = Json::array();
  for (const sizing::Candidate& candidate : sizing.candidates) {
    Json json{{"build", build_json(candidate.build)},
              {"build_name", candidate.build.name()},
              {"ratio", candidate.build.ratio()},
              {"ratio_error", candidate.ratio_error},
              {"verdict", word(candidate.verdict)},
              {"poles", candidate.poles},
              {"mesh", candidate.bending ? "discs that bend" : "rigid discs"},
              {"mass", quantity_json(candidate.build.mass(), Quantity::mass)},
              {"price", price_json(candidate.build.price(), job.requirement)},
              {"price_with_motor", price_json(candidate.price(), job.requirement)}};
    if (!candidate.fell_out.empty()) json["fell_out"] = sentence_json(candidate.fell_out);
    if (!candidate.why.empty()) json["why"] = sentence_json(candidate.why);
    Json margins = Json::array();
    for (const sizing::Margin& margin : candidate.margins) {
      Json m{{"id", margin.id}, {"verdict", word(margin.verdict)}, {"estimate", margin.estimate}};
      if (margin.deciding) {
        m["margin"] = margin.deciding->margin;
        m["basis"] = evidence::words(margin.deciding->basis);
      }
      margins.push_back(std::move(m));
    }
    json["margins"] = std::move(margins);
    candidates.push_back(std::move(json));
  }
  Json out{{"title", title_of(job.enquiry)},
           {"units", units_of(job.enquiry)},
           {"requirement", requirement_json(job.requirement)},
           {"candidates", std::move(candidates)},
           {"chosen", sizing.chosen}};
  if (!sizing.why_none.empty()) out["why_none"] = sentence_json(sizing.why_none);
  for (const sizing::Candidate& candidate : sizing.nearest)
    out["nearest"].push_back({{"build", build_json(candidate.build)},
                              {"build_name", candidate.build.name()},
                              {"ratio_error", candidate.ratio_error}});
  add_gaps(job.requirement, {}, out);
  return out;
}

Result<Json> check(const Json& input) {
  if (input.is_object() && input.contains("range") && !input.contains("enquiry")) {
    const Result<range::Range> range = read_range(input["range"]);
    if (!range) return range.errors();
    Json warnings = Json::array();
    for (const Error& warning : range::warnings(*range))
      warnings.push_back({{"path", warning.path}, {"offending", warning.offending}, {"message", warning.message}});
    return Json{{"ok", true}, {"frames", range->frames.size()}, {"warnings", std::move(warnings)}};
  }
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range"}, job);
  if (!errors.empty()) return errors;
  Json out{{"ok", true},
           {"units", units_of(job.enquiry)},
           {"requirement", requirement_json(job.requirement)},
           {"machine", machine_json(job.requirement)}};
  add_gaps(job.requirement, {}, out);
  return out;
}

Result<Json> schema(const Registry& registry, const Json& input) {
  const std::string of = input.is_object() ? input.value("of", std::string()) : std::string();
  if (of == "enquiry") return schema_of(model::describe<enquiry::Enquiry>());
  if (of == "range") return schema_of(model::describe<range::Range>());
  Json calls = Json::array();
  for (const Call& call : registry.calls()) {
    if (call.name == of) return call.schema ? call.schema() : Json{{"type", "object"}};
    calls.push_back({{"name", call.name}, {"help", call.help}});
  }
  if (!of.empty()) return input_error("of", of.substr(0, 80), "enquiry, range, or the name of a call");
  return Json{{"calls", std::move(calls)}};
}

Json job_schema() {
  return Json{{"type", "object"},
              {"properties",
               {{"enquiry", schema_of(model::describe<enquiry::Enquiry>())},
                {"range", schema_of(model::describe<range::Range>())},
                {"build", {{"type", "object"}}}}},
              {"required", Json::array({"enquiry"})}};
}

Json prove_schema() {
  Json schema = job_schema();
  schema["properties"]["samples"] = {{"type", "integer"},
                                     {"minimum", 0},
                                     {"maximum", 5000},
                                     {"description", "of what is not known exactly; 200 when left out"}};
  schema["properties"]["in_time"] = {
      {"type", "boolean"},
      {"description",
       "follow start, jam, events and temperature in time, for charts and notes; true when left out. No check and no "
       "verdict depends on it"}};
  schema["properties"]["working"] = {{"type", "array"},
                                     {"items", {{"type", "string"}}},
                                     {"description",
                                      "findings whose working is asked for, `demand` among them; of all when left "
                                      "out"}};
  schema["properties"]["cells"] = {{"type", "boolean"},
                                   {"description", "formulas for a spreadsheet in every step; false when left out"}};
  schema["properties"]["questions"] = {{"type", "boolean"},
                                       {"description", "rank what is worth asking next; true when left out"}};
  return schema;
}

}  // namespace

void add_main_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(Call{"prove", "Every question about the best build for an enquiry, or about the build named.",
                    [shelf](const Json& input) { return prove(input, *shelf); }, prove_schema});
  registry.add(Call{"size",
                    "Every build of the range against an enquiry, best first, with the reason why others fell out.",
                    [shelf](const Json& input) { return size(input, *shelf); }, job_schema});
  registry.add(
      Call{"check", "Reads an enquiry or a range and says what is wrong, assumed or worth asking.", check, job_schema});
  registry.add(Call{"schema",
                    "JSON Schema of an enquiry, a range or the input of a call; without `of` the list of calls.",
                    [&registry](const Json& input) { return schema(registry, input); }, nullptr});
  registry.add(Call{"version", "Version of the engine and of the demo range.",
                    [](const Json&) -> Result<Json> {
                      return Json{{"engine", LOBEWISE_VERSION}, {"demo_range", range::demo_range().version}};
                    },
                    nullptr});
  registry.add(Call{"range", "The invented demo range (SI).",
                    [](const Json&) -> Result<Json> { return write(range::demo_range()); }, nullptr});
}

}  // namespace lobewise::api
