#include "engine/api/perturbed_case.h"

#include <fmt/core.h>

#include "engine/api/case_input.h"
#include "engine/api/offsets_input.h"
#include "engine/contact/mesh_solver.h"

namespace lobewise::api {
namespace {

using Json = nlohmann::json;
using contact::MeshSolver;

Json unloaded_json(MeshSolver& solver, double phi) {
  Json discs = Json::array();
  const int count = solver.model().stage.discs;
  std::vector<std::pair<double, double>> touches;
  for (int d = 0; d < count; ++d)
    touches.emplace_back(solver.touch_rotation(phi, d, -1), solver.touch_rotation(phi, d, 1));
  solver.unload(phi);
  for (int d = 0; d < count; ++d) {
    Json gaps = Json::array();
    for (const double gap : solver.discs()[static_cast<std::size_t>(d)].ring.gap) gaps.push_back(gap / kMm);
    const auto& [minus, plus] = touches[static_cast<std::size_t>(d)];
    discs.push_back({{"gap", std::move(gaps)}, {"beta_minus", minus}, {"beta_plus", plus}});
  }
  return discs;
}

}  // namespace

Result<Json> perturbed_case(const Json& request) {
  if (!request.is_object()) return input_error("", "", "a case must be an object.");
  Errors errors;
  refuse_unknown(request, "", {"name", "note", "hidden", "units", "params", "offsets", "phi", "T"}, errors);
  CaseReader in(request, "", errors);
  const std::vector<double> angles = in.numbers("phi");
  const double torque = in.number("T");
  if (!request.contains("params")) errors.push_back(input_error("params", "", "is missing."));
  if (!request.contains("offsets")) errors.push_back(input_error("offsets", "", "is missing."));
  if (!errors.empty()) return errors;
  const auto input = read_params(request["params"], "params");
  if (!input) return input.errors();
  const auto offsets = read_offsets(request["offsets"], "offsets", input->model.stage);
  if (!offsets) return offsets.errors();

  MeshSolver solver(input->model);
  solver.set_offsets(*offsets);
  Json rows = Json::array();
  for (std::size_t i = 0; i < angles.size(); ++i) {
    Json row = {{"phi", angles[i]}, {"unloaded", unloaded_json(solver, angles[i])}};
    solver.forget();
    const contact::Outcome outcome = solver.solve(contact::Level::l2, angles[i], torque * kNmm);
    if (outcome != contact::Outcome::converged) {
      Error error = contact::outcome_error(outcome, torque * kNmm);
      error.path = fmt::format("phi[{}].{}", i, error.path);
      return error;
    }
    row["T"] = torque;
    row["beta_o"] = solver.output_rotation();
    row["discs"] = Json::array();
    for (const contact::DiscLoads& disc : solver.discs())
      row["discs"].push_back({{"F", disc.ring_force}, {"Q", disc.pin_force}, {"torque", disc.torque() / kNmm}});
    rows.push_back(std::move(row));
  }
  return Json{{"rows", std::move(rows)}};
}

}  // namespace lobewise::api
