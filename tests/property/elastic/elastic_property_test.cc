// What must hold for every elastic disc, and facts about the model (docs/theory/elastic.md), each as a test.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/contact/elastic/stage_data.h"
#include "engine/contact/elastic_disc.h"
#include "engine/mechanism/kinematics.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact;
using mechanism::cross;
using mechanism::norm;
using mechanism::unit;
using mechanism::Vec2;

#ifdef NDEBUG
constexpr int kStages = 6;
#else
constexpr int kStages = 2;  // unoptimised: a smaller sample
#endif

/// Stages of different kind: {lobes, R, r, e, b, discs, pins, Rw, rw, clearance of the hole, dr, dR, relief}.
ElasticModel stage(int number) {
  static const mechanism::StageGeometry kGeometry[] = {
      {17, 0.080, 0.007, 0.003, 0.014, 1, 10, 0.050, 0.008},
      {11, 0.060, 0.007, 0.0034, 0.012, 1, 8, 0.036, 0.006, 1e-5, 4e-6, -6e-6},
      {6, 0.050, 0.007, 0.0045, 0.010, 1, 6, 0.026, 0.004, 1.2e-5, 6e-6, -6e-6},
      {29, 0.095, 0.005, 0.0022, 0.016, 1, 10, 0.060, 0.009, 1e-5, 4e-6, -4e-6, 5e-5},
      {43, 0.105, 0.004, 0.0018, 0.016, 1, 12, 0.064, 0.009},
      {24, 0.090, 0.006, 0.0025, 0.020, 1, 8, 0.058, 0.010},
  };
  static const double kBore[] = {0.028, 0.018, 0.012, 0.038, 0.040, 0.036};
  ElasticModel model;
  model.stage = kGeometry[number];
  model.bore_radius = kBore[number];
  model.rollers = {13, 0.16 * model.bore_radius, number % 2 ? 4e-6 : 0, 0.1, 0};
  model.pin_core_radius = number % 3 ? 0.5 * model.stage.pin_radius : 0;
  model.table = false;
  return model;
}

/// Torque of one disc that presses the lobes with about 1 GPa.
double rated(const ElasticModel& model) {
  const auto& s = model.stage;
  const double force = 1e18 * kPi * s.roller_radius / 2 * s.width / contact_modulus(model.material, model.material);
  return force * s.eccentricity * s.lobes * s.rollers() / 6;
}

ElasticSolver solver_of(const ElasticModel& model) {
  const auto disc = ElasticDisc::build(model);
  EXPECT_TRUE(disc.ok()) << disc.errors()[0].message;
  return ElasticSolver(*disc);
}

double largest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }

double difference(const std::vector<double>& a, const std::vector<double>& b) {
  double most = 0;
  for (std::size_t i = 0; i < a.size(); ++i) most = std::max(most, std::abs(a[i] - b[i]));
  return most / largest(b);
}

TEST(Elastic, ForcesBalance) {
  for (int number = 0; number < kStages; ++number) {
    const ElasticModel model = stage(number);
    const auto& s = model.stage;
    ElasticSolver solver = solver_of(model);
    for (const double torque : {0.02 * rated(model), rated(model), -2 * rated(model)}) {
      ASSERT_EQ(solver.solve(0.7, torque), Outcome::converged) << number << " " << torque;
      const ElasticLoads& loads = solver.discs()[0];
      const double reference = std::abs(torque) / s.pin_circle_radius;
      const Vec2 centre = s.eccentricity * unit(0.7) + loads.shift.u;
      Vec2 force;
      double moment = 0, flange = torque;
      for (std::size_t i = 0; i < loads.bearing_force.size(); ++i)
        force += loads.bearing_force[i] * unit(0.1 + 2 * kPi * static_cast<double>(i) / 13);
      for (int k = 0; k < s.rollers(); ++k) {
        EXPECT_GE(loads.ring_force[k], 0);
        moment += loads.ring_force[k] * mechanism::roller_mesh(s, 0.7, k).lever_arm;  // ideal arms
      }
      EXPECT_NEAR(moment, loads.ring_moment, 0.01 * std::abs(torque));
      moment = loads.ring_moment;
      force += loads.ring_resultant;
      for (int j = 0; j < s.pins; ++j) {
        const double angle = 2 * kPi * j / s.pins - 0.7 / s.lobes;
        const Vec2 pin = s.pin_circle_radius * unit(angle + solver.output_rotation());
        const Vec2 hole = s.pin_circle_radius * unit(angle + loads.shift.rotation);
        const Vec2 apart = pin - centre - hole;
        const Vec2 v = (1 / norm(apart)) * apart;
        force += loads.pin_force[j] * v;
        moment += loads.pin_force[j] * cross(hole, v);
        flange -= loads.pin_force[j] * cross(pin, v);
      }
      EXPECT_LT(norm(force), 1e-6 * reference) << number;
      EXPECT_LT(std::abs(moment), 1e-6 * std::abs(torque)) << number;
      EXPECT_LT(std::abs(flange), 1e-6 * std::abs(torque)) << number;
      EXPECT_LT(solver.residual(), 1e-6);
    }
  }
}

