// What must hold for every stage, and facts found on the way (docs/theory/mesh.md), each as a test.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numeric>

#include "engine/contact/mesh_solver.h"
#include "engine/contact/mesh_stiffness.h"
#include "engine/contact/thermal_play.h"
#include "engine/mechanism/kinematics.h"
#include "engine/mechanism/profile.h"
#include "tests/property/mesh/random_stage.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact;
using mechanism::cross;
using mechanism::norm;
using mechanism::Vec2;
using property::between;
using property::random_share;
using property::random_task;
using property::Task;

constexpr Level kLevels[] = {Level::l1, Level::l1f, Level::l2, Level::l3};

double largest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }

/// Balance worked out again from the forces and the poses alone.
void check_balance(const MeshSolver& solver, Level level, double torque, double phi) {
  const auto& stage = solver.model().stage;
  const double reference = std::abs(torque) / stage.pin_circle_radius;
  const bool pins = level == Level::l2 || level == Level::l3;
  double flange = pins ? torque : 0;
  for (const DiscLoads& disc : solver.discs()) {
    const Vec2 centre = stage.eccentricity * mechanism::unit(disc.crank_angle) + disc.shift.u;
    Vec2 force;
    double moment = pins ? 0 : torque / stage.discs;
    for (int k = 0; k < stage.rollers(); ++k) {
      const auto at = static_cast<std::size_t>(k);
      RC_ASSERT(disc.ring_force[at] >= 0);  // no tension
      RC_ASSERT((disc.ring_force[at] > 0) == (disc.ring.gap[at] < 0));
      const Vec2 n{disc.ring.normal_x[at], disc.ring.normal_y[at]};
      const Vec2 contact =
          stage.pitch_radius * mechanism::unit(mechanism::roller_angle(stage, k)) + stage.roller_radius * n;
      force += disc.ring_force[at] * n;
      moment += disc.ring_force[at] * cross(contact - centre, n);
    }
    for (int j = 0; pins && j < stage.pins; ++j) {
      const double angle = 2 * kPi * j / stage.pins - phi / stage.lobes;
      const Vec2 pin = stage.pin_circle_radius * mechanism::unit(angle + solver.output_rotation());
      const Vec2 hole = stage.pin_circle_radius * mechanism::unit(angle + disc.shift.rotation);
      const Vec2 apart = pin - centre - hole;
      const double Q = disc.pin_force[static_cast<std::size_t>(j)];
      RC_ASSERT(Q >= 0);
      const Vec2 v = (1 / norm(apart)) * apart;
      force += Q * v;
      moment += Q * cross(hole, v);
      flange -= Q * cross(pin, v);
    }
    RC_ASSERT(norm(force + disc.bearing_force()) <= 1e-7 * reference);
    RC_ASSERT(std::abs(moment) <= 1e-7 * reference * stage.pitch_radius);
    if (level == Level::l1f || level == Level::l3) {
      const auto& support = solver.model().support;
      const double away = norm(disc.shift.u);
      const double pressed = std::max(away - support.clearance, 0.0);
      const Vec2 bearing = away > 0 ? -(support.stiffness * pressed / away) * disc.shift.u : Vec2{};
      RC_ASSERT(norm(bearing - disc.bearing_force()) <= 1e-7 * reference);
    } else {
      RC_ASSERT(norm(disc.shift.u) == 0);
    }
  }
  RC_ASSERT(std::abs(flange) <= 1e-7 * reference * stage.pitch_radius);
}

RC_GTEST_PROP(Equilibrium, ForcesAndMomentsBalance, ()) {
  const Task task = random_task(true);
  const double torque = random_share() * task.rated;
  MeshSolver solver(task.model);
  for (const Level level : kLevels) {
    const Outcome outcome = solver.solve(level, task.crank_angle, torque);
    RC_ASSERT(outcome == Outcome::converged);
    check_balance(solver, level, torque, task.crank_angle);
  }
}

