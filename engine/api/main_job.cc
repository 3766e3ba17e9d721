#include "engine/api/main_job.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

#include "engine/api/currency.h"
#include "engine/range/describe_range.h"

namespace lobewise::api {
namespace {

Errors unknown_members(const Json& input, std::initializer_list<std::string_view> known) {
  Errors errors;
  for (const auto& [key, value] : input.items())
    if (std::find(known.begin(), known.end(), key) == known.end())
      errors.push_back(
          input_error(key, key.substr(0, 80), fmt::format("unknown field; known: {}", fmt::join(known, ", "))));
  return errors;
}

}  // namespace

Result<range::Range> read_range(const Json& json) {
  Result<range::Range> range = read<range::Range>(json, Numbers::si);
  if (!range) return range;
  const Errors problems = range::check(*range);
  if (!problems.empty()) return problems;
  return range;
}

Errors read_job(const Json& input, std::initializer_list<std::string_view> known, Job& job) {
  if (!input.is_object()) return {input_error("input", "", "{\"enquiry\": {…}} is needed")};
  Errors errors = unknown_members(input, known);
  if (!input.contains("enquiry")) errors.push_back(input_error("enquiry", "", "missing"));
  if (input.contains("range") && !input["range"].is_null()) {
    Result<range::Range> range = read_range(input["range"]);
    if (range)
      job.own_range = std::move(*range);
    else
      errors.insert(errors.end(), range.errors().begin(), range.errors().end());
  }
  if (!errors.empty()) return errors;
  const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(input["enquiry"], Numbers::si);
  if (!enquiry) return enquiry.errors();
  job.enquiry = *enquiry;
  Result<enquiry::Requirement> requirement = enquiry::require(job.enquiry);
  if (!requirement) return requirement.errors();
  job.requirement = std::move(*requirement);
  Result<std::optional<range::Range>> converted = in_currency_of(job.requirement, job.range());
  if (!converted) return converted.errors();
  if (*converted) job.own_range = std::move(**converted);
  return {};
}

Result<drive::Drive> chosen_drive(const Json& input, const Job& job, TableShelf& shelf, judge::Choice& why) {
  std::optional<enquiry::BuildChoice> choice = job.enquiry.build;
  if (input.contains("build") && !input["build"].is_null()) {
    const Result<enquiry::BuildChoice> given = read<enquiry::BuildChoice>(input["build"], Numbers::si);
    if (!given) return given.errors();
    choice = *given;
  }
  const drive::TableSource bending = [&](const range::Stage& stage) { return shelf.elastic(stage); };
  const judge::ProofTables tables{[&](const range::Stage& stage) { return shelf.rigid(stage); }, bending, bending};
  // Where it may stand decides before what it carries: the drive that would serve is shown, with what is missing.
  const Text not_offered{job.requirement.not_offered, {}};
  if (!choice) {
    Result<drive::Drive> best = judge::best_drive(job.requirement, job.range(), tables, why);
    if (!not_offered.empty()) why = {{}, not_offered};
    return best;
  }
  why.none = not_offered;
  const Result<drive::Build> named =
      drive::find_build(job.range(), {choice->frame, choice->lobes, choice->first_frame, choice->first_lobes});
  if (!named) return named.errors();
  return drive::assemble(job.requirement, *named, tables.proof);
}

}  // namespace lobewise::api
