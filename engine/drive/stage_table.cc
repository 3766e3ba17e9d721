#include "engine/drive/stage_table.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include "engine/base/constants.h"
#include "engine/contact/mesh_solver.h"
#include "engine/contact/mesh_stiffness.h"
#include "engine/range/bearing.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/disc_share.h"
#include "engine/strength/line_life.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::drive {
namespace {

/// Torques that are solved, shares of the reference torque: from idling to a jam at several times what a stage carries
/// for good, closest where stages work.
constexpr double kShares[] = {0.01, 0.025, 0.05, 0.08, 0.11, 0.15, 0.21, 0.29,
                              0.39, 0.51,  0.66, 0.85, 1.15, 1.7,  2.8,  4.5};
constexpr double kRoughShares[] = {0.05, 0.25, 0.8, 2.5};
/// The same for reversals: lost motion is asked for at kLostMotionShare of what a stage carries.
constexpr double kReversalShares[] = {3e-4, 8e-4, 2e-3, 5e-3, 0.012, 0.03, 0.08, 0.2};
constexpr double kReversalAngle = 0.1;
/// About what stages are rated at, share of the reference torque.
constexpr double kRatedShare = 0.4;
/// Crank angles over a whole turn at least.
constexpr int kRigidPhases = 11;
constexpr int kRoughPhases = 3;
constexpr int kElasticPhases = 7;
/// Share of the largest force below which a contact does not count as carrying.
constexpr double kCarries = 1e-3;

contact::MeshModel mesh_model(const range::Stage& stage) {
  contact::MeshModel model;
  model.stage = stage.geometry;
  // Approach is counted to one roller diameter below the flank; docs/theory/mesh.md.
  model.ring_law.depth = 2 * stage.geometry.roller_radius;
  model.pin_law.depth = 2 * stage.geometry.pin_radius;
  return model;
}

/// Bore of a ring roller or sleeve for the friction on its pin; a roller that cannot turn has none and slides outside.
double inner_radius(range::Carried carried, double pin_radius, double outside) {
  return carried == range::Carried::fixed || pin_radius <= 0 ? outside : pin_radius;
}

/// The two kinds of solver in one shape; disc 0 stands for all.
class RigidMesh {
 public:
  static constexpr bool kBends = false;
  static constexpr bool kAngleFirst = false;  // the last solution is nearer at the same torque than at the same angle
  explicit RigidMesh(const contact::MeshModel& model) : solver_(model) {}
  contact::Outcome solve(double crank, double torque) { return solver_.solve(contact::Level::l2, crank, torque); }
  [[nodiscard]] const std::vector<double>& ring_force() const { return disc().ring_force; }
  [[nodiscard]] double ring_pressure(int roller) const { return solver_.ring_pressure(disc(), roller); }
  [[nodiscard]] const std::vector<double>& pin_force() const { return disc().pin_force; }
  [[nodiscard]] double pin_pressure(int pin) const {
    return solver_.pin_pressure(disc().pin_force[static_cast<std::size_t>(pin)]);
  }
  [[nodiscard]] mechanism::Vec2 bearing() const { return disc().bearing_force(); }
  [[nodiscard]] double ring_radius(int roller) const { return disc().ring.radius[static_cast<std::size_t>(roller)]; }
  [[nodiscard]] contact::Equilibrium equilibrium() const { return solver_.equilibrium(0); }
  [[nodiscard]] double rotation() const { return solver_.output_rotation(); }

 private:
  [[nodiscard]] const contact::DiscLoads& disc() const { return solver_.discs().front(); }
  contact::MeshSolver solver_;
};

class ElasticMesh {
 public:
  static constexpr bool kBends = true;
  static constexpr bool kAngleFirst = true;  // the body's influences belong to the angle
  explicit ElasticMesh(const contact::ElasticDisc& disc) : solver_(disc) {}
  contact::Outcome solve(double crank, double torque) { return solver_.solve(crank, torque); }
  [[nodiscard]] const std::vector<double>& ring_force() const { return disc().ring_force; }
  [[nodiscard]] double ring_pressure(int roller) const {
    return disc().ring_pressure[static_cast<std::size_t>(roller)];
  }
  [[nodiscard]] const std::vector<double>& pin_force() const { return disc().pin_force; }
  [[nodiscard]] double pin_pressure(int pin) const { return disc().pin_pressure[static_cast<std::size_t>(pin)]; }
  [[nodiscard]] mechanism::Vec2 bearing() const { return disc().bearing_resultant(); }
  [[nodiscard]] double ring_radius(int roller) const { return disc().ring_radius[static_cast<std::size_t>(roller)]; }
  [[nodiscard]] contact::Equilibrium equilibrium() const { return solver_.equilibrium(0); }
  [[nodiscard]] double rotation() const { return solver_.output_rotation(); }