RC_GTEST_PROP(Equilibrium, DoesNotDependOnTheWay, ()) {
  const Task task = random_task(true);
  MeshSolver warm(task.model);
  MeshSolver cold(task.model);
  const double torque = task.rated * between(0.05, 1);
  for (const Level level : kLevels) {
    RC_ASSERT(warm.solve(level, task.crank_angle - between(-0.2, 0.2), torque) == Outcome::converged);
    RC_ASSERT(warm.solve(level, task.crank_angle, torque) == Outcome::converged);
    RC_ASSERT(cold.solve(level, task.crank_angle, torque) == Outcome::converged);
    const auto& a = warm.discs()[0].ring_force;
    const auto& b = cold.discs()[0].ring_force;
    for (std::size_t k = 0; k < a.size(); ++k)
      RC_ASSERT(std::abs(a[k] - b[k]) <= 1e-6 * torque / task.model.stage.pitch_radius);
  }
}

// Turning the crank by one ring pitch hands every roller's load to the next one (l1 and l1f).
RC_GTEST_PROP(Symmetry, RepeatsWithTheRingPitch, ()) {
  const Task task = random_task(true);
  const double torque = task.rated * between(0.05, 1);
  MeshSolver solver(task.model);
  const int Z = task.model.stage.rollers();
  for (const Level level : {Level::l1, Level::l1f}) {
    RC_ASSERT(solver.solve(level, task.crank_angle, torque) == Outcome::converged);
    const auto first = solver.discs()[0].ring_force;
    solver.forget();
    RC_ASSERT(solver.solve(level, task.crank_angle + 2 * kPi / Z, torque) == Outcome::converged);
    const auto& second = solver.discs()[0].ring_force;
    for (int k = 0; k < Z; ++k)
      RC_ASSERT(std::abs(first[static_cast<std::size_t>(k)] - second[static_cast<std::size_t>((k + 1) % Z)]) <=
                1e-7 * largest(first));
  }
}

RC_GTEST_PROP(Rotation, GrowsWithTorque, ()) {
  const Task task = random_task(true);
  MeshSolver solver(task.model);
  for (const Level level : kLevels) {
    double last = -1;
    for (const double share : {-1.0, -0.2, -0.01, 0.01, 0.2, 1.0}) {
      const auto rotation = rotation_under(solver, level, task.crank_angle, share * task.rated);
      RC_ASSERT(rotation.ok());
      RC_ASSERT(*rotation > last);
      last = *rotation;
    }
  }
}

// Equal stiffness and no clearance: F_k = T l_k / sum l_j^2, l_k = max(-arm_k, 0).
RC_GTEST_PROP(RigidLimit, MeetsTheClosedForm, ()) {
  Task task = random_task(false);
  task.model.ring_law.kind = LawKind::linear;
  task.model.ring_law.linear_stiffness = 1e15;
  const double torque = task.rated * between(0.05, 1);
  MeshSolver solver(task.model);
  RC_ASSERT(solver.solve(Level::l1, task.crank_angle, torque) == Outcome::converged);
  const auto& stage = task.model.stage;
  for (const DiscLoads& disc : solver.discs()) {
    double sum = 0;
    for (int k = 0; k < stage.rollers(); ++k) {
      const double lever = std::max(-mechanism::roller_mesh(stage, disc.crank_angle, k).lever_arm, 0.0);
      sum += lever * lever;
    }
    for (int k = 0; k < stage.rollers(); ++k) {
      const double lever = std::max(-mechanism::roller_mesh(stage, disc.crank_angle, k).lever_arm, 0.0);
      RC_ASSERT(std::abs(disc.ring_force[static_cast<std::size_t>(k)] - torque / stage.discs * lever / sum) <=
                1e-5 * largest(disc.ring_force));
    }
  }
}

RC_GTEST_PROP(Gaps, AreZeroInTheIdealPoseWithoutClearance, ()) {
  const Task task = random_task(false);
  MeshSolver solver(task.model);
  solver.unload(task.crank_angle);
  for (const DiscLoads& disc : solver.discs())
    for (const double gap : disc.ring.gap) RC_ASSERT(std::abs(gap) <= 1e-17);
  RC_ASSERT(solver.touch_rotation(task.crank_angle, 0, 1) == 0);
  RC_ASSERT(solver.touch_rotation(task.crank_angle, 0, -1) == 0);
}

