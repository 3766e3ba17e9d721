#include "engine/api/mesh_case.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "engine/api/case_input.h"
#include "engine/contact/mesh_losses.h"
#include "engine/contact/mesh_stiffness.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::api {
namespace {

using contact::DiscLoads;
using contact::Level;
using contact::MeshSolver;
using contact::Outcome;
using mechanism::Vec2;
using Json = nlohmann::json;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

Json vector_json(Vec2 v, double unit = 1) { return Json::array({v.x / unit, v.y / unit}); }

Json list_json(const std::vector<double>& values, double unit = 1) {
  Json list = Json::array();
  for (const double value : values) list.push_back(value / unit);
  return list;
}

int loaded(const std::vector<double>& forces) {
  return static_cast<int>(std::count_if(forces.begin(), forces.end(), [](double force) { return force > 0; }));
}

Json derived_json(const mechanism::StageGeometry& stage) {
  const auto figures = mechanism::profile_figures(stage);
  return {{"Z", stage.rollers()},
          {"K", stage.shortening()},
          {"rh", stage.hole_radius() / kMm},
          {"ratio_ring_fixed", static_cast<int>(stage.ratio_ring_fixed())},
          {"ratio_carrier_fixed", static_cast<int>(stage.ratio_carrier_fixed())},
          {"r_limit", figures.roller_radius_limit / kMm},
          {"area", figures.area / (kMm * kMm)},
          {"polar_inertia", figures.polar_inertia / (kMm * kMm * kMm * kMm)},
          {"trace_length", figures.trace_length / kMm},
          {"kappa_tip", figures.tip_curvature / kPerMm},
          {"kappa_root", figures.root_curvature / kPerMm},
          {"kappa_max", figures.max_curvature / kPerMm}};
}

Json profile_json(const mechanism::Profile& profile, double t) {
  return {{"t", t},
          {"xy", vector_json(profile.point(t), kMm)},
          {"n_in", vector_json(profile.inner_normal(t))},
          {"kappa", profile.curvature(t) / kPerMm}};
}

Json kinematics_json(const mechanism::StageGeometry& stage, double phi) {
  Json out = {{"phi", phi}};
  for (int k = 0; k < stage.rollers(); ++k) {
    const auto mesh = mechanism::roller_mesh(stage, phi, k);
    out["arm"].push_back(mesh.lever_arm / kMm);
    out["S"].push_back(mesh.distance / kMm);
    out["v_slide"].push_back(mesh.sliding_speed / kMm);
    out["u2"].push_back(mesh.disc_rolling_speed / kMm);
    out["n"].push_back(vector_json(mesh.force_direction));
  }
  return out;
}

/// One stage: solves what a list entry asks for and writes it in the layout of the files.
class StageCase {
 public:
  explicit StageCase(const StageInput& input) : input_(input), solver_(input.model), stage_(input.model.stage) {}

  Result<Json> unloaded(double phi) {
    const double minus = solver_.touch_rotation(phi, 0, -1);
    const double plus = solver_.touch_rotation(phi, 0, 1);
    solver_.unload(phi);
    return Json{
        {"phi", phi}, {"gap", list_json(solver_.discs()[0].ring.gap, kMm)}, {"beta_minus", minus}, {"beta_plus", plus}};
  }

  /// T per disc in the file.
  Result<Json> l1(double phi, double T) {
    if (const auto error = solve(Level::l1, phi, T * stage_.discs)) return *error;
    const DiscLoads& disc = solver_.discs()[0];
    Json out = {{"phi", phi},
                {"T", T},
                {"beta", disc.shift.rotation},
                {"F", list_json(disc.ring_force)},
                {"loaded", loaded(disc.ring_force)},
                {"resultant", vector_json(disc.ring_resultant)},
                {"gap", list_json(disc.ring.gap, kMm)}};
    for (int k = 0; k < stage_.rollers(); ++k) {
      const double force = disc.ring_force[at(k)];
      const double radius = disc.ring.radius[at(k)];
      out["p0"].push_back(solver_.ring_pressure(disc, k) / kMpa);
      out["a"].push_back(contact::hertz_half_width(force / stage_.width, radius, solver_.contact_modulus()) / kMm);
      out["rho"].push_back(force > 0 ? radius / kMm : 0);
    }
    return out;
  }

