#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/contact/mesh_solver.h"
#include "engine/drive/running_play.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

/// A drive whose last stage is cut with another pitch radius.
struct Recut {
  range::Frame frame;
  drive::Drive drive;

  Recut(double shift, std::optional<double> coldest,
        std::optional<range::Material> ring = range::Material::ductile_iron) {
    enquiry::Requirement requirement = stated(1200, 50 * kRpm);
    if (coldest) {
      requirement.ambient_low = *coldest;
      for (enquiry::RequirementLine& line : requirement.lines)
        if (line.path == "site.ambient_low") line.assumed = false;
    }
    drive::Build build = build_named("ring-224", 31);
    frame = build.frame();
    auto& stages = frame.stages;
    stages = {*build.stages[0].stage};
    stages[0].geometry.radius_offset += shift;
    stages[0].ring_material = ring;
    build.stages = {{&frame, stages.data()}};
    const auto assembled = drive::assemble(requirement, build, rigid_table);
    EXPECT_TRUE(assembled.ok());
    drive = *assembled;
  }
  [[nodiscard]] Finding judged() const { return finding(prove(drive, {.samples = 40, .in_time = false}), "clearance"); }
};

TEST(Clearance, AUnitThatOverlapsDoesNotHold) {
  const double cold = kZeroCelsius - 10;
  EXPECT_NE(Recut(0, cold).judged().verdict, Verdict::does_not_hold);
  for (const double shift : {10e-6, 20e-6, 40e-6}) {
    const Finding f = Recut(shift, cold).judged();
    EXPECT_EQ(f.verdict, Verdict::does_not_hold) << shift;
    EXPECT_LT(worst(f)->figure, 0);
  }
  // From 40 um on nothing is left even settled, and what that does is said.
  const Finding preloaded = Recut(40e-6, cold).judged();
  EXPECT_LT(preloaded.checks[0].figure, 0);
  EXPECT_NE(preloaded.answer.pattern.find("runs preloaded"), std::string::npos);
  EXPECT_TRUE(std::any_of(preloaded.notes.begin(), preloaded.notes.end(),
                          [](const Text& note) { return note.pattern.find("rollers carry") != std::string::npos; }));
}

TEST(Clearance, ColdThatNobodyStatedRefusesNothing) {
  Recut recut(20e-6, std::nullopt);
  recut.drive.requirement.ambient_low = kZeroCelsius - 30;
  const Finding f = recut.judged();
  ASSERT_LT(f.checks[2].figure, 0);
  ASSERT_GT(f.checks[0].figure, 0);
  EXPECT_EQ(f.verdict, Verdict::holds_if);
}

TEST(Clearance, WorseNeverGivesMorePlay) {
  double before = 1;
  for (const double coldest : {20.0, 0.0, -10.0, -25.0, -40.0}) {
    const double play = Recut(0, kZeroCelsius + coldest).judged().checks[2].figure;
    EXPECT_LT(play, before) << coldest;
    before = play;
  }
  // A ring that grows less than the disc inside it is tighter when both are warm, and looser in the cold.
  const Finding iron = Recut(0, kZeroCelsius - 10, range::Material::grey_iron).judged();
  const Finding same = Recut(0, kZeroCelsius - 10, range::Material::steel).judged();
  EXPECT_LT(iron.checks[0].figure, same.checks[0].figure);
  EXPECT_GT(iron.checks[1].figure, same.checks[1].figure);
  const Finding unknown = Recut(0, kZeroCelsius - 10, std::nullopt).judged();
  EXPECT_LT(unknown.checks[0].figure, same.checks[0].figure);
  EXPECT_LT(*unknown.checks[0].low, unknown.checks[0].figure);
}

TEST(Clearance, ATwoStageUnitIsAsTightAsItsTighterStage) {
  const range::Range& range = range::demo_range();
  const drive::Build pair = drive::all_builds(range).back();
  ASSERT_EQ(pair.stages.size(), 2u);
  const drive::BodyTemperatures warm{kZeroCelsius + 70, kZeroCelsius + 60};
  const auto alone = [&](std::size_t i) {
    drive::Build one = pair;
    one.stages = {pair.stages[i]};
    return drive::least_play(one, warm, {});
  };
  EXPECT_EQ(drive::least_play(pair, warm, {}), std::min(alone(0), alone(1)));
}

TEST(Clearance, WhereNoPlayIsLeftEveryRollerTouches) {
  // The claim behind the verdict, on the mesh itself: just above zero the unloaded disc touches nothing, well below
  // every roller presses.
  const Recut recut(0, std::nullopt);
  contact::MeshModel model;
  model.stage = recut.drive.build.last().geometry;
  const double closes = contact::room_for_growth(model.stage);
  const auto carrying = [&](double offset) {
    contact::MeshModel at = model;
    at.stage.radius_offset += offset;
    contact::MeshSolver solver(at);
    EXPECT_EQ(solver.solve(contact::Level::l2, 0.3, 1), contact::Outcome::converged);
    const auto& forces = solver.discs().front().ring_force;
    return std::count_if(forces.begin(), forces.end(), [](double force) { return force > 0; });
  };
  EXPECT_LE(carrying(closes - 1e-6), 4);
  EXPECT_GE(carrying(closes + 1e-6), 6);
  EXPECT_EQ(carrying(closes + 20e-6), model.stage.rollers());
}

}  // namespace
}  // namespace lobewise::evidence