TEST(Elastic, FlexibilityIsSymmetric) {
  // Within 0.5 % of the largest entry, the bound of the study.
  for (int number = 0; number < kStages; ++number) {
    const ElasticModel model = stage(number);
    const auto disc = ElasticDisc::build(model);
    ASSERT_TRUE(disc.ok());
    const auto& body = disc->data().bodies[0];
    std::vector<elastic::SurfacePoint> points;
    for (int i = 0; i < 8; ++i) {
      points.push_back(body.on_flank(0.1 + 0.83 * i));
      points.push_back(body.on_hole(i % model.stage.pins, 1.1 * i));
      points.push_back(body.on_bore(0.05 + 0.7 * i));
    }
    elastic::Flexibility flexibility(points);
    std::vector<int> all(points.size());
    std::iota(all.begin(), all.end(), 0);
    body.fill(flexibility, all, working_depth(model));
    double most = 0, worst = 0;
    for (int i = 0; i < flexibility.size(); ++i)
      for (int j = 0; j < flexibility.size(); ++j) {
        most = std::max(most, std::abs(flexibility.normal(i, j)));
        worst = std::max(worst, std::abs(flexibility.normal(i, j) - flexibility.normal(j, i)));
      }
    EXPECT_LT(worst, 0.005 * most) << number;
  }
}

TEST(Elastic, ChangeOverDepthCancels) {
  // Local law and body hand over at the depth h: in plane strain throughout the sum must not know it.
  for (int number = 0; number < std::min(kStages, 3); ++number) {
    ElasticModel model = stage(number);
    model.body = BodyState::plane_strain;
    model.bore = BoreModel::mean;
    model.pin_core_radius = 0.5 * model.stage.pin_radius;
    std::vector<double> reference;
    for (const double depth : {0.5e-3, 5e-3, 50e-3}) {
      model.depth = depth;
      ElasticSolver solver = solver_of(model);
      ASSERT_EQ(solver.solve(0.3, rated(model)), Outcome::converged) << depth;
      if (reference.empty()) reference = solver.discs()[0].ring_force;
      EXPECT_LT(difference(solver.discs()[0].ring_force, reference), 1e-6) << number << " " << depth;
    }
  }
}

TEST(Elastic, RecommendedMeshAndTableAreFineEnough) {
  for (int number = 0; number < kStages; ++number) {
    ElasticModel model = stage(number);
    ElasticSolver direct = solver_of(model);
    model.table = true;
    ElasticSolver table = solver_of(model);
    model.table = false;
    model.layers = 4;
    model.intervals_per_lobe = model.stage.lobes > 30 ? 12 : 16;
    ElasticSolver fine = solver_of(model);
    for (const double angle : {0.3, 1.7}) {
      for (ElasticSolver* solver : {&direct, &table, &fine})
        ASSERT_EQ(solver->solve(angle, rated(model)), Outcome::converged);
      const ElasticLoads &a = direct.discs()[0], &b = table.discs()[0], &c = fine.discs()[0];
      EXPECT_LT(difference(a.ring_force, c.ring_force), 0.003) << number;
      EXPECT_LT(difference(a.pin_force, c.pin_force), 0.002) << number;
      EXPECT_LT(difference(b.ring_force, a.ring_force), 0.005) << number;
      EXPECT_LT(difference(b.pin_force, a.pin_force), 0.004) << number;
      EXPECT_NEAR(table.output_rotation() / fine.output_rotation(), 1, 0.002) << number;
    }
  }
}

