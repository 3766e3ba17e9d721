#include "engine/losses/mesh_loss.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::losses {
namespace {

double phase(std::size_t j, std::size_t size) {
  return 2 * kPi * (static_cast<double>(j) + 0.5) / static_cast<double>(size);
}

}  // namespace

double lobe_friction_torque(const mechanism::StageGeometry& stage, double torque, double mu) {
  constexpr int kPhases = 200;
  mechanism::StageGeometry lobes_only = stage;
  lobes_only.pins = 0;
  const std::vector<double> flank = contact::equal_stiffness_cycle(lobes_only, torque, kPhases).flank;
  double sum = 0;
  for (std::size_t j = 0; j < flank.size(); ++j) {
    if (flank[j] > 0)
      sum += flank[j] * std::abs(mechanism::roller_mesh(stage, phase(j, flank.size()), 0).sliding_speed);
  }
  return mu * sum / kPhases;
}

double pin_friction_torque(const mechanism::StageGeometry& stage, double torque, double mu) {
  return mu * 4 * torque / (kPi * stage.pin_circle_radius) * mechanism::pin_sliding_speed(stage);
}

SlidingSums lobe_sliding(const mechanism::StageGeometry& stage, std::span<const double> flank, double bore_radius) {
  SlidingSums sums;
  const double cycle_share = static_cast<double>(stage.rollers()) / static_cast<double>(flank.size());
  const double area = 2 * bore_radius * stage.width;
  for (std::size_t j = 0; j < flank.size(); ++j) {
    if (flank[j] <= 0) continue;
    const double v = std::abs(mechanism::roller_mesh(stage, phase(j, flank.size()), 0).sliding_speed);
    sums.weight.push_back(flank[j] * v * cycle_share);
    sums.hersey_rate.push_back(hersey_number(1, v / stage.roller_radius, flank[j] / area));
    sums.total += sums.weight.back();
  }
  return sums;
}

SlidingSums pin_sliding(const mechanism::StageGeometry& stage, std::span<const double> pins, double bore_radius) {
  SlidingSums sums;
  const double v = mechanism::pin_sliding_speed(stage);
  const double cycle_share = static_cast<double>(stage.pins) / static_cast<double>(pins.size());
  const double area = 2 * bore_radius * stage.width;
  for (const double Q : pins) {
    if (Q <= 0) continue;
    sums.weight.push_back(Q * v * cycle_share);
    sums.hersey_rate.push_back(hersey_number(1, v / stage.pin_radius, Q / area));
    sums.total += sums.weight.back();
  }
  return sums;
}

double sleeve_friction_torque(const SlidingSums& sums, double viscosity_speed, double mu_outer, double inner_over_outer,
                              const SleeveCurve& curve) {
  double torque = 0;
  for (std::size_t j = 0; j < sums.weight.size(); ++j) {
    const double mu = sleeve_friction(viscosity_speed * sums.hersey_rate[j], curve);
    torque += sums.weight[j] * roller_side_factor(mu_outer, mu, inner_over_outer);
  }
  return torque;
}

}  // namespace lobewise::losses