 private:
  [[nodiscard]] const contact::ElasticLoads& disc() const { return solver_.discs().front(); }
  contact::ElasticSolver solver_;
};

MeshLevel empty_level(const mechanism::StageGeometry& stage, const contact::CrankTurn& turn, double torque) {
  MeshLevel level;
  level.torque = torque;
  level.forces = turn.empty_forces();
  level.loaded_min = stage.rollers();
  return level;
}

/// Adds the solved crank angle of a phase.
template <class Mesh>
void record(const Mesh& mesh, const mechanism::StageGeometry& stage, const contact::CrankTurn& turn, int phase,
            MeshLevel& level) {
  double largest = 0, sum = 0;
  for (int k = 0; k < stage.rollers(); ++k) {
    const double force = mesh.ring_force()[static_cast<std::size_t>(k)];
    largest = std::max(largest, force);
    sum += force;
    if (const double pressure = mesh.ring_pressure(k); pressure > level.lobe_pressure) {
      level.lobe_pressure = pressure;
      level.pressed_force = force;
      level.pressed_radius = mesh.ring_radius(k);
    }
  }
  if (largest > level.lobe_force) level.at_largest = mesh.equilibrium();
  int loaded = 0;
  for (double force : mesh.ring_force()) loaded += force > kCarries * largest ? 1 : 0;
  level.loaded_min = std::min<double>(level.loaded_min, loaded);
  level.loaded_max = std::max<double>(level.loaded_max, loaded);
  level.loaded_mean += static_cast<double>(loaded) / turn.phases();
  level.loaded.push_back(loaded);
  level.lobe_force = std::max(level.lobe_force, largest);
  level.share_largest = std::max(level.share_largest, largest / sum);
  for (int j = 0; j < stage.pins; ++j) {
    level.pin_force = std::max(level.pin_force, mesh.pin_force()[static_cast<std::size_t>(j)]);
    level.pin_pressure = std::max(level.pin_pressure, mesh.pin_pressure(j));
  }
  turn.record(phase, mesh.ring_force(), mesh.pin_force(), mesh.bearing(), level.forces);
  level.rotation += mesh.rotation() / turn.phases();
}

strength::PinSupport pin_support(const range::Stage& stage) {
  return stage.pins_guided ? strength::PinSupport::guided : strength::PinSupport::cantilever;
}

/// Bending of an output pin that the elastic level itself counts, at the mean lever of the discs [m/N].
double mean_pin_compliance(const range::Stage& stage) {
  const double lever = 0.5 * (stage.pin_lever_near + stage.pin_lever_far);
  return lever > 0 ? strength::pin_bending(1.0, 2 * stage.output_pin_radius, lever, pin_support(stage)).deflection : 0;
}

/// How much farther a stage turns whose discs bend than one with rigid discs: 2.6 to 3.2 times over the demo range.
/// Derived, docs/theory/shaft.md.
constexpr double kBendingOverRigid = 3;

/// Torque of each disc over the mean, from the stiffness of the mesh at a torque and of the pins at the levers of the
/// discs. The supporting ring is taken to stand as far behind the last disc as the flange before the
/// first (common practice, no source).
std::vector<double> loads_of_discs(const range::Stage& stage, const StageTable& table, double torque) {
  const mechanism::StageGeometry& g = stage.geometry;
  if (g.discs < 2 || !(stage.pin_lever_near > 0) || !(stage.output_pin_radius > 0)) return {};
  const double length = stage.pin_lever_near + stage.pin_lever_far;
  std::vector<double> pins;
  for (int disc = 0; disc < g.discs; ++disc) {
    const double compliance =
        strength::pin_compliance_at(2 * stage.output_pin_radius, disc_lever(stage, disc), length, pin_support(stage));
    pins.push_back(strength::pin_turn(compliance, g.pins, g.pin_circle_radius));
  }
  const double turn = (table.elastic ? 1 : kBendingOverRigid) * g.discs / table.stiffness(torque);
  // What the rotation of the mesh holds already: rigid discs stand on rigid pins.
  const double counted = table.elastic ? mean_pin_compliance(stage) : 0;
  const double mesh = turn - strength::pin_turn(counted, g.pins, g.pin_circle_radius);
  return strength::disc_shares(mesh, pins);
}

template <class Mesh>
Result<std::vector<Reversal>> reversals_of(Mesh& mesh, double reference_torque) {
  std::vector<Reversal> list;
  const auto turn = [&](double torque, double& into) {
    const contact::Outcome outcome = mesh.solve(kReversalAngle, torque);
    into = mesh.rotation();
    return outcome;
  };
  for (const double share : kReversalShares) list.push_back({share * reference_torque});
  // All of one direction first: the last solution is near the next one.
  for (const double sign : {1.0, -1.0})
    for (Reversal& r : list)
      if (const contact::Outcome outcome = turn(sign * r.torque, sign > 0 ? r.forward : r.backward);
          outcome != contact::Outcome::converged)
        return Errors{contact::outcome_error(outcome, sign * r.torque)};
  return list;
}

/// The mesh at each of some rising torques. Where `enough` of them are solved, one that cannot be ends the list.
template <class Mesh>
Result<std::vector<MeshLevel>> solve_levels(Mesh& mesh, const range::Stage& stage, const std::vector<double>& torques,
                                            std::size_t enough, int fewest_phases) {
  const contact::CrankTurn turn(stage.geometry, fewest_phases);
  std::vector<MeshLevel> levels;
  for (const double torque : torques) levels.push_back(empty_level(stage.geometry, turn, torque));
  Errors errors;
  const auto solve = [&](int phase, std::size_t i) {
    if (i >= levels.size() || !errors.empty()) return;
    MeshLevel& level = levels[i];
    const contact::Outcome outcome = mesh.solve(turn.crank(phase), level.torque);
    if (outcome == contact::Outcome::converged)
      record(mesh, stage.geometry, turn, phase, level);
    else if (i >= enough)
      levels.resize(i);
    else
      errors.push_back(contact::outcome_error(outcome, level.torque));
  };
  if (Mesh::kAngleFirst) {
    for (int phase = 0; phase < turn.phases(); ++phase)
      for (std::size_t i = 0; i < torques.size(); ++i) solve(phase, i);
  } else {
    for (std::size_t i = 0; i < torques.size(); ++i)
      for (int phase = 0; phase < turn.phases(); ++phase) solve(phase, i);
  }
  if (!errors.empty()) return errors;
  for (MeshLevel& level : levels) complete(stage, level);
  return levels;
}

template <class Mesh>
Result<StageTable> solve_table(Mesh& mesh, const range::Stage& stage, std::span<const double> shares,
                               int fewest_phases) {
  StageTable table;
  table.elastic = Mesh::kBends;
  table.reference_torque = reference_torque(stage);
  std::vector<double> torques;
  for (const double share : shares) torques.push_back(share * table.reference_torque);
  // Far above what a stage works at a contact may leave the law; what lies below is sound.
  const auto enough = std::find_if(shares.begin(), shares.end(), [](double share) { return share > 1; });
  Result<std::vector<MeshLevel>> levels =
      solve_levels(mesh, stage, torques, static_cast<std::size_t>(enough - shares.begin()), fewest_phases);
  if (!levels) return levels.errors();
  table.levels = std::move(*levels);
  Result<std::vector<Reversal>> reversals = reversals_of(mesh, table.reference_torque);
  if (!reversals) return reversals.errors();
  table.reversals = std::move(*reversals);
  table.disc_loads = loads_of_discs(stage, table, kRatedShare * table.reference_torque);
  return table;
}

template <class Mesh>
Result<MeshLevel> solve_level(Mesh& mesh, const range::Stage& stage, double torque, int fewest_phases) {
  Result<std::vector<MeshLevel>> levels = solve_levels(mesh, stage, {torque}, 1, fewest_phases);
  if (!levels) return levels.errors();
  return std::move(levels->front());
}

Result<StageTable> rigid_table(const range::Stage& stage, std::span<const double> shares, int fewest_phases) {
  const contact::MeshModel model = mesh_model(stage);
  const Errors errors = contact::check_model(model);
  if (!errors.empty()) return errors;
  RigidMesh mesh(model);
  Result<StageTable> table = solve_table(mesh, stage, shares, fewest_phases);
  if (table)
    table->model =
        "Rigid discs, elastic contacts, torque through the output pins (level L2, log law): single lobe forces and "
        "stiffness of a real, bending disc differ.";
  return table;
}

contact::ElasticModel elastic_model(const range::Stage& stage) {
  const mechanism::StageGeometry& g = stage.geometry;
  contact::ElasticModel model;
  model.stage = g;
  model.bore_radius = range::outer_raceway_radius(stage.eccentric_bearing);
  model.rollers.count = stage.eccentric_bearing.elements;
  model.rollers.radius = stage.eccentric_bearing.element_diameter / 2;
  if (model.rollers.count < 3 || model.rollers.radius <= 0) {
    model.bore = contact::BoreModel::mean;  // the range does not say which rollers run in the bore
  } else {
    model.rollers.cage_speed = contact::cage_speed(g.lobes, model.bore_radius, model.rollers.radius);
  }
  model.pin_core_radius = stage.output_pin_radius;
  model.pin_compliance = mean_pin_compliance(stage);
  return model;
}

}  // namespace

