#include "engine/api/survey_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "engine/api/calls.h"
#include "engine/api/currency.h"
#include "engine/api/main_job.h"
#include "engine/api/worth_asking.h"
#include "engine/evidence/case_of.h"
#include "engine/judge/best_drive.h"
#include "engine/judge/line.h"
#include "engine/result/job.h"

namespace lobewise::api {
namespace {

using evidence::Finding;

result::LineFigures figures_of(const enquiry::Requirement& requirement) {
  result::LineFigures out;
  out.torque = requirement.torque;
  out.torque_low = requirement.demand.torque.low;
  out.torque_high = requirement.demand.torque.high;
  out.speed = requirement.speed;
  for (const enquiry::Block& block : requirement.duty) out.mean_power += block.time_share * block.torque * block.speed;
  out.running_per_year = requirement.running_per_year;
  out.service_factor = judge::service_factor(requirement);
  return out;
}

/// What the present unit and the candidate take a year, as `compare` counts it.
/// @param proved  on the mesh of the line
void add_energy(const drive::Drive& proved, TableShelf& shelf, result::SurveyLine& out) {
  if (!evidence::missing_of_incumbent(proved.requirement).empty() || !proved.motor) return;
  drive::Drive drive = proved;
  for (std::size_t i = 0; i < drive.tables.size(); ++i) {
    TableShelf::Table table = shelf.elastic(*drive.build.stages[i].stage);
    if (!table) {
      out.not_compared = fmt::format("the discs cannot be solved: {}", table.errors().front().message);
      return;
    }
    drive.tables[i] = std::move(*table);
  }
  const evidence::Evaluation nominal = evidence::evaluate(drive, {});
  const Result<incumbent::GearUnit> unit = evidence::unit_beside(drive, nominal);
  if (!unit) {
    const Error& error = unit.errors().front();
    out.not_compared = fmt::format("{}: {}", error.path, error.message);
    return;
  }
  const evidence::YearlyEnergy energy =
      evidence::energy_of(drive, *unit, evidence::candidate_losses(drive, nominal, 0));
  out.figures.present_efficiency = unit->efficiency.nominal;
  out.figures.energy_present = energy.keep;
  out.figures.energy_candidate = energy.candidate;
}

Result<Json> prove_line(const Json& read, const enquiry::Enquiry& enquiry, const enquiry::Requirement& requirement,
                        const range::Range& range, TableShelf& shelf, LineMesh mesh) {
  const drive::TableSource rigid = [&](const range::Stage& stage) { return shelf.rigid(stage); };
  judge::ProofTables tables{rigid, rigid, nullptr};
  if (mesh == LineMesh::elastic)
    tables.proof = tables.bending = [&](const range::Stage& stage) { return shelf.elastic(stage); };
  result::SurveyLine out;
  out.figures = figures_of(requirement);
  judge::Choice choice;
  Result<drive::Drive> drive = model_error("build", "", "no build");
  if (enquiry.build) {
    const enquiry::BuildChoice& named = *enquiry.build;
    const Result<drive::Build> found =
        drive::find_build(range, {named.frame, named.lobes, named.first_frame, named.first_lobes});
    if (!found) return found.errors();
    drive = drive::assemble(requirement, *found, tables.proof);
  } else {
    drive = judge::best_drive(requirement, range, tables, choice);
    if (choice.may_bend)
      choice.none.pattern +=
          " A list is judged with rigid discs, which load single lobes more than discs that bend: a proof of this line "
          "with discs that bend may find that it serves.";
  }
  const bool offered = requirement.not_offered.empty();
  if (!offered) {
    choice = {{}, {requirement.not_offered, {}}, false};
    out.not_offered = requirement.not_offered;
  }
  out.why_none = result::if_any(choice.none);
  if (!drive && choice.none.empty()) return drive.errors();
  if (!drive) {
    result::fill(requirement, {}, out);
    return write(out);
  }
  const drive::Build& build = drive->build;
  const evidence::Evidence evidence = evidence::prove(*drive, {.in_time = false});
  result::fill(requirement, evidence.findings, out);
  constexpr std::size_t kLookedAt = 5;  // a list shows three of them
  out.questions = worth_asking(read, *drive, kLookedAt);
  const judge::Standing standing = judge::standing_of(evidence.findings);
  for (std::size_t i = 0; i < evidence.findings.size(); ++i) {
    const Finding& finding = evidence.findings[i];
    out.findings.push_back(
        result::short_of(finding, evidence::questions()[i].reads_mesh && !drive->tables.back()->elastic));
    if (finding.id == "efficiency" && !finding.checks.empty()) out.figures.efficiency = finding.checks.front().figure;
  }
  out.serves = standing.serves && choice.none.empty();
  out.under_condition = standing.conditions;
  out.failing = standing.failing;
  if (offered) add_energy(*drive, shelf, out);
  out.mesh = drive->tables.back()->model;
  out.build_name = build.name();
  out.build = result::of(build);
  out.figures.ratio = build.ratio();
  out.figures.mass = build.mass();
  if (offered) out.figures.price = build.price();
  if (drive->motor) out.figures.motor_power = drive->motor->rated_power;
  return write(out);
}

Result<Json> line_call(const Json& input, TableShelf& shelf) {
  Job job;
  const Errors errors = read_job(input, {"enquiry", "range", "elastic"}, job);
  if (!errors.empty()) return errors;
  const bool rigid = input.contains("elastic") && input["elastic"] == false;
  return prove_line(input["enquiry"], job.enquiry, job.requirement, job.range(), shelf,
                    rigid ? LineMesh::rigid : LineMesh::elastic);
}

}  // namespace

void add_survey_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(
      Call{"survey_line",
           "One line of a plant's list, proved and answered in short; with rigid discs where `elastic` is false.",
           [shelf](const Json& input) { return line_call(input, *shelf); },
           [] {
             return Json{{"type", "object"},
                         {"properties",
                          {{"enquiry", schema_of(model::describe<enquiry::Enquiry>())},
                           {"range", {{"type", "object"}}},
                           {"elastic", {{"type", "boolean"}}}}},
                         {"required", Json::array({"enquiry"})}};
           }});
}