TEST(Elastic, StiffBodiesShareAsTheRigidLevels) {
  // Springs in series with every contact, a thousand times softer than disc and contacts: the body's own flexibility no
  // longer counts and the rigid level l2 with linear contacts must come out; without output pins l1.
  for (int number = 0; number < std::min(kStages, 4); ++number) {
    ElasticModel model = stage(number);
    model.stage.hole_clearance = model.stage.roller_offset = model.stage.radius_offset = model.stage.flank_relief = 0;
    model.bore = BoreModel::mean;
    model.ring_compliance = 2e-6;
    model.pin_compliance = 3e-6;
    for (const bool pins : {true, false}) {
      model.torque_by_pins = pins;
      ElasticSolver elastic = solver_of(model);
      MeshModel rigid_model;
      rigid_model.stage = model.stage;
      rigid_model.ring_law.kind = rigid_model.pin_law.kind = LawKind::linear;
      rigid_model.ring_law.linear_stiffness = 1 / model.ring_compliance;
      rigid_model.pin_law.linear_stiffness = 1 / model.pin_compliance;
      MeshSolver rigid(rigid_model);
      const double torque = 1e-3 * rated(model);
      ASSERT_EQ(elastic.solve(0.4, torque), Outcome::converged);
      ASSERT_EQ(rigid.solve(pins ? Level::l2 : Level::l1, 0.4, torque), Outcome::converged);
      EXPECT_LT(difference(elastic.discs()[0].ring_force, rigid.discs()[0].ring_force), 0.01) << number;
      EXPECT_NEAR(elastic.discs()[0].shift.rotation / rigid.discs()[0].shift.rotation, 1, 0.01) << number;
      if (pins) {
        EXPECT_LT(difference(elastic.discs()[0].pin_force, rigid.discs()[0].pin_force), 0.01) << number;
      }
    }
  }
}

TEST(Elastic, MirrorImageCarriesTheMirrorLoad) {
  // Crank, torque and cage mirrored about the x axis: roller k changes place with roller Z - k.
  for (int number = 0; number < std::min(kStages, 4); ++number) {
    ElasticModel model = stage(number);
    ElasticSolver left = solver_of(model);
    model.rollers.phase = -model.rollers.phase;
    ElasticSolver right = solver_of(model);
    const double torque = rated(model);
    ASSERT_EQ(left.solve(0.9, torque), Outcome::converged);
    ASSERT_EQ(right.solve(-0.9, -torque), Outcome::converged);
    const auto &a = left.discs()[0].ring_force, &b = right.discs()[0].ring_force;
    const std::size_t Z = a.size();
    for (std::size_t k = 0; k < Z; ++k) EXPECT_NEAR(b[(Z - k) % Z], a[k], 2e-3 * largest(a)) << number << " " << k;
    EXPECT_NEAR(right.output_rotation(), -left.output_rotation(), 1e-3 * std::abs(left.output_rotation()));
  }
}

TEST(Elastic, WarmAndColdSolutionsAgree) {
  ElasticModel model = stage(1);
  model.table = true;
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok());
  ElasticSolver warm(*disc);
  const double torque = rated(model);
  for (int i = 0; i < 24; ++i) {
    const double angle = 0.4 * i, load = torque * (i % 3 == 2 ? -0.03 : 0.2 + 0.1 * i);
    ASSERT_EQ(warm.solve(angle, load), Outcome::converged) << i;
    ElasticSolver cold(*disc);
    ASSERT_EQ(cold.solve(angle, load), Outcome::converged) << i;
    EXPECT_LT(difference(warm.discs()[0].ring_force, cold.discs()[0].ring_force), 1e-4) << i;
  }
}

TEST(Elastic, NoTorqueNoForce) {
  ElasticModel model = stage(1);  // with clearances everywhere
  ElasticSolver solver = solver_of(model);
  ASSERT_EQ(solver.solve(0.3, 0), Outcome::converged);
  for (const double force : solver.discs()[0].ring_force) EXPECT_EQ(force, 0);
}