void complete(const range::Stage& stage, MeshLevel& level) {
  const mechanism::StageGeometry& g = stage.geometry;
  level.bearing_equivalent = strength::equivalent_load(level.forces.bearing);
  level.bearing_largest = *std::max_element(level.forces.bearing.begin(), level.forces.bearing.end());
  level.lobe_sliding = losses::lobe_sliding(g, level.forces.flank,
                                            inner_radius(stage.ring_rollers, stage.ring_pin_radius, g.roller_radius));
  level.pin_sliding = losses::pin_sliding(g, level.forces.pins,
                                          inner_radius(stage.output_rollers, stage.output_pin_radius, g.pin_radius));
  const strength::LobeLife lobes = strength::lobe_life(g, level.forces.flank);
  level.lobe_life = lobes.disc;
  level.roller_life = stage.ring_rollers == range::Carried::fixed ? strength::fixed_roller_life(g, level.forces.flank)
                                                                  : lobes.roller_free;
  const strength::PinLife pins = strength::output_pin_life(g, level.forces.pins);
  level.hole_life = pins.hole;
  level.sleeve_life = pins.sleeve;
  level.hardest = contact::hardest_lobe_contact(g, level.forces.flank, contact::Elastic{},
                                                stage.ring_rollers != range::Carried::fixed);
}