struct LineProver::State {
  std::optional<range::Range> own_range;
  LineMesh mesh = LineMesh::rigid;
  std::shared_ptr<TableShelf> shelf;
};

LineProver::LineProver(std::unique_ptr<State> state) : state_(std::move(state)) {}
LineProver::~LineProver() = default;
LineProver::LineProver(LineProver&&) noexcept = default;
LineProver& LineProver::operator=(LineProver&&) noexcept = default;

Result<LineProver> LineProver::open(const Json& range, LineMesh mesh, std::shared_ptr<TableShelf> shelf) {
  auto state = std::make_unique<State>();
  state->mesh = mesh;
  state->shelf = shelf ? std::move(shelf) : std::make_shared<TableShelf>();
  if (!range.is_null()) {
    Result<range::Range> own = read_range(range);
    if (!own) return own.errors();
    state->own_range = std::move(*own);
  }
  return LineProver(std::move(state));
}

Result<Json> LineProver::prove(const Json& input) {
  const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(input, Numbers::si);
  if (!enquiry) return enquiry.errors();
  const Result<enquiry::Requirement> requirement = enquiry::require(*enquiry);
  if (!requirement) return requirement.errors();
  const range::Range& listed = state_->own_range ? *state_->own_range : range::demo_range();
  const Result<std::optional<range::Range>> converted = in_currency_of(*requirement, listed);
  if (!converted) return converted.errors();
  const range::Range& range = *converted ? **converted : listed;
  Result<Json> out = prove_line(input, *enquiry, *requirement, range, *state_->shelf, state_->mesh);
  if (!out) return out;
  const std::string place = find_not_finite(*out);
  if (!place.empty()) return model_error(place, "", "this line has no finite answer; it lies outside the model");
  return out;
}

}  // namespace lobewise::api
