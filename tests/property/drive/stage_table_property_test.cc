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

/// What a table says beside the mesh solved at that very torque. Largest seen between 0.1 and 4.4 of the reference
/// torque, of 300 random torques with rigid discs and of 101 torques of two stages that bend: pressure of lobes 2.9 %,
/// of output pins 2.0 %, force on a lobe 4.8 %, eccentric bearing 0.94 %, turn 0.7 %, lives of lobes 11 %.
void compare(const StageTable& table, const MeshLevel& exact) {
  using Level = MeshLevel;
  const double torque = exact.torque;
  const auto off = [](double figure, double truth) { return std::abs(figure / truth - 1); };
  RC_ASSERT(off(table.pressure_at(torque, &Level::lobe_pressure), exact.lobe_pressure) < 0.035);
  RC_ASSERT(off(table.pressure_at(torque, &Level::pin_pressure), exact.pin_pressure) < 0.03);
  RC_ASSERT(off(table.at(torque, &Level::lobe_force), exact.lobe_force) < 0.08);
  RC_ASSERT(off(table.at(torque, &Level::bearing_equivalent), exact.bearing_equivalent) < 0.012);
  RC_ASSERT(off(table.at(torque, &Level::rotation), exact.rotation) < 0.01);
  RC_ASSERT(off(table.life_at(torque, &Level::lobe_life), exact.lobe_life) < 0.14);
}

/// @param place  0 … 1
double torque_of(const StageTable& table, double place) {
  return std::min(table.reference_torque * 0.1 * std::pow(44.0, place), table.solved_to());
}

RC_GTEST_PROP(StageTableProperty, InterpolationCostsLittleOfRigidDiscs, ()) {
  const range::Stage& stage = **rc::gen::elementOf(stages());
  const StageTable table = *rigid_stage_table(stage);
  compare(table, *rigid_level(stage, torque_of(table, *rc::gen::inRange(0, 1000) / 1000.0)));
}

RC_GTEST_PROP(StageTableProperty, InterpolationCostsLittleOfDiscsThatBend, ()) {
  // A body takes a tenth of a second and more: one of them, at many torques.
  const range::Stage& stage = *stages()[7];
  static const contact::ElasticDisc disc = *elastic_disc_of(stage);
  static const StageTable table = *elastic_stage_table(stage, disc);
  compare(table, *elastic_level(stage, disc, torque_of(table, *rc::gen::inRange(0, 1000) / 1000.0)));
}

}  // namespace
}  // namespace lobewise::drive
