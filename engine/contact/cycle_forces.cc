#include "engine/contact/cycle_forces.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"

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

}  // namespace lobewise::contact