double disc_lever(const range::Stage& stage, int disc) {
  const int last = stage.geometry.discs - 1;
  if (last == 0) return stage.pin_lever_far;
  return stage.pin_lever_near + (stage.pin_lever_far - stage.pin_lever_near) * disc / last;
}

PinLoad hardest_pin(const range::Stage& stage, const StageTable& table, double torque) {
  PinLoad hardest;
  for (int disc = 0; disc < stage.geometry.discs; ++disc) {
    const double share = table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(disc)];
    PinLoad pin{disc, table.at(share * torque, &MeshLevel::pin_force), disc_lever(stage, disc)};
    pin.stress = strength::pin_bending(pin.force, 2 * stage.output_pin_radius, pin.lever, pin_support(stage)).stress;
    if (disc == 0 || pin.stress > hardest.stress) hardest = pin;
  }
  return hardest;
}

double StageTable::hardest_disc() const {
  return disc_loads.empty() ? 1.0 : *std::max_element(disc_loads.begin(), disc_loads.end());
}

StageTable::Between StageTable::between(double torque) const {
  const auto above =
      std::find_if(levels.begin(), levels.end() - 1, [&](const MeshLevel& level) { return level.torque >= torque; });
  const auto upper = std::max(above, levels.begin() + 1);
  const auto lower = upper - 1;
  return {&*lower, &*upper, (torque - lower->torque) / (upper->torque - lower->torque)};
}

double StageTable::at(double torque, double MeshLevel::*member) const {
  if (torque <= levels.front().torque) return levels.front().*member * (torque / levels.front().torque);
  const Between b = between(torque);
  return (1 - b.share) * (b.below->*member) + b.share * (b.above->*member);
}

double StageTable::pressure_at(double torque, double MeshLevel::*member) const {
  const auto square = [&](const MeshLevel& level) { return (level.*member) * (level.*member); };
  if (torque <= levels.front().torque) return std::sqrt(square(levels.front()) * torque / levels.front().torque);
  const Between b = between(torque);
  return std::sqrt((1 - b.share) * square(*b.below) + b.share * square(*b.above));
}

