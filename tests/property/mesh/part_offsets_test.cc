// Units as made: first-order gap changes against moved geometry solved anew, and closed forms of their play.
#include "engine/contact/part_offsets.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/contact/elastic_disc.h"
#include "engine/mechanism/kinematics.h"
#include "tests/property/mesh/random_stage.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact;
using property::between;
using property::random_task;
using property::Task;

std::vector<double> scattered(int count, double most) {
  std::vector<double> values;
  for (int i = 0; i < count; ++i) values.push_back(between(-most, most));
  return values;
}

PartOffsets scattered_unit(const mechanism::StageGeometry& stage, double most) {
  PartOffsets unit;
  unit.roller_radial = scattered(stage.rollers(), most);
  unit.roller_tangential = scattered(stage.rollers(), most);
  unit.roller_radius = scattered(stage.rollers(), most);
  unit.pin_radial = scattered(stage.pins, most);
  unit.pin_tangential = scattered(stage.pins, most);
  unit.pin_radius = scattered(stage.pins, most);
  for (int d = 0; d < stage.discs; ++d) {
    unit.hole_radial.push_back(scattered(stage.pins, most));
    unit.hole_tangential.push_back(scattered(stage.pins, most));
    unit.hole_radius.push_back(scattered(stage.pins, most));
  }
  return unit;
}

/// What the first order leaves out falls with the square of the offset: the foot moves along the flank by s and the
/// gap by s^2 k / 2, k up to the curvature where the profile is tightest.
RC_GTEST_PROP(PartOffsets, FirstOrderIsTheSlopeOfMovedGeometry, ()) {
  Task task = random_task(false);
  auto& stage = task.model.stage;
  MeshSolver solver(task.model);
  solver.unload(task.crank_angle);
  const std::vector<DiscLoads> perfect = solver.discs();
  const double coarse = 1e-5 * stage.roller_radius;
  const auto worst = [&](const PartOffsets& unit) {
    solver.set_offsets(unit);
    solver.unload(task.crank_angle);
    double most = 0;
    for (std::size_t d = 0; d < perfect.size(); ++d)
      for (int k = 0; k < stage.rollers(); ++k) {
        const auto at = static_cast<std::size_t>(k);
        const double change = solver.discs()[d].ring.gap[at] - perfect[d].ring.gap[at];
        const double first =
            roller_gap_change(stage.shortening(), perfect[d].crank_angle - mechanism::roller_angle(stage, k),
                              unit.roller_radial[at], unit.roller_tangential[at], unit.roller_radius[at]);
        most = std::max(most, std::abs(change - first));
      }
    return most;
  };
  const PartOffsets unit = scattered_unit(stage, coarse);
  PartOffsets tenth = unit;
  for (auto* list : {&tenth.roller_radial, &tenth.roller_tangential, &tenth.roller_radius})
    for (double& value : *list) value *= 0.1;
  const double left = worst(unit), left_of_tenth = worst(tenth);
  RC_ASSERT(left < 0.02 * coarse);
  RC_ASSERT(left_of_tenth < 0.02 * left + 1e-15);
}

/// A larger pitch circle of all rollers is the profile modification dR with its sign turned: two ways to the same gaps.
RC_GTEST_PROP(PartOffsets, AllRollersOutwardIsALargerPitchCircle, ()) {
  Task task = random_task(false);
  auto& stage = task.model.stage;
  const double out = 1e-4 * stage.roller_radius;
  MeshSolver moved(task.model);
  PartOffsets unit;
  unit.roller_radial.assign(static_cast<std::size_t>(stage.rollers()), out);
  moved.set_offsets(unit);
  moved.unload(task.crank_angle);
  // The same flank (cut at R) meshes with rollers at R + out: a stage of that pitch radius whose cut stays at R.
  MeshModel larger = task.model;
  larger.stage.pitch_radius += out;
  larger.stage.radius_offset -= out;
  MeshSolver other(larger);
  other.unload(task.crank_angle);
  for (std::size_t d = 0; d < moved.discs().size(); ++d)
    for (std::size_t k = 0; k < moved.discs()[d].ring.gap.size(); ++k)
      RC_ASSERT(std::abs(moved.discs()[d].ring.gap[k] - other.discs()[d].ring.gap[k]) < 1e-9 * out + 1e-15);
}

MeshModel usual_model(int discs) {
  MeshModel model;
  auto& stage = model.stage;
  stage.lobes = 17;
  stage.pitch_radius = 0.08;
  stage.roller_radius = 0.007;
  stage.eccentricity = 0.003;
  stage.width = 0.014;
  stage.discs = discs;
  stage.pins = 10;
  stage.pin_circle_radius = 0.05;
  stage.pin_radius = 0.008;
  return model;
}