  /// T per disc in the file.
  Result<Json> l1f(double phi, double T) {
    if (const auto error = solve(Level::l1f, phi, T * stage_.discs)) return *error;
    const DiscLoads& disc = solver_.discs()[0];
    return Json{{"phi", phi},
                {"T", T},
                {"x", {disc.shift.u.x / kMm, disc.shift.u.y / kMm, disc.shift.rotation}},
                {"F", list_json(disc.ring_force)},
                {"loaded", loaded(disc.ring_force)},
                {"bearing", vector_json(disc.bearing_force())}};
  }

  /// l2 and l3; T of all discs.
  Result<Json> through_pins(Level level, double phi, double T) {
    if (const auto error = solve(level, phi, T)) return *error;
    const auto losses = contact::mesh_losses(solver_, input_.friction, T * kNmm);
    Json out = {{"phi", phi},
                {"T", T},
                {"beta_o", solver_.output_rotation()},
                {"x", {solver_.output_rotation()}},
                {"eta", losses.efficiency},
                {"losses",
                 {{"ring", losses.ring / kNmm},
                  {"pin", losses.pin / kNmm},
                  {"bearing", losses.bearing / kNmm},
                  {"drag", losses.drag / kNmm}}},
                {"residual", solver_.residual()},
                {"discs", Json::array()}};
    for (const DiscLoads& disc : solver_.discs()) {
      for (const double x : {disc.shift.u.x / kMm, disc.shift.u.y / kMm, disc.shift.rotation}) out["x"].push_back(x);
      double ring_pressure = 0;
      for (int k = 0; k < stage_.rollers(); ++k)
        ring_pressure = std::max(ring_pressure, solver_.ring_pressure(disc, k));
      const double pin_force = *std::max_element(disc.pin_force.begin(), disc.pin_force.end());
      out["discs"].push_back({{"F", list_json(disc.ring_force)},
                              {"loaded", loaded(disc.ring_force)},
                              {"p0_max", ring_pressure / kMpa},
                              {"Q", list_json(disc.pin_force)},
                              {"pins_loaded", loaded(disc.pin_force)},
                              {"pin_p0_max", solver_.pin_pressure(pin_force) / kMpa},
                              {"bearing", vector_json(disc.bearing_force())},
                              {"torque", disc.torque() / kNmm}});
    }
    return out;
  }

  Result<double> rotation(double phi, double torque_per_disc) {
    return contact::rotation_under(solver_, Level::l1, phi, torque_per_disc * stage_.discs * kNmm);
  }

  /// Figures of a stage in a train, SI: efficiency is the mean over `phis` of l2, stiffness and lost motion are of l1.
  Result<contact::StageFigures> figures(double torque, const std::vector<double>& phis) {
    constexpr double kPhi = 0.05;  // crank angle of stiffness and lost motion in the files
    contact::StageFigures figures;
    figures.ratio = stage_.ratio_ring_fixed();
    for (const double phi : phis) {
      solver_.forget();
      const Outcome outcome = solver_.solve(Level::l2, phi, torque);
      if (outcome != Outcome::converged) return outcome_error(outcome, torque);
      figures.efficiency +=
          contact::mesh_losses(solver_, input_.friction, torque).efficiency / static_cast<double>(phis.size());
    }
    const auto stiffness = contact::torsional_stiffness(solver_, Level::l1, kPhi, torque);
    if (!stiffness) return stiffness.errors();
    const auto lost = contact::lost_motion(solver_, Level::l1, kPhi, torque);
    if (!lost) return lost.errors();
    figures.stiffness = *stiffness;
    figures.lost_motion = *lost;
    return figures;
  }

 private:
  std::optional<Error> solve(Level level, double phi, double T) {
    solver_.forget();
    const Outcome outcome = solver_.solve(level, phi, T * kNmm);
    if (outcome == Outcome::converged) return std::nullopt;
    return outcome_error(outcome, T * kNmm);
  }

