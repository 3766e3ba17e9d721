#pragma once
// Random stages that can exist, with loads between next to nothing and five times what 1 GPa of pressure needs.
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/mesh_solver.h"

namespace lobewise::property {

/// Whole number, low <= number < high, of the full range from the first case on.
inline int whole(int low, int high) { return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(low, high)); }

/// Uniform between low and high.
inline double between(double low, double high) {
  constexpr int kSteps = 1 << 20;
  return low + (high - low) * whole(0, kSteps) / kSteps;
}

inline bool coin() { return whole(0, 2) == 1; }

struct Task {
  contact::MeshModel model;
  double rated = 0;        ///< torque that gives about 1 GPa on the ring [Nm]
  double crank_angle = 0;  ///< [rad]
};

/// `clearances`: with random clearances in half of the cases.
inline Task random_task(bool clearances) {
  Task task;
  auto& stage = task.model.stage;
  stage.lobes = whole(2, 100);
  stage.pitch_radius = between(0.03, 0.2);
  const double Z = stage.rollers();
  stage.eccentricity = between(0.3, 0.85) * stage.pitch_radius / Z;
  const double limit = std::min(stage.pitch_radius * std::sin(kPi / Z), mechanism::roller_radius_limit(stage));
  stage.roller_radius = between(0.3, 0.9) * limit;
  stage.width = between(0.05, 0.3) * stage.pitch_radius;
  stage.discs = whole(1, 4);
  stage.pins = whole(4, 13);
  const double root = stage.pitch_radius - stage.eccentricity - stage.roller_radius;
  stage.pin_circle_radius = between(0.5, 0.7) * root;
  const double hole = 0.8 * std::min({stage.pin_circle_radius * std::sin(kPi / stage.pins),
                                      root - stage.pin_circle_radius, stage.pin_circle_radius});
  stage.pin_radius = hole - stage.eccentricity;
  if (clearances && coin()) {
    stage.hole_clearance = between(0, 3e-5);
    stage.radius_offset = -between(0, 2e-5);
    stage.roller_offset = between(0, 2e-5);
    if (coin()) stage.flank_relief = between(0, 1e-4);
    task.model.support.clearance = coin() ? between(0, 3e-5) : 0;
  }
  task.model.support.stiffness = between(1e8, 2e9);
  task.model.ring_law.kind = task.model.pin_law.kind =
      *rc::gen::element(contact::LawKind::palmgren, contact::LawKind::log, contact::LawKind::linear);
  task.model.ring_law.depth = task.model.pin_law.depth = stage.width;
  task.model.ring_law.multiplier = between(0.5, 3);
  task.model.pin_law.extra_compliance = coin() ? between(0, 1e-8) : 0;
  RC_PRE(stage.pin_radius > 0.2 * stage.eccentricity);
  RC_PRE(contact::check_model(task.model).empty());
  const double modulus = contact::contact_modulus(task.model.material, task.model.material);
  const double force = 1e18 * kPi * stage.roller_radius / 2 * stage.width / modulus;
  task.rated = force * stage.eccentricity * stage.lobes * Z / 5 * stage.discs;
  // At five times the rated torque the eccentric bearing gives less than a fifth of the eccentricity.
  RC_PRE(5 * task.rated / stage.discs / (stage.eccentricity * stage.lobes) <
         0.2 * stage.eccentricity * task.model.support.stiffness);
  task.crank_angle = between(-7, 7);
  return task;
}

/// Share of the rated torque from 1e-6 to 5, either sign.
inline double random_share() { return (coin() ? 1 : -1) * std::pow(10, between(-6, std::log10(5.0))); }

}  // namespace lobewise::property
