// Finite elements against exact solutions.
#include "engine/contact/elastic/plane_body.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/contact/elastic/disc_body.h"
#include "engine/contact/elastic/loads.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact::elastic;
using mechanism::norm;

DiscShape seventeen() { return {{17, 0.080, 0.007, 0.003, 0.014, 1, 10, 0.050, 0.008}, 0.028, true, 0}; }
DiscShape fifty_nine() { return {{59, 0.120, 0.0035, 0.0014, 0.018, 1, 12, 0.075, 0.010}, 0.036, true, 0}; }

TEST(PlaneBody, ReproducesLinearDisplacement) {
  // Patch test on real disc meshes, with and without coarsening; a constant stress state needs no forces inside.
  for (const DiscShape& shape : {seventeen(), fifty_nine()}) {
    const auto mesh = disc_mesh(shape, default_density(shape.stage.lobes));
    ASSERT_TRUE(mesh.ok());
    std::vector<char> held(2 * mesh->nodes.size(), 0);
    for (const Loop& loop : mesh->loops)
      for (const int node : loop.nodes) held[2 * node] = held[2 * node + 1] = 1;
    const PlaneMaterial material = plane_stress(0.3);
    const PlaneBody body(*mesh, material, held);
    NodeBlock block(mesh->nodes.size());
    const auto exact = [](Vec2 x) { return Vec2{1 + 2 * x.x - 3 * x.y, 4 + 0.5 * x.x + 5 * x.y}; };
    for (std::size_t node = 0; node < mesh->nodes.size(); ++node)
      if (held[2 * node]) {
        const Vec2 u = exact(mesh->nodes[node]);
        block.at(2 * node)[3] = u.x;
        block.at(2 * node + 1)[3] = u.y;
      }
    body.solve(block);
    for (std::size_t node = 0; node < mesh->nodes.size(); ++node) {
      const Vec2 u = exact(mesh->nodes[node]);
      ASSERT_NEAR(block.at(2 * node)[3], u.x, 1e-9);
      ASSERT_NEAR(block.at(2 * node + 1)[3], u.y, 1e-9);
      ASSERT_EQ(block.at(2 * node)[2], 0);  // load cases do not mix
    }
    const auto stress = corner_stress(*mesh, material, block, 3);
    const double factor = 1 / (1 - 0.09);
    EXPECT_NEAR(stress[mesh->elements[5][0]].xx, factor * (2 + 0.3 * 5), 1e-8);
    EXPECT_NEAR(stress[mesh->elements[5][0]].xy, factor * 0.35 * (0.5 - 3), 1e-8);
  }
}

TEST(PlaneBody, RingUnderInnerPressure) {
  // u(a) = p a / E ((a^2 + b^2)/(b^2 - a^2) + nu) in plane stress (Lame; from memory: Timoshenko and Goodier, Theory of
  // Elasticity, thick-walled cylinder).
  // The elements grow inwards (small ones are wanted under a contact outside), the innermost spans a third of the ring:
  // 2e-4.
  const Mesh mesh = circle_mesh(0.5, 24, 8, 0);
  const auto& inner = mesh.loops[1].nodes;
  std::vector<char> held(2 * mesh.nodes.size(), 0);
  held[2 * inner[0] + 1] = held[2 * inner[inner.size() / 2] + 1] = held[2 * inner[inner.size() / 4]] = 1;
  const PlaneBody body(mesh, plane_stress(0.3), held);
  NodeBlock block(mesh.nodes.size());
  const BoundaryQuadrature quadrature(mesh);
  for (const auto& sample : quadrature.samples(1))
    for (std::size_t a = 0; a < 3; ++a) {  // pressure pushes against the outward normal
      block.at(2 * sample.nodes[a])[0] -= sample.shape[a] * sample.outward.x;
      block.at(2 * sample.nodes[a] + 1)[0] -= sample.shape[a] * sample.outward.y;
    }
  for (std::size_t freedom = 0; freedom < held.size(); ++freedom)
    if (held[freedom]) block.at(freedom)[0] = 0;
  body.solve(block);
  const double expected = 0.5 * ((0.25 + 1) / (1 - 0.25) + 0.3);
  for (const int node : inner) {
    const Vec2 u = {block.at(2 * node)[0], block.at(2 * node + 1)[0]};
    EXPECT_NEAR(mechanism::dot(u, mesh.nodes[node]) / 0.5, expected, 2e-4 * expected);
  }
}

TEST(DiscMesh, StandsOnTheExactCurves) {
  for (const DiscShape& shape : {seventeen(), fifty_nine()}) {
    const auto mesh = disc_mesh(shape, default_density(shape.stage.lobes));
    ASSERT_TRUE(mesh.ok());
    EXPECT_GT(least_jacobian(*mesh), 0.2);
    ASSERT_EQ(mesh->loops.size(), static_cast<std::size_t>(2 + shape.stage.pins));
    for (const int node : mesh->loops[kBoreLoop].nodes) EXPECT_NEAR(norm(mesh->nodes[node]), shape.bore_radius, 1e-12);
    for (int hole = 0; hole < shape.stage.pins; ++hole)
      for (const int node : mesh->loops[kFirstHoleLoop + hole].nodes)
        EXPECT_NEAR(norm(mesh->nodes[node] - mesh->loops[kFirstHoleLoop + hole].centre), shape.stage.hole_radius(),
                    1e-12);
  }
}

TEST(DiscMesh, RefusesWhatFoldsOver) {
  DiscShape shape = seventeen();
  shape.bore_radius = 0.045;  // the bore cuts the output holes
  const auto mesh = disc_mesh(shape, default_density(17));
  ASSERT_FALSE(mesh.ok());
  EXPECT_EQ(mesh.errors()[0].kind, ErrorKind::model);
}

TEST(DiscMesh, FindsItsEdges) {
  const auto body = DiscBody::build(seventeen(), plane_stress(0.3), BoreBase::frame, default_density(17), std::nullopt);
  ASSERT_TRUE(body.ok());
  for (int i = 0; i < 200; ++i) {
    const double angle = 0.05 * i - 5;
    for (const SurfacePoint& point : {body->on_flank(angle), body->on_hole(i % 10, angle), body->on_bore(angle)}) {
      EXPECT_LE(std::abs(point.place.s), 1 + 1e-6);
      EXPECT_LT(norm(point.point - point.place.point), 2e-5) << angle;
    }
  }
}

}  // namespace
