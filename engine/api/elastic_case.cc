#include "engine/api/elastic_case.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/api/case_input.h"
#include "engine/api/offsets_input.h"
#include "engine/contact/elastic/stage_data.h"
#include "engine/contact/elastic_disc.h"

namespace lobewise::api {
namespace {

using Json = nlohmann::json;
using contact::BoreModel;
using contact::ElasticModel;
using mechanism::Vec2;

Json pair(Vec2 v, double unit) { return {v.x / unit, v.y / unit}; }

/// Key in the files for a member of ElasticModel.
std::string file_key(const std::string& member) {
  static constexpr std::array<std::pair<const char*, const char*>, 8> kKeys = {{{"bore_radius", "config.rb"},
                                                                                {"holes", "config.holes"},
                                                                                {"pin_core_radius", "config.rc"},
                                                                                {"rollers.count", "config.brg.nb"},
                                                                                {"rollers.radius", "config.brg.r"},
                                                                                {"rollers.clearance", "config.brg.cl"},
                                                                                {"depth", "config.h"},
                                                                                {"stage.roller_radius", "params.r"}}};
  for (const auto& [name, key] : kKeys)
    if (member == name) return key;
  return member;
}

struct ElasticInput {
  ElasticModel model;
  contact::PartOffsets offsets;
  std::vector<double> crank_angles, torques;
};

Result<ElasticInput> read_input(const Json& request) {
  Errors errors;
  const Json empty;
  const auto part = [&](const char* key) -> const Json& {
    return request.is_object() && request.contains(key) ? request[key] : empty;
  };
  const auto stage = read_params(part("params"), "params");
  if (!stage) errors = stage.errors();
  refuse_unknown(request, "",
                 {"name", "note", "hidden", "units", "params", "config", "offsets", "points", "mesh_change",
                  "C_times_E", "roller_C_times_E", "pin_C_times_E", "solutions"},
                 errors);
  const Json& config = part("config");
  refuse_unknown(config, "config.", {"rb", "holes", "bore", "pins", "rc", "brg", "f", "T", "plane", "h"}, errors);
  CaseReader in(config, "config.", errors);
  ElasticInput input;
  ElasticModel& model = input.model;
  const auto choice = [&](const char* key, std::initializer_list<const char*> allowed, const char* message) {
    const std::string text = in.text(key);
    if (text.empty()) return std::string(*allowed.begin());
    if (std::none_of(allowed.begin(), allowed.end(), [&](const char* one) { return text == one; }))
      in.reject(key, text, message);
    return text;
  };
  const std::string bore = choice("bore", {"mean", "glued", "bearing"}, "must be one of glued, mean, bearing.");
  const std::string plane = choice("plane", {"stress", "strain"}, "must be stress or strain.");
  model.bore = bore == "glued" ? BoreModel::glued : bore == "mean" ? BoreModel::mean : BoreModel::rollers;
  model.body = plane == "strain" ? contact::BodyState::plane_strain : contact::BodyState::plane_stress;
  model.bore_radius = in.number("rb") * kMm;
  model.holes = in.flag("holes", true);
  model.torque_by_pins = in.flag("pins", model.holes);
  if (in.has("rc")) model.pin_core_radius = in.number("rc") * kMm;
  if (in.has("h")) model.depth = in.number("h") * kMm;
  if (model.bore == BoreModel::rollers) {
    if (config.is_object() && config.contains("brg"))
      refuse_unknown(config["brg"], "config.brg.", {"nb", "r", "phase", "cl"}, errors);
    CaseReader rollers(config.is_object() && config.contains("brg") ? config["brg"] : empty, "config.brg.", errors);
    model.rollers.count = rollers.count("nb");
    model.rollers.radius = rollers.number("r") * kMm;
    model.rollers.phase = rollers.number("phase", 0);
    model.rollers.clearance = rollers.number("cl", 0) * kMm;
  }
  input.crank_angles = in.numbers("f");
  input.torques = in.numbers("T");
  if (!errors.empty()) return errors;
  model.stage = stage->model.stage;
  model.stage.discs = 1;
  model.material = stage->model.material;
  model.ring_compliance = stage->model.ring_law.extra_compliance;
  model.pin_compliance = stage->model.pin_law.extra_compliance;
  model.table = false;
  // Few crank angles: finer than the recommended mesh costs little.
  const int lobes = model.stage.lobes;
  model.intervals_per_lobe = lobes > 30 ? 12 : std::max(10, 2 * (100 / std::max(lobes, 1)));
  model.layers = 4;
  errors = check_model(model);
  for (Error& error : errors) error.path = file_key(error.path);
  if (!errors.empty()) return errors;
  if (request.contains("offsets")) {
    auto offsets = read_offsets(request["offsets"], "offsets", model.stage);
    if (!offsets) return offsets.errors();
    input.offsets = std::move(*offsets);
  }
  return input;
}

/// Points of the case in their order, written with place and normal.
Result<Json> read_points(const Json& request, const ElasticModel& model, const contact::elastic::DiscBody& body,
                         std::vector<contact::elastic::SurfacePoint>& points) {
  Errors errors;
  Json written = Json::array();
  if (!request.contains("points")) return written;
  if (!request["points"].is_array()) return input_error("points", "", "must be a list of points.");
  int number = 0;
  for (const Json& item : request["points"]) {
    const std::size_t before = errors.size();
    const std::string place = "points[" + std::to_string(number++) + "].";
    refuse_unknown(item, place, {"name", "kind", "t", "j", "angle", "xy", "n"}, errors);
    CaseReader in(item, place, errors);
    const std::string name = in.text("name"), kind = in.text("kind");
    Json entry = {{"name", name}, {"kind", kind}};
    contact::elastic::SurfacePoint point;
    if (kind == "flank") {
      const double t = in.number("t");
      if (errors.size() == before) point = body.on_flank(t);
      entry["t"] = t;
    } else if (kind == "hole") {
      const double j = in.number("j"), angle = in.number("angle");
      if (errors.size() == before && (!model.holes || j != std::floor(j) || j < 0 || j >= model.stage.pins))
        in.reject("j", j, "must be the number of an output hole of this disc, counted from 0.");
      if (errors.size() == before) point = body.on_hole(static_cast<int>(j), angle);
      entry["j"] = j;
      if (j == std::floor(j) && std::abs(j) < 1e6) entry["j"] = static_cast<int>(j);
      entry["angle"] = angle;
    } else if (kind == "bore") {
      const double angle = in.number("angle");
      if (model.bore == BoreModel::glued)
        in.reject("kind", kind, "has no flexibility: the bore is glued to a rigid ring.");
      if (errors.size() == before) point = body.on_bore(angle);
      entry["angle"] = angle;
    } else if (errors.size() == before) {
      in.reject("kind", kind, "must be flank, hole or bore.");
    }
    entry["xy"] = pair(point.point, kMm);
    entry["n"] = pair(point.normal, 1);
    written.push_back(std::move(entry));
    points.push_back(point);
  }
  if (!errors.empty()) return errors;
  return written;
}

Json matrix(contact::elastic::Flexibility flexibility, const contact::elastic::DiscBody& body, double depth) {
  std::vector<int> all;
  for (int i = 0; i < flexibility.size(); ++i) all.push_back(i);
  body.fill(flexibility, all, depth);
  Json rows = Json::array();
  for (int i = 0; i < flexibility.size(); ++i) {
    Json row = Json::array();
    for (int j = 0; j < flexibility.size(); ++j) row.push_back(flexibility.normal(i, j));
    rows.push_back(std::move(row));
  }
  return rows;
}

Result<Json> solution(contact::ElasticSolver& solver, const ElasticModel& model, double f, double torque) {
  const auto stiffness = contact::torsional_stiffness(solver, f, torque * kNmm);
  if (!stiffness) return stiffness.errors();
  const auto& loads = solver.discs()[0];
  Json out = {{"f", f},
              {"T", torque},
              {"beta_d", loads.shift.rotation},
              {"F", loads.ring_force},
              {"loaded",
               std::count_if(loads.ring_force.begin(), loads.ring_force.end(), [](double force) { return force > 0; })},
              {"stiffness_50_100", *stiffness / kNmm}};
  if (model.torque_by_pins) {
    out["beta_o"] = solver.output_rotation();
    out["Q"] = loads.pin_force;
  }
  if (model.bore == BoreModel::rollers) {
    out["B"] = loads.bearing_force;
    out["u"] = pair(loads.shift.u, kMm);
  }
  return out;
}

}  // namespace

Result<Json> elastic_case(const Json& request) {
  const auto input = read_input(request);
  if (!input) return input.errors();
  const ElasticModel& model = input->model;
  const auto disc = contact::ElasticDisc::build(model);
  if (!disc) return disc.errors();
  const auto& data = disc->data();
  const auto& body = data.bodies[0];

  Json out = Json::object();
  for (const char* key : {"name", "units", "params", "config", "offsets"})
    if (request.contains(key)) out[key] = request[key];
  std::vector<contact::elastic::SurfacePoint> points;
  auto written = read_points(request, model, body, points);
  if (!written) return written;
  out["points"] = std::move(written).value();
  out["C_times_E"] = matrix(contact::elastic::Flexibility(std::move(points)), body, data.depth);

  std::vector<double> gamma = {0, 0.4, 0.8, 1.2};
  if (request.contains("roller_C_times_E")) {
    Errors errors;
    refuse_unknown(request["roller_C_times_E"], "roller_C_times_E.", {"gamma", "value"}, errors);
    CaseReader in(request["roller_C_times_E"], "roller_C_times_E.", errors);
    gamma = in.numbers("gamma");
    for (const double angle : gamma)
      if (std::abs(angle) > contact::elastic::SeatedRoller::kLargestAngle)
        in.reject("gamma", angle, "must lie within 1.35 rad of the seat's axis.");
    if (!errors.empty()) return errors;
  }
  std::vector<double> constants;
  for (const double angle : gamma)
    constants.push_back(data.seat.constant(angle, model.stage.roller_radius / data.depth));
  out["roller_C_times_E"] = {{"gamma", gamma}, {"value", constants}};
  if (model.torque_by_pins && model.pin_core_radius > 0) out["pin_C_times_E"] = data.pin_constant;

  contact::ElasticSolver solver(*disc);
  solver.set_offsets(input->offsets);
  out["solutions"] = Json::array();
  for (const double f : input->crank_angles)
    for (const double torque : input->torques) {
      auto entry = solution(solver, model, f, torque);
      if (!entry) return entry;
      out["solutions"].push_back(std::move(entry).value());
    }
  return out;
}

}  // namespace lobewise::api
