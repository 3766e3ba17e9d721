// Singular fields: their own equations, by differences and by integrals.
#include "engine/contact/elastic/plane.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "engine/base/constants.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact::elastic;
using mechanism::dot;
using mechanism::unit;

const Vec2 kCentre = {0.05, 0.01};
constexpr double kHole = 0.011;

SingularField hole_field(PlaneMaterial material, double angle) {
  return {material, kCentre + kHole * unit(angle), unit(angle), 0.08, kCentre};
}

/// Stress from the displacement by Hooke's law.
Stress by_differences(const SingularField& field, PlaneMaterial material, Vec2 x) {
  constexpr double kStep = 1e-6;
  const auto slope = [&](Vec2 d) {
    return (0.5 / kStep) * (field.displacement(x + kStep * d) - field.displacement(x - kStep * d));
  };
  const Vec2 ux = slope({1, 0}), uy = slope({0, 1});
  const double factor = material.modulus / (1 - material.poisson * material.poisson);
  return {factor * (ux.x + material.poisson * uy.y), factor * (uy.y + material.poisson * ux.x),
          factor * (1 - material.poisson) / 2 * (ux.y + uy.x)};
}

TEST(SingularField, StressFollowsFromDisplacement) {
  for (const PlaneMaterial material : {plane_stress(0.3), plane_strain(0.3), plane_stress(0.0)}) {
    const SingularField flank(material, {0.07, 0.01}, unit(3.0), 0.08);
    const SingularField hole = hole_field(material, 0.7);
    for (const SingularField* field : {&flank, &hole})
      for (const Vec2 x : {Vec2{0.068, 0.013}, Vec2{0.06, 0.025}, Vec2{0.02, -0.01}, Vec2{0.03, 0.02}}) {
        const Stress a = field->stress(x, 0), b = by_differences(*field, material, x);
        const double scale = std::abs(a.xx) + std::abs(a.yy) + std::abs(a.xy);
        EXPECT_NEAR(a.xx, b.xx, 1e-6 * scale);
        EXPECT_NEAR(a.yy, b.yy, 1e-6 * scale);
        EXPECT_NEAR(a.xy, b.xy, 1e-6 * scale);
        const Vec2 nu = unit(0.4);
        Vec2 t;
        add_traction(field->source(), x, nu, t.x, t.y);
        EXPECT_NEAR(t.x, a.xx * nu.x + a.xy * nu.y, 1e-12 * scale);
        EXPECT_NEAR(t.y, a.xy * nu.x + a.yy * nu.y, 1e-12 * scale);
      }
  }
}

TEST(SingularField, BalancesAUnitForce) {
  // Stresses on a half circle inside the body carry the unit force away.
  const Vec2 n = unit(2.2), p = {0.07, 0.01};
  const SingularField field(plane_stress(0.3), p, n, 0.08);
  Vec2 sum;
  constexpr int kPoints = 2000;
  for (int i = 0; i < kPoints; ++i) {
    const Vec2 e = unit(2.2 - kPi / 2 + kPi * (i + 0.5) / kPoints);
    Vec2 traction;
    add_traction(field.source(), p + 0.01 * e, e, traction.x, traction.y);
    sum += (kPi * 0.01 / kPoints) * traction;
  }
  EXPECT_NEAR(sum.x, -n.x, 1e-6);
  EXPECT_NEAR(sum.y, -n.y, 1e-6);
}

TEST(SingularField, IsSingleValuedBehindAHole) {
  // The cut of the half-plane field ends at the hole's centre: no jump in the material beyond.
  for (const PlaneMaterial material : {plane_stress(0.3), plane_strain(0.25)}) {
    const SingularField field = hole_field(material, 0.7);
    const Vec2 beyond = kCentre - 0.02 * unit(0.7), across = 1e-9 * unit(0.7 + kPi / 2);
    const Vec2 jump = field.displacement(beyond + across) - field.displacement(beyond - across);
    EXPECT_NEAR(mechanism::norm(jump), 0, 1e-6);
    // Between load and centre, inside the hole, it is there: 2 (1 - nu') / E'.
    const Vec2 inside = kCentre + 0.5 * kHole * unit(0.7);
    const Vec2 cut = field.displacement(inside + across) - field.displacement(inside - across);
    EXPECT_NEAR(mechanism::norm(cut), 2 * (1 - material.poisson) / material.modulus, 1e-6);
  }
}

TEST(SingularField, StraightBehindAHoleRoundingDecidesNothing) {
  // Loads on output holes all point the same way: the next hole often lies exactly on the line behind one. There the
  // angles about load and centre have their cuts; a point within rounding of the line must not get only one of the
  // jumps.
  for (const double angle : {0.0, 0.3, 0.7, 1.1, 2.9, 4.4})
    for (int step = 1; step <= 200; ++step) {
      const SingularField field = hole_field(plane_stress(0.3), angle);
      const Vec2 on_the_line = kCentre - (kHole + 0.0007 * step) * unit(angle);
      const Vec2 beside = on_the_line + 1e-9 * unit(angle + kPi / 2);
      EXPECT_NEAR(mechanism::norm(field.displacement(on_the_line) - field.displacement(beside)), 0, 1e-6);
    }
}

TEST(SingularField, CountsFromTheDepth) {
  const Vec2 n = unit(1.0);
  const SingularField field(plane_strain(0.3), {0.07, 0.01}, n, 0.02);
  EXPECT_NEAR(dot(n, field.displacement(Vec2{0.07, 0.01} + 0.02 * n)), 0, 1e-15);
}

TEST(SingularField, FrameOfABoreLoadIsItsIntegral) {
  constexpr double kBore = 0.028, kDepth = 0.08;
  for (const PlaneMaterial material : {plane_stress(0.3), plane_strain(0.3)}) {
    const Vec2 n = unit(0.4);
    const SingularField field(material, kBore * n, n, kDepth, {});
    Vec2 shift;
    double turn = 0;
    constexpr int kPoints = 200000;  // midpoint rule: the logarithm costs about ln 2 / points
    for (int i = 0; i < kPoints; ++i) {
      const Vec2 e = unit(0.4 + 2 * kPi * (i + 0.5) / kPoints);
      const Vec2 u = field.displacement(kBore * e);
      shift += (2 * dot(e, u) / kPoints) * e;
      turn += dot(mechanism::quarter_turn(e), u) / (kPoints * kBore);
    }
    EXPECT_NEAR(dot(n, shift), bore_load_frame(material, kBore, kDepth), 1e-5);
    EXPECT_NEAR(dot(mechanism::quarter_turn(n), shift), 0, 1e-5);
    EXPECT_NEAR(turn, 0, 1e-3);
  }
}

}  // namespace
