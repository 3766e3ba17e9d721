#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/drive/stage_table.h"
#include "engine/range/demo_range.h"

namespace lobewise::drive {
namespace {

std::vector<const range::Stage*> stages() {
  std::vector<const range::Stage*> all;
  for (const range::Frame& frame : range::demo_range().frames)
    for (const range::Stage& stage : frame.stages) all.push_back(&stage);
  return all;
}

/// How far a table may be from the mesh solved at that very torque, as a share.
struct Off {
  double lobe_pressure, pin_pressure, lobe_force, bearing, turn, lobe_life;
};

void compare(const StageTable& table, const MeshLevel& exact, const Off& most) {
  using Level = MeshLevel;
  const double torque = exact.torque;
  const auto off = [](double figure, double truth) { return std::abs(figure / truth - 1); };
  RC_ASSERT(off(table.pressure_at(torque, &Level::lobe_pressure), exact.lobe_pressure) < most.lobe_pressure);
  RC_ASSERT(off(table.pressure_at(torque, &Level::pin_pressure), exact.pin_pressure) < most.pin_pressure);
  RC_ASSERT(off(table.at(torque, &Level::lobe_force), exact.lobe_force) < most.lobe_force);
  RC_ASSERT(off(table.at(torque, &Level::bearing_equivalent), exact.bearing_equivalent) < most.bearing);
  RC_ASSERT(off(table.at(torque, &Level::rotation), exact.rotation) < most.turn);
  RC_ASSERT(off(table.life_at(torque, &Level::lobe_life), exact.lobe_life) < most.lobe_life);
}

/// @param place  0 … 1
double torque_of(const StageTable& table, double place) {
  return std::min(table.reference_torque * 0.1 * std::pow(44.0, place), table.solved_to());
}

RC_GTEST_PROP(StageTableProperty, InterpolationCostsLittleOfRigidDiscs, ()) {
  const range::Stage& stage = **rc::gen::elementOf(stages());
  const StageTable table = *rigid_stage_table(stage);
  // Between 0.1 and 4.4 of the reference torque. Largest pressure of a lobe of 3600 random torques: 1.51 %.
  constexpr Off kMost{0.0155, 0.037, 0.04, 0.002, 0.005, 0.05};
  compare(table, *rigid_level(stage, torque_of(table, *rc::gen::inRange(0, 1000) / 1000.0)), kMost);
}

RC_GTEST_PROP(StageTableProperty, InterpolationCostsLittleOfDiscsThatBend, ()) {
  // A body takes a tenth of a second and more: one of them, at many torques.
  const range::Stage& stage = *stages()[7];
  static const contact::ElasticDisc disc = *elastic_disc_of(stage);
  static const StageTable table = *elastic_stage_table(stage, disc);
  // Largest of 101 torques, as above, of this stage and one of 49 lobes: 1.6, 0.2, 5.2, 0.5, 0.4 and 7 %.
  constexpr Off kMost{0.018, 0.0035, 0.06, 0.006, 0.005, 0.075};
  compare(table, *elastic_level(stage, disc, torque_of(table, *rc::gen::inRange(0, 1000) / 1000.0)), kMost);
}

}  // namespace
}  // namespace lobewise::drive
