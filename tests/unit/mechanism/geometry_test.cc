#include <gtest/gtest.h>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"

namespace {
using namespace lobewise;
using namespace lobewise::mechanism;

StageGeometry seventeen() {
  StageGeometry stage;
  stage.lobes = 17;
  stage.pitch_radius = 0.080;
  stage.roller_radius = 0.007;
  stage.eccentricity = 0.003;
  stage.width = 0.014;
  stage.pins = 10;
  stage.pin_circle_radius = 0.050;
  stage.pin_radius = 0.008;
  return stage;
}

/// The one error of a stage that should have exactly one.
std::string only_message(const StageGeometry& stage) {
  const Errors errors = check_geometry(stage);
  return errors.size() == 1 ? errors[0].path + ": " + errors[0].message : "errors: " + std::to_string(errors.size());
}

TEST(Geometry, AcceptsASoundStage) { EXPECT_TRUE(check_geometry(seventeen()).empty()); }

TEST(Geometry, RefusesWhatCannotExistAndSaysTheLimit) {
  auto stage = seventeen();
  stage.lobes = 1;
  EXPECT_NE(only_message(stage).find("stage.lobes: must be at least 2"), std::string::npos);
  stage = seventeen();
  stage.eccentricity = 0.080 / 18;
  EXPECT_NE(only_message(stage).find("stage.eccentricity: must be below pitch radius / rollers = 4.44444 mm"),
            std::string::npos);
  stage = seventeen();
  stage.roller_radius = 0.0139;  // R sin(pi/18) = 13.8918 mm is tighter than the undercut limit 15.269 mm
  EXPECT_NE(only_message(stage).find("13.8919 mm, or neighbouring ring rollers overlap"), std::string::npos);
  stage = seventeen();
  stage.pin_radius = 0.0125;
  EXPECT_NE(only_message(stage).find("stage.pins: the output holes cut each other"), std::string::npos);
  stage = seventeen();
  stage.pin_circle_radius = 0.060;
  EXPECT_NE(only_message(stage).find("must be below 59 mm, or the output holes cut the lobe roots"), std::string::npos);
  stage = seventeen();
  stage.width = 0;
  EXPECT_NE(only_message(stage).find("stage.width: must be a length greater than zero"), std::string::npos);
  stage = seventeen();
  stage.eccentricity = 0.00435;  // close to the cusp: undercut before the rollers touch
  EXPECT_NE(only_message(stage).find("or the lobes are undercut"), std::string::npos);
  EXPECT_TRUE(check_bore(seventeen(), 0.030).empty());
  EXPECT_EQ(check_bore(seventeen(), 0.0391).size(), 1u);
}

TEST(Profile, DerivativesAgreeWithDifferences) {
  const Profile profile(seventeen());
  const double h = 1e-6;
  for (double t = 0.01; t < 0.4; t += 0.037) {
    const Vec2 numeric = (0.5 / h) * (profile.point(t + h) - profile.point(t - h));
    EXPECT_NEAR(norm(numeric - profile.point_derivative(t)), 0, 1e-9);
    const Vec2 turn = (0.5 / h) * (profile.inner_normal(t + h) - profile.inner_normal(t - h));
    EXPECT_NEAR(norm(turn) / norm(profile.point_derivative(t)), std::abs(profile.curvature(t)), 1e-5);
  }
}

TEST(Profile, OutlineReproducesAreaAndInertia) {
  const auto stage = seventeen();
  const auto points = outline(stage, 3200);
  double area = 0;
  double inertia = 0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Vec2 a = points[i];
    const Vec2 b = points[(i + 1) % points.size()];
    area += cross(a, b) / 2;
    inertia += cross(a, b) * (dot(a, a) + dot(a, b) + dot(b, b)) / 12;
  }
  const auto figures = profile_figures(stage);
  EXPECT_NEAR(area / figures.area, 1, 1.5e-7);
  // A polygon's error falls with the square of its point count.
  EXPECT_NEAR(inertia / figures.polar_inertia, 1, 1.5e-7);
}

TEST(Profile, ReliefKeepsTheBodyInsideBothTurnedProfiles) {
  auto stage = seventeen();
  stage.flank_relief = 2e-3;
  const BodyFlank flank(stage);
  EXPECT_NEAR(flank.point(0, 0).y, 0, 1e-15);                    // root corner lies on the axis of symmetry
  EXPECT_NEAR(flank.point(3, 1).x, flank.point(4, 0).x, 1e-14);  // lobes join
  const Vec2 tip = turned_back(flank.point(0, 0.5), unit(kPi / 17));
  EXPECT_NEAR(tip.y, 0, 1e-15);
  EXPECT_LT(tip.x, norm(Profile(seventeen()).point(kPi / 17)));  // the tip is cut shorter
}

TEST(Kinematics, ContactLiesOnTheFlankAndOnTheRoller) {
  const auto stage = seventeen();
  const Profile profile(stage);
  for (int k = 0; k < 18; ++k) {
    const double f = 0.7;
    const RollerMesh mesh = roller_mesh(stage, f, k);
    const DiscPose pose = ideal_pose(stage, f, 0);
    const Vec2 on_flank = pose.centre + turned(profile.point(mesh.profile_parameter), unit(pose.rotation));
    EXPECT_NEAR(norm(on_flank - mesh.contact), 0, 1e-15);
    EXPECT_NEAR(cross(mesh.contact - pose.centre, mesh.force_direction), mesh.lever_arm, 1e-15);
    EXPECT_NEAR(mesh.disc_rolling_speed,
                mesh.distance * (1 - 0.007 * profile.trace_curvature(mesh.profile_parameter)) / 17, 1e-12);
  }
}

// Common practice, no source: 17 lobes in 18 rollers give exactly 17:1, the output turns against the input, and a turn
// of the input shaft moves the disc on by one lobe.
TEST(Kinematics, SeventeenLobesGiveSeventeenToOne) {
  const auto stage = seventeen();
  EXPECT_EQ(stage.rollers(), 18);
  EXPECT_EQ(stage.ratio_ring_fixed(), -17);
  EXPECT_DOUBLE_EQ(output_rotation(stage, 2 * kPi), -2 * kPi / 17);
  EXPECT_DOUBLE_EQ(ideal_pose(stage, 2 * kPi, 0).rotation - ideal_pose(stage, 0, 0).rotation, -2 * kPi / 17);
  // One turn on, roller k meets the next lobe: the profile parameter grows by exactly one lobe.
  EXPECT_NEAR(roller_mesh(stage, 2 * kPi, 5).profile_parameter - roller_mesh(stage, 0, 5).profile_parameter,
              2 * kPi / 17, 1e-15);
}

}  // namespace