/// One roller alone out of its place in a ring with equal play everywhere: closed form of what a turn to contact takes.
/// A roller that is thicker by g and closes against a turn has play (gap - g)/|arm|; where that is the least of all, it
/// is the stage's play. Solved at a fifth of a micrometre, where the second order of the gap is 3e-4 of it.
TEST(PartOffsets, PlayOfOneMovedRoller) {
  MeshModel model = usual_model(1);
  auto& stage = model.stage;
  stage.roller_offset = 0.2e-6;  // the same gap at every roller
  const double phi = 0.3, K = stage.shortening();
  MeshSolver solver(model);
  for (int k = 0; k < stage.rollers(); ++k) {
    const auto at = static_cast<std::size_t>(k);
    const double x = phi - mechanism::roller_angle(stage, k);
    // arm = e N R sin x / S, S = R sqrt(1 + K^2 - 2 K cos x)
    const double D = std::sqrt(1 + K * K - 2 * K * std::cos(x));
    const double arm = stage.eccentricity * stage.lobes * std::sin(x) / D;
    if (std::abs(arm) < 0.5 * stage.eccentricity * stage.lobes) continue;  // the least play is elsewhere
    struct Move {
      double radial, tangential, radius, closes;
    };
    for (const Move& move :
         {Move{-0.1e-6, 0, 0, 0.1e-6 * (1 - K * std::cos(x)) / D}, Move{0, 0, 0.15e-6, 0.15e-6},
          Move{0, std::copysign(0.15e-6, std::sin(x)), 0, 0.15e-6 * K * std::abs(std::sin(x)) / D}}) {
      PartOffsets unit;
      for (auto* list : {&unit.roller_radial, &unit.roller_tangential, &unit.roller_radius})
        list->assign(static_cast<std::size_t>(stage.rollers()), 0);
      unit.roller_radial[at] = move.radial;
      unit.roller_tangential[at] = move.tangential;
      unit.roller_radius[at] = move.radius;
      solver.set_offsets({});
      const int direction = arm > 0 ? -1 : 1;  // a gap opens with arm times a turn counter-clockwise
      const double before = std::abs(solver.touch_rotation(phi, 0, direction));
      solver.set_offsets(unit);
      const double expected = std::min(before, (0.2e-6 - move.closes) / std::abs(arm));
      EXPECT_NEAR(std::abs(solver.touch_rotation(phi, 0, direction)), expected, 5e-4 * expected) << k;
      // The other way round the moved roller does not count.
      const double other = std::abs(solver.touch_rotation(phi, 0, -direction));
      solver.set_offsets({});
      EXPECT_NEAR(other, std::abs(solver.touch_rotation(phi, 0, -direction)), 1e-12) << k;
    }
  }
}

/// Where rollers press in the ideal pose the play turns its sign and stays small: between the overlap over the longest
/// lever and over a fifth of it.
TEST(PartOffsets, PressedUnitsHaveNegativePlay) {
  MeshModel model = usual_model(2);
  auto& stage = model.stage;
  stage.roller_offset = 1e-6;
  MeshSolver solver(model);
  PartOffsets thick;
  thick.roller_radius.assign(18, 2e-6);
  for (const double phi : {0.05, 0.9, 2.3}) {
    const double longest = stage.eccentricity * stage.lobes;
    solver.set_offsets(thick);
    for (const int direction : {-1, 1})
      for (const int disc : {0, 1}) {
        const double play = direction * solver.touch_rotation(phi, disc, direction);
        EXPECT_LE(play, -0.99 * 1e-6 / longest) << phi;
        EXPECT_GE(play, -1.1 * 1e-6 / (0.2 * longest)) << phi;
      }
  }
  PartOffsets scattered;  // one roller far out, wherever it stands
  for (std::size_t k = 0; k < 18; ++k) {
    scattered.roller_radius.assign(18, 0);
    scattered.roller_radius[k] = 20e-6;
    solver.set_offsets(scattered);
    for (const int direction : {-1, 1})
      EXPECT_LT(std::abs(solver.touch_rotation(0.4, 0, direction)), 20e-6 / (0.2 * 0.051) * 1.5) << k;
  }
}

/// Whatever the scatter, forces balance the torque, and a perfect unit comes back when the offsets are taken away.
RC_GTEST_PROP(PartOffsets, ForcesBalanceTheTorque, ()) {
  const Task task = random_task(true);
  const auto& stage = task.model.stage;
  MeshSolver solver(task.model);
  const double most = std::min(4e-6, 0.01 * std::min(stage.roller_radius, stage.pin_radius));
  solver.set_offsets(scattered_unit(stage, most));
  const double torque = 0.5 * task.rated;
  RC_PRE(solver.solve(Level::l2, task.crank_angle, torque) == Outcome::converged);
  // About the output's axis the eccentric, which holds each disc's centre, takes a part: the pins do not push along it.
  double sum = 0;
  for (const DiscLoads& disc : solver.discs())
    sum += disc.torque() + mechanism::cross(stage.eccentricity * disc.crank, disc.pin_resultant);
  RC_ASSERT(std::abs(sum - torque) < 1e-7 * torque);
  for (const DiscLoads& disc : solver.discs())
    for (std::size_t k = 0; k < disc.ring_force.size(); ++k)
      RC_ASSERT((disc.ring_force[k] > 0) == (disc.ring.gap[k] < 0));
}

}  // namespace