  const StageInput& input_;
  MeshSolver solver_;
  const mechanism::StageGeometry& stage_;
};

/// Puts the place of a list entry in front of the errors.
Errors located(Errors errors, const std::string& place) {
  for (Error& error : errors) error.path = error.path.empty() ? place : place + "." + error.path;
  return errors;
}

/// Answers every entry of list `name` with `answer(reader)`.
/// @param known  keys of an entry: what it asks, and what an old answer holds
template <class Answer>
void answer_list(const Json& request, const char* name, std::initializer_list<const char*> known, Json& out,
                 Errors& errors, Answer&& answer) {
  const auto list = request.find(name);
  if (list == request.end()) return;
  if (!list->is_array()) {
    errors.push_back(input_error(name, "", "must be a list."));
    return;
  }
  out[name] = Json::array();
  for (std::size_t i = 0; i < list->size(); ++i) {
    const std::string place = fmt::format("{}[{}]", name, i);
    const std::size_t before = errors.size();
    refuse_unknown((*list)[i], place + ".", known, errors);
    CaseReader in((*list)[i], place + ".", errors);
    const auto inputs = answer.read(in);
    if (errors.size() != before) continue;
    const Result<Json> result = answer.solve(inputs);
    if (!result) {
      const Errors found = located(result.errors(), place);
      errors.insert(errors.end(), found.begin(), found.end());
      continue;
    }
    out[name].push_back(*result);
  }
}

template <class Read, class Solve>
struct Answer {
  Read read;
  Solve solve;
};
template <class Read, class Solve>
Answer<Read, Solve> answer(Read read, Solve solve) {
  return {read, solve};
}

struct Load {
  double phi = 0;
  double T = 0;
};
Load read_load(CaseReader& in) {
  const double phi = in.number("phi");
  return {phi, in.number("T")};
}
double read_phi(CaseReader& in) { return in.number("phi"); }

void answer_curve(const Json& curve, StageCase& stage_case, Json& out, Errors& errors) {
  const std::size_t before = errors.size();
  refuse_unknown(curve, "curve.", {"phi", "T", "beta"}, errors);
  CaseReader in(curve, "curve.", errors);
  const double phi = in.number("phi");
  const auto torques = in.numbers("T");
  if (errors.size() != before) return;
  const auto rotation = [&](double T) {
    const auto found = stage_case.rotation(phi, T);
    if (found) return *found;
    const Errors located_errors = located(found.errors(), "curve");
    errors.insert(errors.end(), located_errors.begin(), located_errors.end());
    return 0.0;
  };
  Json betas = Json::array();
  for (const double T : torques) betas.push_back(rotation(T));
  out["curve"] = {{"phi", phi}, {"T", torques}, {"beta", betas}};
  // The reference torque is the largest one that the curve holds with both signs.
  double reference = 0;
  for (const double T : torques)
    if (T > reference && std::find(torques.begin(), torques.end(), -T) != torques.end()) reference = T;
  if (reference == 0) return;
  constexpr double kLostMotionShare = 0.03;
  out["lost_motion_3pct"] = rotation(kLostMotionShare * reference) - rotation(-kLostMotionShare * reference);
  out["stiffness_50_100"] = 0.5 * reference / (rotation(reference) - rotation(0.5 * reference));
}

Result<Json> one_stage(const Json& request) {
  static constexpr std::initializer_list<const char*> kThroughPins = {"phi", "T",      "beta_o",   "x",
                                                                      "eta", "losses", "residual", "discs"};
  Errors errors;
  refuse_unknown(request, "",
                 {"name", "note", "hidden", "units", "params", "derived", "profile", "kinematics", "unloaded", "L1",
                  "L1F", "L2", "L3", "curve", "lost_motion_3pct", "stiffness_50_100"},
                 errors);
  if (!request.contains("params")) errors.push_back(input_error("params", "", "is missing."));
  if (!errors.empty()) return errors;
  const auto input = read_params(request["params"], "params");
  if (!input) return input.errors();
  const auto& stage = input->model.stage;
  Json out = {{"name", request.value("name", "")}, {"units", "mm N MPa rad N*mm"}, {"params", request["params"]}};
  out["derived"] = derived_json(stage);
  const mechanism::Profile profile(stage);
  StageCase solve(*input);
  answer_list(request, "profile", {"t", "xy", "n_in", "kappa"}, out, errors,
              answer([](CaseReader& in) { return in.number("t"); },
                     [&](double t) { return Result<Json>(profile_json(profile, t)); }));
  answer_list(request, "kinematics", {"phi", "arm", "S", "v_slide", "u2", "n"}, out, errors,
              answer(read_phi, [&](double phi) { return Result<Json>(kinematics_json(stage, phi)); }));
  answer_list(request, "unloaded", {"phi", "gap", "beta_minus", "beta_plus"}, out, errors,
              answer(read_phi, [&](double phi) { return solve.unloaded(phi); }));
  answer_list(request, "L1", {"phi", "T", "beta", "F", "loaded", "p0", "a", "rho", "resultant", "gap"}, out, errors,
              answer(read_load, [&](Load load) { return solve.l1(load.phi, load.T); }));
  answer_list(request, "L1F", {"phi", "T", "x", "F", "loaded", "bearing"}, out, errors,
              answer(read_load, [&](Load load) { return solve.l1f(load.phi, load.T); }));
  answer_list(request, "L2", kThroughPins, out, errors,
              answer(read_load, [&](Load load) { return solve.through_pins(Level::l2, load.phi, load.T); }));
  answer_list(request, "L3", kThroughPins, out, errors,
              answer(read_load, [&](Load load) { return solve.through_pins(Level::l3, load.phi, load.T); }));
  if (request.contains("curve")) answer_curve(request["curve"], solve, out, errors);
  if (!errors.empty()) return errors;
  return out;
}

Result<StageInput> find_stage(const Json& request, const char* key, const std::string& name,
                              const StageLookup& lookup) {
  Json found;
  if (request.contains("stages") && request["stages"].is_object() && request["stages"].contains(name)) {
    found = request["stages"][name];
  } else if (lookup) {
    auto looked_up = lookup(name);
    if (!looked_up) return looked_up.errors();
    found = std::move(*looked_up);
  } else {
    return input_error(key, name, "names a stage that was not supplied; give it under `stages`.");
  }
  return read_params(found.is_object() && found.contains("params") ? found["params"] : found,
                     std::string(key) + ".params");
}

Result<Json> two_stages(const Json& request, const StageLookup& lookup) {
  Errors errors;
  refuse_unknown(request, "",
                 {"name", "note", "hidden", "units", "stage1", "stage2", "stages", "T2", "phis", "te1", "te2", "eta1",
                  "eta2", "k1", "k2", "lm1", "lm2", "result"},
                 errors);
  CaseReader in(request, "", errors);
  const std::string name1 = in.text("stage1");
  const std::string name2 = in.text("stage2");
  const double T2 = in.number("T2");
  const auto phis = in.numbers("phis");
  const double te1 = in.number("te1", 0);
  const double te2 = in.number("te2", 0);
  if (errors.empty() && !(T2 > 0))
    errors.push_back(input_error("T2", fmt::format("{}", T2), "must be greater than zero."));
  if (errors.empty() && phis.empty()) errors.push_back(input_error("phis", "", "must hold at least one crank angle."));
  if (!errors.empty()) return errors;
  const auto input1 = find_stage(request, "stage1", name1, lookup);
  const auto input2 = find_stage(request, "stage2", name2, lookup);
  for (const auto* input : {&input1, &input2})
    if (!*input) errors.insert(errors.end(), input->errors().begin(), input->errors().end());
  if (!errors.empty()) return errors;

  auto second = StageCase(*input2).figures(T2 * kNmm, phis);
  if (!second) return located(second.errors(), "stage2");
  second->rotation_error = te2;
  const double T1 = contact::input_torque(*second, T2);
  auto first = StageCase(*input1).figures(T1 * kNmm, phis);
  if (!first) return located(first.errors(), "stage1");
  first->rotation_error = te1;
  const auto both = contact::in_series(*first, *second);
  Json out = {{"stage1", name1},
              {"stage2", name2},
              {"T2", T2},
              {"phis", phis},
              {"eta1", first->efficiency},
              {"eta2", second->efficiency},
              {"k1", first->stiffness / kNmm},
              {"k2", second->stiffness / kNmm},
              {"lm1", first->lost_motion},
              {"lm2", second->lost_motion},
              {"result",
               {{"i", static_cast<int>(both.ratio)},
                {"eta", both.efficiency},
                {"lm", both.lost_motion},
                {"te", both.rotation_error},
                {"k", both.stiffness / kNmm},
                {"T1", T1},
                {"T_in", contact::input_torque(*first, T1)}}}};
  if (request.contains("name")) out["name"] = request["name"];
  if (request.contains("note")) out["note"] = request["note"];
  return out;
}

}  // namespace

Result<Json> mesh_case(const Json& request, const StageLookup& lookup) {
  if (!request.is_object()) return input_error("", "", "a case must be an object.");
  return request.contains("stage1") ? two_stages(request, lookup) : one_stage(request);
}

}  // namespace lobewise::api
