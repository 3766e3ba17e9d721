// What a drawing of the turning mechanism needs: outline, poses, forces, stress.

#include <fmt/format.h>

#include <cmath>

#include "engine/api/build_input.h"
#include "engine/api/calls.h"
#include "engine/api/table_shelf.h"
#include "engine/base/constants.h"
#include "engine/drive/build.h"
#include "engine/drive/drive.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::api {
namespace {

Json points_json(const std::vector<mechanism::Vec2>& points) {
  Json list = Json::array();
  for (const mechanism::Vec2& p : points) list.push_back(Json::array({p.x, p.y}));
  return list;
}

/// Forces of every disc over one ring pitch.
/// @param shares  of every disc, as a multiple of an even share: each stands in the mesh as if all carried as much
Result<Json> forces_json(const contact::ElasticDisc& disc, const range::Stage& stage, double torque,
                         const std::vector<double>& shares, int angles) {
  const mechanism::StageGeometry& g = stage.geometry;
  contact::ElasticSolver solver(disc);
  Json crank_angles = Json::array();
  std::vector<Json> discs(static_cast<std::size_t>(g.discs));
  for (Json& d : discs)
    for (const char* key : {"forces", "pressures", "directions", "pin_forces", "loaded", "bearing", "rolling"})
      d[key] = Json::array();
  for (int i = 0; i < angles; ++i) {
    const double phi = 2 * kPi / g.rollers() * i / angles;
    crank_angles.push_back(phi);
    for (std::size_t d = 0; d < discs.size(); ++d) {
      const double load = torque * (shares.empty() ? 1 : shares[d]);
      const contact::Outcome outcome = solver.solve(phi, load);
      if (outcome != contact::Outcome::converged) return contact::outcome_error(outcome, load);
      const contact::ElasticLoads& loads = solver.discs()[d];
      Json directions = Json::array(), rolling = Json::array();
      int loaded = 0;
      for (int k = 0; k < g.rollers(); ++k) {
        const mechanism::RollerMesh mesh = mechanism::roller_mesh(g, loads.crank_angle, k);
        directions.push_back(std::atan2(mesh.force_direction.y, mesh.force_direction.x));
        // A free roller's surface goes with the disc's: counter-clockwise turn of the roller per turn of the crank.
        rolling.push_back(mesh.sliding_speed / g.roller_radius);
        loaded += loads.ring_force[static_cast<std::size_t>(k)] > 0 ? 1 : 0;
      }
      discs[d]["forces"].push_back(loads.ring_force);
      discs[d]["pressures"].push_back(loads.ring_pressure);
      discs[d]["directions"].push_back(std::move(directions));
      discs[d]["rolling"].push_back(std::move(rolling));
      discs[d]["pin_forces"].push_back(loads.pin_force);
      discs[d]["loaded"].push_back(loaded);
      discs[d]["bearing"].push_back(Json::array({loads.bearing_resultant().x, loads.bearing_resultant().y}));
    }
  }
  return Json{{"crank_angles", std::move(crank_angles)}, {"discs", std::move(discs)}};
}

/// The largest of a whole turn, as a proof at this torque has them. The drawing holds one ring pitch, in which the
/// output pins do not meet the worst lobe.
Json largest_json(const drive::StageTable& table, double torque) {
  const double hard = torque * table.hardest_disc();
  return Json{{"force", table.at(hard, &drive::MeshLevel::lobe_force)},
              {"pressure", table.pressure_at(hard, &drive::MeshLevel::lobe_pressure)}};
}

/// Torque at the output of each stage; losses left out, a drawing does not show them.
double stage_torque(const drive::Build& build, std::size_t stage, double torque) {
  return torque / build.ratio_behind(stage);
}

Result<double> positive(const Json& input, const char* key, Quantity quantity) {
  Arguments arguments(Json{{key, input.value(key, Json())}});
  const double value = arguments.number(key, quantity, kPositive);
  const Errors errors = arguments.finish();
  if (!errors.empty()) return errors;
  return value;
}

Result<Json> mechanism_call(const Json& input, TableShelf& shelf) {
  if (!input.is_object()) return input_error("input", "", "{\"build\": {…}, \"torque\": …} is needed");
  std::optional<range::Range> own;
  const Result<drive::Build> build = named_build(input, own);
  if (!build) return build.errors();
  const Result<double> torque = positive(input, "torque", Quantity::torque);
  if (!torque) return torque.errors();
  constexpr int kAngles = 12;
  constexpr int kPointsPerLobe = 24;
  const std::vector<double> torques = drive::torques_at_stages(*build, *torque);
  Json stages = Json::array();
  for (std::size_t i = 0; i < build->stages.size(); ++i) {
    const range::Stage& stage = *build->stages[i].stage;
    const Result<contact::ElasticDisc> disc = shelf.disc(stage);
    if (!disc) return disc.errors();
    const auto table = shelf.elastic(stage);
    if (!table) return table.errors();
    const auto shared = drive::shared_at(stage, **table, torques[i]);
    Result<Json> forces = forces_json(*disc, stage, stage_torque(*build, i, *torque), shared->disc_loads, kAngles);
    if (!forces) return forces.errors();
    Json json{{"geometry", geometry_json(stage)},
              {"outline", points_json(mechanism::outline(stage.geometry, kPointsPerLobe))},
              {"torque", stage_torque(*build, i, *torque)},
              {"largest", largest_json(*shared, stage_torque(*build, i, *torque))}};
    json.update(*forces);
    stages.push_back(std::move(json));
  }
  return Json{{"build_name", build->name()}, {"ratio", build->ratio()}, {"stages", std::move(stages)}};
}

Result<Json> stress_call(const Json& input, TableShelf& shelf) {
  if (!input.is_object())
    return input_error("input", "", "{\"build\": {…}, \"torque\": …, \"crank_angle\": …} is needed");
  std::optional<range::Range> own;
  const Result<drive::Build> build = named_build(input, own);
  if (!build) return build.errors();
  const Result<double> torque = positive(input, "torque", Quantity::torque);
  if (!torque) return torque.errors();
  const double crank =
      input.contains("crank_angle") && input["crank_angle"].is_number() ? input["crank_angle"].get<double>() : 0.0;
  const range::Stage& stage = build->last();
  const Result<contact::ElasticDisc> disc = shelf.disc(stage);
  if (!disc) return disc.errors();
  const auto table = shelf.elastic(stage);
  if (!table) return table.errors();
  const auto shared = drive::shared_at(stage, **table, *torque);
  const double load = *torque * (shared->disc_loads.empty() ? 1 : shared->disc_loads.front());
  contact::ElasticSolver solver(*disc);
  const contact::Outcome outcome = solver.solve(crank, load);
  if (outcome != contact::Outcome::converged) return contact::outcome_error(outcome, load);
  const contact::DiscPicture picture = solver.picture(0);
  Json cells = Json::array();
  for (const auto& cell : picture.cells) cells.push_back(cell);
  return Json{{"crank_angle", crank},
              {"points", points_json(picture.points)},
              {"cells", std::move(cells)},
              {"displacement", points_json(picture.displacement)},
              {"mises", picture.mises}};
}

}  // namespace

void add_mechanism_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  registry.add(Call{"mechanism", "Outline, poses and forces over one ring pitch, for drawing a build under a torque.",
                    [shelf](const Json& input) { return mechanism_call(input, *shelf); }, nullptr});
  registry.add(Call{"disc_stress", "Stress (von Mises) and deflection of a disc in one pose, on a drawing grid.",
                    [shelf](const Json& input) { return stress_call(input, *shelf); }, nullptr});
}

}  // namespace lobewise::api