// First order: gap = dr - dR (1 - K cos x) / sqrt(1 + K^2 - 2 K cos x), x = f - th.
RC_GTEST_PROP(Gaps, FollowTheFirstOrderFormula, ()) {
  Task task = random_task(false);
  auto& stage = task.model.stage;
  const double scale = 1e-5 * stage.eccentricity;
  stage.roller_offset = between(0, 1) * scale;
  stage.radius_offset = -between(0, 1) * scale;
  MeshSolver solver(task.model);
  solver.unload(task.crank_angle);
  const double K = stage.shortening();
  for (int k = 0; k < stage.rollers(); ++k) {
    const double cosine = std::cos(task.crank_angle - mechanism::roller_angle(stage, k));
    const double expected =
        stage.roller_offset - stage.radius_offset * (1 - K * cosine) / std::sqrt(1 + K * K - 2 * K * cosine);
    RC_ASSERT(std::abs(solver.discs()[0].ring.gap[static_cast<std::size_t>(k)] - expected) <= 1e-2 * scale);
  }
}

// Gaps against a search that knows nothing of derivatives: distance of the roller centre to the trace, sampled densely.
RC_GTEST_PROP(Gaps, AreTheSmallestDistance, ()) {
  const Task task = random_task(true);
  auto stage = task.model.stage;
  stage.flank_relief = 0;
  RingGapFinder finder(stage);
  RingGaps gaps(stage.rollers());
  finder.set_crank(task.crank_angle);
  const DiscShift shift{{between(-2e-5, 2e-5), between(-2e-5, 2e-5)}, between(-1, 1) * 2e-5 / stage.pitch_radius};
  finder.evaluate(shift, gaps);
  const auto pose = mechanism::ideal_pose(stage, task.crank_angle, 0);
  const int k = property::whole(0, stage.rollers());
  const mechanism::Profile profile(stage);
  // Outside the centre of curvature of a root a roller has two feet, and either may be taken: such a gap is wide open.
  RC_PRE(std::abs(profile.trace_curvature(0)) * 1e-4 < 0.5);
  const double t = mechanism::roller_angle(stage, k) + task.crank_angle / stage.lobes;
  const Vec2 q = mechanism::turned_back(
      stage.pitch_radius * mechanism::unit(mechanism::roller_angle(stage, k)) - pose.centre - shift.u,
      mechanism::unit(pose.rotation + shift.rotation));
  double least = 1;
  double low = t - kPi / stage.lobes;
  double high = t + kPi / stage.lobes;
  double best = t;
  for (int round = 0; round < 12; ++round) {
    const double step = (high - low) / 100;
    for (int i = 0; i <= 100; ++i) {
      const double distance = norm(q - profile.trace(low + i * step));
      if (distance < least) {
        least = distance;
        best = low + i * step;
      }
    }
    low = best - 2 * step;
    high = best + 2 * step;
  }
  const double gap = gaps.gap[static_cast<std::size_t>(k)];
  const double inside = gap - stage.roller_offset > 0 ? 1 : -1;
  RC_ASSERT(std::abs(gap - (inside * least + stage.roller_offset)) <= 1e-12);
}

RC_GTEST_PROP(Laws, InverseUndoesTheApproach, ()) {
  LawSettings settings;
  settings.kind = *rc::gen::element(LawKind::palmgren, LawKind::log, LawKind::linear);
  settings.multiplier = between(0.2, 4);
  settings.extra_compliance = property::coin() ? std::pow(10, between(-12, -7)) : 0;
  settings.depth = between(0.002, 0.1);
  const double roller = between(0.001, 0.03);
  const ContactLaw law(settings, Elastic{}, between(0.003, 0.1), roller);
  const double radius = roller * between(0.3, 20);
  const double force = std::min(std::pow(10, between(-9, 6)), 5 * law.limit_force(radius));
  const double delta = law.approach(force, radius);
  const ContactForce back = law.force(delta, radius);
  RC_ASSERT(std::abs(back.force / force - 1) <= 1e-12);
  const double step = 1e-5;
  const double slope =
      2 * step * force / (law.approach(force * (1 + step), radius) - law.approach(force * (1 - step), radius));
  RC_ASSERT(std::abs(back.stiffness / slope - 1) <= 1e-5);
}

/// 17 lobes, 18 rollers; clearances as asked.
MeshModel seventeen(double clearance) {
  MeshModel model;
  model.stage = {17, 0.080, 0.007, 0.003, 0.014, 2, 10, 0.050, 0.008, clearance, clearance, 0, 0};
  return model;
}

