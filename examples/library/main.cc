// The largest lobe force and pressure of a 17:1 stage under 600 N m, from the engine as a library. Invented geometry.
#include <cstdio>

#include "engine/contact/mesh_solver.h"

int main() {
  using namespace lobewise;
  contact::MeshModel model;
  model.stage.lobes = 17;
  model.stage.pitch_radius = 0.080;
  model.stage.roller_radius = 0.007;
  model.stage.eccentricity = 0.003;
  model.stage.width = 0.014;
  model.stage.pins = 10;
  model.stage.pin_circle_radius = 0.050;
  model.stage.pin_radius = 0.008;
  const Errors errors = contact::check_model(model);
  for (const Error& error : errors) std::fprintf(stderr, "%s: %s\n", error.path.c_str(), error.message.c_str());
  if (!errors.empty()) return 2;

  contact::MeshSolver solver(model);
  if (solver.solve(contact::Level::l2, 0.3, 600) != contact::Outcome::converged) return 4;
  const contact::DiscLoads& disc = solver.discs().front();
  double force = 0, pressure = 0;
  for (int k = 0; k < model.stage.rollers(); ++k) {
    if (disc.ring_force[static_cast<std::size_t>(k)] > force) force = disc.ring_force[static_cast<std::size_t>(k)];
    if (solver.ring_pressure(disc, k) > pressure) pressure = solver.ring_pressure(disc, k);
  }
  std::printf("largest lobe force %.0f N, largest contact pressure %.0f MPa\n", force, pressure / 1e6);
}