TEST(Elastic, DiscsOfAStageShareTheTorque) {
  // Three discs, the second and third with holes shifted against the lobes: mirror images of one body.
  ElasticModel model = stage(0);
  model.stage.discs = 3;
  model.table = true;
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok());
  EXPECT_EQ(disc->data().bodies.size(), 2u);
  ElasticSolver solver(*disc);
  const double torque = 3 * rated(model);
  ASSERT_EQ(solver.solve(0.2, torque), Outcome::converged);
  double sum = 0;
  for (const ElasticLoads& loads : solver.discs()) {
    EXPECT_NEAR(loads.torque(), torque / 3, 0.05 * torque / 3);
    sum += loads.torque();
  }
  EXPECT_NEAR(sum, torque, 1e-6 * torque);
  // Each disc for itself, with its own lobes against its own holes: as a single disc at its own crank angle whose
  // flange has been turned along. Disc 1 at crank 0.2 + 120 deg.
  model.table = false;
  ElasticSolver direct = solver_of(model);
  ASSERT_EQ(direct.solve(0.2, torque), Outcome::converged);
  for (int d = 0; d < 3; ++d)
    EXPECT_LT(difference(solver.discs()[d].ring_force, direct.discs()[d].ring_force), 0.005) << d;
}

TEST(Elastic, StiffnessAndLostMotion) {
  ElasticModel model = stage(1);
  ElasticSolver solver = solver_of(model);
  const double torque = rated(model);
  const auto stiffness = torsional_stiffness(solver, 0.3, torque);
  ASSERT_TRUE(stiffness.ok());
  ASSERT_EQ(solver.solve(0.3, torque), Outcome::converged);
  const double full = solver.output_rotation();
  EXPECT_GT(*stiffness, torque / full);  // clearance is lost before the upper half of the torque
  const auto lost = lost_motion(solver, 0.3, torque);
  ASSERT_TRUE(lost.ok());
  // At least the clearance of the output pins on both sides.
  EXPECT_GT(*lost, 2 * model.stage.hole_clearance / model.stage.pin_circle_radius);
  EXPECT_LT(*lost, 2 * full);
}

TEST(Elastic, PictureShowsTheBodyThatWasSolved) {
  ElasticModel model = stage(0);
  ElasticSolver solver = solver_of(model);
  ASSERT_EQ(solver.solve(0.3, rated(model)), Outcome::converged);
  const DiscPicture picture = solver.picture(0);
  ASSERT_EQ(picture.points.size(), picture.mises.size());
  ASSERT_EQ(picture.points.size(), picture.displacement.size());
  for (const auto& cell : picture.cells) {
    double area = 0;
    for (std::size_t i = 0; i < 4; ++i) area += cross(picture.points[cell[i]], picture.points[cell[(i + 1) % 4]]) / 2;
    ASSERT_GT(area, 0);
  }
  const ElasticLoads& loads = solver.discs()[0];
  const double peak =
      std::max({largest(loads.ring_pressure), largest(loads.pin_pressure), largest(loads.bearing_pressure)});
  for (const double stress : picture.mises) {
    ASSERT_TRUE(std::isfinite(stress));
    ASSERT_LT(stress, peak);
  }
  // The bore's mean frame stands still.
  Vec2 shift;
  int count = 0;
  for (std::size_t i = 0; i < picture.points.size(); ++i)
    if (std::abs(norm(picture.points[i]) - model.bore_radius) < 1e-9) {
      const Vec2 e = (1 / model.bore_radius) * picture.points[i];
      shift += 2 * mechanism::dot(e, picture.displacement[i]) * e;
      ++count;
    }
  ASSERT_GT(count, 50);
  double most = 0;
  for (const Vec2 u : picture.displacement) most = std::max(most, norm(u));
  EXPECT_GT(most, 1e-7);
  EXPECT_LT(norm(shift) / count, 0.02 * most);
}

TEST(ElasticModelCheck, NamesWhatIsWrong) {
  ElasticModel model = stage(0);
  model.bore_radius = 0.0395;
  model.rollers.count = 2;
  model.pin_core_radius = 0.009;
  model.stage.roller_radius = 0.0029;
  const Errors errors = check_model(model);
  ASSERT_EQ(errors.size(), 4u);
  EXPECT_EQ(errors[0].path, "bore_radius");
  EXPECT_EQ(errors[1].path, "stage.roller_radius");
  EXPECT_EQ(errors[2].path, "pin_core_radius");
  EXPECT_EQ(errors[3].path, "rollers.count");
  model = stage(0);
  model.holes = false;
  EXPECT_EQ(check_model(model)[0].path, "holes");
}

}  // namespace