/// Rotation of disc `disc` over a revolution of 180 crank angles, less its mean; l1.
std::vector<double> rotation_error(const MeshModel& model, double torque, int disc) {
  MeshSolver solver(model);
  std::vector<double> error;
  for (int i = 0; i < 180; ++i) {
    EXPECT_EQ(solver.solve(Level::l1, 2 * kPi * i / 180, torque), Outcome::converged);
    error.push_back(solver.discs()[static_cast<std::size_t>(disc)].shift.rotation);
  }
  const double mean = std::accumulate(error.begin(), error.end(), 0.0) / static_cast<double>(error.size());
  for (double& value : error) value -= mean;
  return error;
}

double correlation(const std::vector<double>& a, const std::vector<double>& b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0) /
         std::sqrt(std::inner_product(a.begin(), a.end(), a.begin(), 0.0) *
                   std::inner_product(b.begin(), b.end(), b.begin(), 0.0));
}

TEST(Facts, TwoDiscsWithOddLobesMeshInPhaseWithEvenLobesAgainstEachOther) {
  auto model = seventeen(0);
  EXPECT_NEAR(correlation(rotation_error(model, 600, 0), rotation_error(model, 600, 1)), 1, 1e-6);
  model.stage.lobes = 6;
  model.stage.eccentricity = 0.007;
  // Half a period apart: the first harmonic opposes, what is left of the correlation are even harmonics.
  EXPECT_LT(correlation(rotation_error(model, 600, 0), rotation_error(model, 600, 1)), -0.8);
}

/// Largest change of the force on a roller between phi and one ring pitch on, share of the largest force; l3.
double broken_symmetry(const MeshModel& model) {
  MeshSolver solver(model);
  const int Z = model.stage.rollers();
  double most = 0;
  for (int i = 0; i < 10; ++i) {
    const double phi = 0.1 * i;
    EXPECT_EQ(solver.solve(Level::l3, phi, 600), Outcome::converged);
    const auto first = solver.discs()[0].ring_force;
    EXPECT_EQ(solver.solve(Level::l3, phi + 2 * kPi / Z, 600), Outcome::converged);
    const auto& second = solver.discs()[0].ring_force;
    for (int k = 0; k < Z; ++k)
      most =
          std::max(most, std::abs(first[static_cast<std::size_t>(k)] - second[static_cast<std::size_t>((k + 1) % Z)]) /
                             largest(first));
  }
  return most;
}

TEST(Facts, OutputPinsBreakTheSymmetryUnlessAMultipleOfTheLobes) {
  MeshModel model;
  model.stage = {6, 0.050, 0.007, 0.0045, 0.010, 1, 8, 0.028, 0.003};
  const double broken = broken_symmetry(model);
  EXPECT_GT(broken, 1e-3);
  EXPECT_LT(broken, 0.1);
  model.stage.pins = 6;
  EXPECT_LT(broken_symmetry(model), 1e-8);
}

constexpr int kPitchAngles = 64;

/// Level l1 at crank angles over one ring pitch, two discs.
template <class Look>
void over_a_pitch(const MeshModel& model, double torque, const Look& look) {
  MeshSolver solver(model);
  for (int i = 0; i < kPitchAngles; ++i) {
    ASSERT_EQ(solver.solve(Level::l1, 2 * kPi / model.stage.rollers() * i / kPitchAngles, torque), Outcome::converged);
    look(solver);
  }
}

TEST(Facts, HalfOfTheLobesCarryWithoutClearanceAboutAThirdWithSomeMicrometres) {
  const auto share = [](double clearance) {
    double carrying = 0;
    over_a_pitch(seventeen(clearance), 600, [&](const MeshSolver& solver) {
      for (const DiscLoads& disc : solver.discs())
        for (const double force : disc.ring_force) carrying += force > 0 ? 1 : 0;
    });
    return carrying / (kPitchAngles * 2 * 17);
  };
  EXPECT_NEAR(share(0), 0.5, 0.04);
  EXPECT_NEAR(share(4e-6), 0.33, 0.05);
}

TEST(Facts, FiveTimesTheTorqueDoublesThePeakStress) {
  const auto peak = [](double torque) {
    double most = 0;
    over_a_pitch(seventeen(4e-6), torque, [&](const MeshSolver& solver) {
      for (const DiscLoads& disc : solver.discs())
        for (int k = 0; k < 18; ++k) most = std::max(most, solver.ring_pressure(disc, k));
    });
    return most;
  };
  EXPECT_NEAR(peak(3000) / peak(600), 2.05, 0.15);  // below sqrt(5) = 2.24, because more lobes join
}

