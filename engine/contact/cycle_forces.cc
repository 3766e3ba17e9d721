#include "engine/contact/cycle_forces.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace lobewise::contact {

std::vector<double> flank_order(std::span<const double> forces, int rollers) {
  const std::size_t Z = static_cast<std::size_t>(rollers), phases = forces.size() / Z;
  std::vector<double> flank(phases * Z);
  for (std::size_t i = 0; i < phases; ++i) {
    // psi of roller k is f_i - 2 pi k/Z: one ring pitch back for every roller.
    for (std::size_t k = 0; k < Z; ++k) flank[i + phases * ((Z - k) % Z)] = forces[i * Z + k];
  }
  return flank;
}

CycleForces equal_stiffness_cycle(const mechanism::StageGeometry& stage, double torque, int phases) {
  const std::size_t Z = static_cast<std::size_t>(stage.rollers()), n = static_cast<std::size_t>(phases);
  const double step = 2 * kPi / static_cast<double>(n * Z);
  CycleForces cycle;
  cycle.flank.resize(n * Z);
  cycle.bearing.resize(n);
  if (stage.pins > 0) {
    const double largest = 4 * torque / (stage.pins * stage.pin_circle_radius);
    cycle.pins.resize(n * Z);
    for (std::size_t j = 0; j < n * Z; ++j) {
      cycle.pins[j] = largest * std::max(std::sin(step * (static_cast<double>(j) + 0.5)), 0.0);
    }
  }
  const double pin_sum = stage.pins > 0 ? 4 * torque / (kPi * stage.pin_circle_radius) : 0;
  for (std::size_t i = 0; i < n; ++i) {
    const double f = step * (static_cast<double>(i) + 0.5);
    double squares = 0;
    for (int k = 0; k < stage.rollers(); ++k) {
      const double lever = std::max(-mechanism::roller_mesh(stage, f, k).lever_arm, 0.0);
      squares += lever * lever;
    }
    mechanism::Vec2 resultant = -pin_sum * mechanism::unit(f);
    for (int k = 0; k < stage.rollers(); ++k) {
      const mechanism::RollerMesh mesh = mechanism::roller_mesh(stage, f, k);
      const double force = torque * std::max(-mesh.lever_arm, 0.0) / squares;
      cycle.flank[i + n * ((Z - static_cast<std::size_t>(k)) % Z)] = force;
      resultant += force * mesh.force_direction;
    }
    cycle.bearing[i] = mechanism::norm(resultant);
  }
  return cycle;
}

Result<CycleForces> mesh_cycle(MeshSolver& solver, Level level, double torque, int phases) {
  const mechanism::StageGeometry& stage = solver.model().stage;
  const int Z = stage.rollers();
  int count = std::max(phases, 1);
  while (std::gcd(count, Z) != 1) ++count;
  const std::size_t n = static_cast<std::size_t>(count), rollers = static_cast<std::size_t>(Z);
  CycleForces cycle;
  cycle.flank.resize(n * rollers);
  cycle.bearing.reserve(n);
  for (std::size_t i = 0; i < n; ++i) {
    // psi of roller k is (2 pi/(n Z)) (i Z - k n + 1/2): every place of the grid once, since n and Z share no divisor.
    const double phi = 2 * kPi * (static_cast<double>(i) + 0.5 / Z) / count;
    const Outcome outcome = solver.solve(level, phi, torque);
    if (outcome != Outcome::converged) return outcome_error(outcome, torque);
    const DiscLoads& disc = solver.discs().front();
    for (std::size_t k = 0; k < rollers; ++k)
      cycle.flank[(i * rollers + (rollers - k) * n) % (n * rollers)] = disc.ring_force[k];
    cycle.pins.insert(cycle.pins.end(), disc.pin_force.begin(), disc.pin_force.end());
    cycle.bearing.push_back(mechanism::norm(disc.bearing_force()));
  }
  return cycle;
}

HardContact hardest_lobe_contact(const mechanism::StageGeometry& stage, std::span<const double> flank,
                                 const Elastic& material, bool rollers_turn) {
  const mechanism::Profile profile(stage);
  const double modulus = contact_modulus(material, material);
  HardContact hardest;
  for (std::size_t j = 0; j < flank.size(); ++j) {
    if (flank[j] <= 0) continue;
    const double psi = 2 * kPi * (static_cast<double>(j) + 0.5) / static_cast<double>(flank.size());
    const double load = flank[j] / stage.width;
    const double radius = effective_radius(1 / stage.roller_radius, profile.curvature(psi / stage.lobes));
    const double pressure = hertz_pressure(load, radius, modulus);
    if (pressure <= hardest.pressure) continue;
    const mechanism::RollerMesh mesh = mechanism::roller_mesh(stage, psi, 0);
    const double roller = rollers_turn ? mesh.disc_rolling_speed : mesh.roller_rolling_speed;
    hardest = {flank[j], pressure, radius, std::abs(mesh.disc_rolling_speed + roller) / 2, load};
  }
  return hardest;
}

HardContact hardest_pin_contact(const mechanism::StageGeometry& stage, std::span<const double> pins,
                                const Elastic& material, bool sleeves_turn) {
  const double force = pins.empty() ? 0 : *std::max_element(pins.begin(), pins.end());
  if (force <= 0) return {};
  const double load = force / stage.width, hole = stage.hole_radius();
  const double radius = effective_radius(1 / stage.pin_radius, -1 / hole);
  const double mean_radius = sleeves_turn ? hole : (hole + stage.pin_radius) / 2;
  return {force, hertz_pressure(load, radius, contact_modulus(material, material)), radius,
          mean_radius * mechanism::eccentric_bearing_speed(stage), load};
}

}  // namespace lobewise::contact
