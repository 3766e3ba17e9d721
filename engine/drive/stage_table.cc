#include "engine/drive/stage_table.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/contact/mesh_solver.h"
#include "engine/contact/mesh_stiffness.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/line_life.h"

namespace lobewise::drive {
namespace {

/// Torques that are solved, shares of the reference torque. Up to a jam several times the working torque.
constexpr double kShares[] = {0.05, 0.15, 0.4, 0.7, 1.0, 1.5, 2.5, 5.0, 8.0};
/// Crank angles over a whole turn at least; the count has no divisor in common with the rollers, so that lobes and
/// output pins are met at evenly spread phases.
constexpr int kFewestPhases = 11;
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

Result<MeshLevel> solve_level(contact::MeshSolver& solver, const range::Stage& stage, double torque) {
  const mechanism::StageGeometry& g = stage.geometry;
  const int rollers = g.rollers();
  int phases = kFewestPhases;
  while (std::gcd(phases, rollers) != 1) ++phases;
  MeshLevel level;
  level.torque = torque;
  const int samples = phases * rollers;
  level.forces.flank.resize(static_cast<std::size_t>(samples));
  level.forces.pins.reserve(static_cast<std::size_t>(phases * g.pins));
  level.loaded_min = rollers;
  for (int phase = 0; phase < phases; ++phase) {
    const double crank = 2 * kPi * (phase + 0.5 / rollers) / phases;
    const contact::Outcome outcome = solver.solve(contact::Level::l2, crank, torque);
    if (outcome != contact::Outcome::converged) return contact::outcome_error(outcome, torque);
    const contact::DiscLoads& disc = solver.discs().front();
    double largest = 0, sum = 0;
    for (int k = 0; k < rollers; ++k) {
      const double force = disc.ring_force[static_cast<std::size_t>(k)];
      // psi = crank - 2 pi k / Z in steps of 2 pi / samples, shifted by half a step.
      const int place = ((phase * rollers - k * phases) % samples + samples) % samples;
      level.forces.flank[static_cast<std::size_t>(place)] = force;
      largest = std::max(largest, force);
      sum += force;
      level.lobe_pressure = std::max(level.lobe_pressure, solver.ring_pressure(disc, k));
    }
    int loaded = 0;
    for (double force : disc.ring_force) loaded += force > kCarries * largest ? 1 : 0;
    level.loaded_min = std::min<double>(level.loaded_min, loaded);
    level.loaded_max = std::max<double>(level.loaded_max, loaded);
    level.loaded_mean += static_cast<double>(loaded) / phases;
    level.lobe_force = std::max(level.lobe_force, largest);
    level.share_largest = std::max(level.share_largest, largest / sum);
    for (double force : disc.pin_force) {
      level.forces.pins.push_back(force);
      level.pin_force = std::max(level.pin_force, force);
    }
    const mechanism::Vec2 bearing = disc.bearing_force();
    level.forces.bearing.push_back(std::hypot(bearing.x, bearing.y));
    level.rotation += solver.output_rotation() / phases;
  }
  level.pin_pressure = solver.pin_pressure(level.pin_force);
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
  return level;
}

}  // namespace

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

double StageTable::life_at(double torque, double MeshLevel::*member) const {
  if (torque <= 0) return std::numeric_limits<double>::infinity();
  const Between b = between(torque);
  const double share = std::log(torque / b.below->torque) / std::log(b.above->torque / b.below->torque);
  return std::exp((1 - share) * std::log(b.below->*member) + share * std::log(b.above->*member));
}

double StageTable::stiffness(double torque) const {
  return 0.5 * torque / (at(torque, &MeshLevel::rotation) - at(0.5 * torque, &MeshLevel::rotation));
}

Result<StageTable> build_stage_table(const range::Stage& stage, double reference_torque) {
  const contact::MeshModel model = mesh_model(stage);
  const Errors errors = contact::check_model(model);
  if (!errors.empty()) return errors;
  contact::MeshSolver solver(model);
  StageTable table;
  table.model = "rigid discs, elastic contacts, torque through the output pins (level L2, log law)";
  table.reference_torque = reference_torque;
  for (double share : kShares) {
    Result<MeshLevel> level = solve_level(solver, stage, share * reference_torque);
    if (!level) {
      // Far above the working torque a contact may leave the law; what lies below is still sound.
      if (share > 1.0 && table.levels.size() >= 4) break;
      return level.errors();
    }
    table.levels.push_back(std::move(*level));
  }
  const Result<double> lost = contact::lost_motion(solver, contact::Level::l2, 0.1, reference_torque);
  if (!lost) return lost.errors();
  table.lost_motion = *lost;
  return table;
}

}  // namespace lobewise::drive