// 800 points a lobe: a polygon stays within half a micrometre, a tenth of what rated contacts give; 40 points miss by
// more than all of it and would invent forces.
TEST(Facts, OutlineNeedsAbout800PointsPerLobe) {
  const auto model = seventeen(0);
  const mechanism::Profile profile(model.stage);
  const auto worst = [&](int points) {
    const auto polygon = mechanism::outline(model.stage, points);
    double most = 0;
    for (int i = 0; i < points; ++i) {
      const auto at = static_cast<std::size_t>(i);
      const Vec2 middle = 0.5 * (polygon[at] + polygon[at + 1]);
      most = std::max(most, norm(middle - profile.point(2 * kPi / 17 * (i + 0.5) / points)));
    }
    return most;
  };
  EXPECT_LT(worst(800), 5e-7);
  EXPECT_GT(worst(40), 1e-5);
}

RC_GTEST_PROP(MeshProperty, LeastPlayIsTheSmallestGapOfTheIdealPose, ()) {
  // Closed form of first order against the gaps themselves, at many crank angles; either sign of the clearances.
  Task task = random_task(true);
  mechanism::StageGeometry stage = task.model.stage;
  stage.radius_offset = between(-4e-5, 2e-5);
  stage.roller_offset = between(-2e-5, 2e-5);
  RC_PRE(mechanism::check_geometry(stage).empty());
  RingGapFinder finder(stage);
  RingGaps gaps(stage.rollers());
  double least = 1;
  for (int i = 0; i < 40; ++i) {
    finder.set_crank(2 * kPi * i / (40.0 * stage.rollers()));
    finder.evaluate({}, gaps);
    least = std::min(least, *std::min_element(gaps.gap.begin(), gaps.gap.end()));
  }
  const double first_order = least_play(stage, stage.radius_offset).least();
  // The second order, by the curvature of the trace; and the least place falls between two crank angles.
  const double shift = std::abs(stage.radius_offset) + stage.flank_relief * stage.pitch_radius;
  const double K = stage.shortening();
  const double root = std::abs(1 - K * stage.rollers()) / ((1 - K) * (1 - K) * stage.pitch_radius);
  const double second = shift * shift * std::max(1 / mechanism::roller_radius_limit(stage), root);
  RC_ASSERT(least >= first_order - second - 1e-9);
  RC_ASSERT(least <= first_order + second + 0.02 * shift + 1e-9);
}

RC_GTEST_PROP(MeshProperty, AWarmDiscIsAProfileOfALargerPitchRadius, ()) {
  // Grown bodies against the offset that stands for them: ring, rollers, eccentric and profile multiplied by their own
  // growth, the gaps solved again.
  Task task = random_task(true);
  const mechanism::StageGeometry& stage = task.model.stage;
  const double disc_temperature = kDrawingTemperature + between(-40, 80);
  const double ring_temperature = disc_temperature - between(-10, 30);
  const double disc = 1 + 11.5e-6 * (disc_temperature - kDrawingTemperature);
  const double ring = 1 + 10.5e-6 * (ring_temperature - kDrawingTemperature);
  mechanism::StageGeometry grown = stage;
  grown.pitch_radius *= ring;
  grown.roller_radius *= disc;
  grown.eccentricity *= disc;
  grown.roller_offset = disc * stage.cut_roller_radius() - grown.roller_radius;
  grown.radius_offset = disc * stage.cut_pitch_radius() - grown.pitch_radius;
  mechanism::StageGeometry offset = stage;
  offset.radius_offset = warm_radius_offset<double>(stage.radius_offset, stage.pitch_radius, 11.5e-6, disc_temperature,
                                                    10.5e-6, ring_temperature, kDrawingTemperature);
  RC_PRE(mechanism::check_geometry(grown).empty() && mechanism::check_geometry(offset).empty());
  const double size = std::abs(offset.radius_offset) + std::abs(stage.radius_offset) + std::abs(stage.roller_offset) +
                      stage.flank_relief * stage.pitch_radius;
  RC_ASSERT(std::abs(least_play(grown, grown.radius_offset).least() -
                     least_play(offset, offset.radius_offset).least()) < 0.003 * size);
}

}  // namespace
