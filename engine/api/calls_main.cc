// The main job: prove, size, check; and what describes it: schema, range.

#include <algorithm>

#include "engine/api/calls.h"
#include "engine/api/made_call.h"
#include "engine/api/main_job.h"
#include "engine/api/worth_asking.h"
#include "engine/range/describe_range.h"
#include "engine/result/job.h"
#include "engine/sizing/size.h"

namespace lobewise::api {
namespace {

Result<Json> prove(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(
      input, {"enquiry", "range", "build", "samples", "in_time", "questions", "working", "cells", "made"}, job);
  if (!errors.empty()) return errors;
  judge::Choice choice;
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
  result::WorkingWanted wanted;
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
  const Result<int> units =
      units_wanted(input, "made", job.requirement.unit_share ? units_to_show(*job.requirement.unit_share) : 0);
  if (!units) return units.errors();
  evidence::Evidence evidence = evidence::prove(*drive, options);
  if (*units > 0) {
    Result<evidence::MadeFinding> made = made_of(*drive, shelf, *units);
    if (!made) return made.errors();
    evidence.findings.push_back(std::move(made->finding));
  }
  result::Proof out;
  result::fill(job.enquiry, job.requirement, evidence.findings, out);
  out.build = result::of(drive->build);
  out.build_name = drive->build.name();
  out.drive = result::facts_of(*drive, job.range().currency);
  out.offer = result::offer_of(*drive, job.range());
  for (const evidence::Finding& finding : evidence.findings) out.findings.push_back(result::of(finding, wanted));
  constexpr std::size_t kMostInfluences = 6;
  for (const evidence::Influence& influence : evidence.influences)
    if (influence.change > 0 && out.influences.size() < kMostInfluences)
      out.influences.push_back({influence.unknown, influence.change});
  if (wanted.wants("demand")) out.demand_working = result::steps_of(job.requirement.demand.working, wanted.cells);
  out.chosen_because = result::if_any(choice.why);
  out.why_none = result::if_any(choice.none);
  out.machine = result::machine_of(job.requirement);
  out.questions.reset();  // unranked as yet
  if (questions) out.questions = worth_asking(input["enquiry"], *drive);
  return write(out);
}

Result<Json> size(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range"}, job);
  if (!errors.empty()) return errors;
  const sizing::Sources sources{[&](const range::Stage& stage) { return shelf.rigid(stage); },
                                [&](const range::Stage& stage) { return shelf.elastic(stage); }};
  return write(result::of(sizing::size(job.requirement, job.range(), sources), job.enquiry, job.requirement));
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
  result::Checked out;
  result::fill(job.enquiry, job.requirement, {}, out);
  out.machine = result::machine_of(job.requirement);
  return write(out);
}

Result<Json> schema(const Registry& registry, const Json& input) {
  const std::string of = input.is_object() ? input.value("of", std::string()) : std::string();
  if (of == "enquiry") return schema_of(model::describe<enquiry::Enquiry>());
  if (of == "range") return schema_of(model::describe<range::Range>());
  if (const model::RecordType* type = result::result_named(of)) return result::schema_of_result(*type);
  Json calls = Json::array();
  for (const Call& call : registry.calls()) {
    if (call.name == of) return call.schema ? call.schema() : Json{{"type", "object"}};
    calls.push_back({{"name", call.name}, {"help", call.help}});
  }
  if (!of.empty())
    return input_error("of", of.substr(0, 80), "enquiry, range, the name of a result, or the name of a call");
  Json results = Json::array();
  for (const model::RecordType* type : result::all_results())
    results.push_back({{"name", std::string(type->key)}, {"help", std::string(type->help)}});
  return Json{{"calls", std::move(calls)}, {"results", std::move(results)}};
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
  schema["properties"]["made"] = {
      {"type", "integer"},
      {"minimum", 0},
      {"maximum", 2048},
      {"description",
       "units as made to solve under load for the finding `made`; 0 when left out, as many as can show it where the "
       "enquiry wishes for a share of units"}};
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
  registry.add(
      Call{"schema",
           "JSON Schema of an enquiry, a range, a result or the input of a call; without `of` the lists of calls and "
           "results.",
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