namespace {

/// Torque at which `figure` of a level reaches a value, straight between the levels and from the origin.
template <class Figure>
double where_reached(const Levels& levels, double value, Figure figure) {
  if (value <= figure(levels.front())) return levels.front().torque * value / figure(levels.front());
  for (std::size_t i = 1; i < levels.size(); ++i) {
    const double below = figure(levels[i - 1]), above = figure(levels[i]);
    const bool last = i + 1 == levels.size();
    if (value > above && !last) continue;
    if (above <= below) return std::numeric_limits<double>::infinity();
    return levels[i - 1].torque + (value - below) / (above - below) * (levels[i].torque - levels[i - 1].torque);
  }
  return std::numeric_limits<double>::infinity();
}

}  // namespace

double StageTable::torque_at(double value, double MeshLevel::*member) const {
  return where_reached(levels, value, [&](const MeshLevel& level) { return level.*member; });
}

double StageTable::torque_at_pressure(double value, double MeshLevel::*member) const {
  return where_reached(levels, value * value,
                       [&](const MeshLevel& level) { return (level.*member) * (level.*member); });
}

double StageTable::life_at(double torque, double MeshLevel::*member) const {
  if (torque <= 0) return std::numeric_limits<double>::infinity();
  const Between b = between(torque);
  const double share = std::log(torque / b.below->torque) / std::log(b.above->torque / b.below->torque);
  return std::exp((1 - share) * std::log(b.below->*member) + share * std::log(b.above->*member));
}

double StageTable::stiffness(double torque) const {
  return 0.5 * torque / (at(torque, &MeshLevel::rotation) - at(0.5 * torque, &MeshLevel::rotation));
}

double StageTable::turned(double torque) const {
  const double size = std::abs(torque);
  const auto above =
      std::find_if(reversals.begin() + 1, reversals.end() - 1, [&](const Reversal& r) { return r.torque >= size; });
  const Reversal &low = *(above - 1), &high = *above;
  const auto turn = [&](const Reversal& r) { return torque < 0 ? r.backward : r.forward; };
  return turn(low) + (size - low.torque) / (high.torque - low.torque) * (turn(high) - turn(low));
}

double StageTable::lost_motion(double torque) const {
  return turned(kLostMotionShare * torque) - turned(-kLostMotionShare * torque);
}

double reference_torque(const range::Stage& stage) {
  const contact::CycleForces unit = contact::equal_stiffness_cycle(stage.geometry, 1);
  const double pressure = contact::hardest_lobe_contact(stage.geometry, unit.flank, contact::Elastic{}, false).pressure;
  const double times = strength::kFatigueLimitPressure / pressure;
  return stage.geometry.discs * times * times;
}

Result<StageTable> rigid_stage_table(const range::Stage& stage) { return rigid_table(stage, kShares, kRigidPhases); }

Result<StageTable> rough_stage_table(const range::Stage& stage) {
  return rigid_table(stage, kRoughShares, kRoughPhases);
}

std::shared_ptr<const StageTable> shared_at(const range::Stage& stage, const StageTable& table, double torque) {
  auto out = std::make_shared<StageTable>(table);
  if (!table.disc_loads.empty()) out->disc_loads = loads_of_discs(stage, table, torque);
  return out;
}

Result<contact::ElasticDisc> elastic_disc_of(const range::Stage& stage) {
  return contact::ElasticDisc::build(elastic_model(stage));
}

Result<MeshLevel> rigid_level(const range::Stage& stage, double torque) {
  const contact::MeshModel model = mesh_model(stage);
  const Errors errors = contact::check_model(model);
  if (!errors.empty()) return errors;
  RigidMesh mesh(model);
  return solve_level(mesh, stage, torque, kRigidPhases);
}

Result<MeshLevel> elastic_level(const range::Stage& stage, const contact::ElasticDisc& disc, double torque) {
  ElasticMesh mesh(disc);
  return solve_level(mesh, stage, torque, kElasticPhases);
}

Result<StageTable> elastic_stage_table(const range::Stage& stage, const contact::ElasticDisc& disc) {
  ElasticMesh mesh(disc);
  Result<StageTable> table = solve_table(mesh, stage, kShares, kElasticPhases);
  if (table) {
    table->model =
        "Discs that bend on the rollers of their eccentric bearings, torque through the output pins (level L4); rigid "
        "eccentric, pin flange and ring; no misalignment.";
  }
  return table;
}

}  // namespace lobewise::drive
