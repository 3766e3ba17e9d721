// Tooth outline and load per tooth pair: identities that hold for any involute pair.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/incumbent/involute.h"
#include "engine/incumbent/tooth_load.h"

namespace lobewise::incumbent {
namespace {

PairGeometry helical(double helix, double width = 0.04) {
  GearPair pair;
  pair.pinion = {21, 0.3, 1};
  pair.wheel = {64, -0.1, 1};
  pair.module = 0.003;
  pair.helix = helix;
  pair.face_width = width;
  Result<PairGeometry> g = pair_geometry(pair);
  EXPECT_TRUE(g.ok());
  return g.value();
}

MeshLoad load() { return {300, 150, contact_modulus(kSteelModulus, kSteelPoisson, kSteelModulus, kSteelPoisson), 1}; }

TEST(Involute, InverseOfInvolute) {
  for (double alpha = 0.01; alpha < 1.2; alpha += 0.07) {
    EXPECT_NEAR(inverse_involute(involute(alpha)), alpha, 1e-12);
  }
}

TEST(Involute, TeethFillTheWorkingPitchCircle) {
  // Without backlash tooth and tooth of the mate cover exactly one pitch on the working circles, whatever the shift.
  const PairGeometry g = helical(0.26);
  const double pinion = half_tooth_angle(g, false, g.rw1) * g.rw1;
  const double wheel = half_tooth_angle(g, true, g.rw2) * g.rw2;
  EXPECT_NEAR(2 * (pinion + wheel), 2 * kPi * g.rw1 / g.pair.pinion.teeth, 1e-12);
}

TEST(Involute, OutlineIsContinuousAndSymmetric) {
  const PairGeometry g = helical(0.2);
  for (const bool wheel : {false, true}) {
    const std::vector<Point> outline = tooth_outline(g, wheel, 24);
    const double pitch = 2 * kPi / (wheel ? g.pair.wheel.teeth : g.pair.pinion.teeth);
    EXPECT_NEAR(std::atan2(outline.back().y, outline.back().x) - std::atan2(outline.front().y, outline.front().x),
                pitch, 1e-12);
    for (std::size_t i = 0; i < outline.size(); ++i) {
      EXPECT_NEAR(outline[i].y, -outline[outline.size() - 1 - i].y, 1e-15);
      if (i > 0) {
        // Gaps larger than 0.8 module would be a break between fillet and involute.
        EXPECT_LT(std::hypot(outline[i].x - outline[i - 1].x, outline[i].y - outline[i - 1].y), 0.8 * g.pair.module);
      }
    }
  }
}

TEST(Involute, FilletMeetsInvoluteTangentially) {
  const PairGeometry g = helical(0);
  const std::vector<Point> outline = tooth_outline(g, true, 200);
  // Points 1 … 201 are the fillet, 202 … the involute: no kink of more than 2 degrees between neighbouring chords
  // there.
  const auto direction = [&](std::size_t i) {
    return std::atan2(outline[i + 1].y - outline[i].y, outline[i + 1].x - outline[i].x);
  };
  EXPECT_NEAR(direction(200), direction(202), 2 * kPi / 180);
}

TEST(ToothLoad, SharesSumToOneAndMeanPairsIsContactRatio) {
  for (const double helix : {0.0, 0.2, 0.35}) {
    const PairGeometry g = helical(helix);
    const double pitch = g.base_pitch / g.rb1;
    double pairs = 0;
    const int steps = 2000;
    for (int i = 0; i < steps; ++i) {
      const MeshInstant instant = mesh_instant(g, load(), pitch * (i + 0.5) / steps, 400);
      double sum = 0;
      for (const ToothContact& contact : instant.contacts) {
        sum += contact.share;
      }
      EXPECT_NEAR(sum, 1, 1e-12);
      pairs += static_cast<double>(instant.contacts.size()) / steps;
    }
    EXPECT_NEAR(pairs, g.total_contact_ratio(), 0.005);
  }
}

TEST(ToothLoad, ContactPointLiesOnBothFlanks) {
  const PairGeometry g = helical(0);
  const MeshInstant instant = mesh_instant(g, load(), 0.02);
  int seen = 0;
  for (const ToothContact& contact : instant.contacts) {
    if (!contact.in_section) {
      continue;
    }
    ++seen;
    const double r1 = std::hypot(contact.point.x, contact.point.y);
    const double pinion_flank =
        instant.pinion_tooth_angle + contact.pair * 2 * kPi / g.pair.pinion.teeth + half_tooth_angle(g, false, r1);
    EXPECT_NEAR(std::remainder(pinion_flank - std::atan2(contact.point.y, contact.point.x), 2 * kPi), 0, 1e-12);
    const double x2 = contact.point.x - instant.wheel_centre.x;
    const double r2 = std::hypot(x2, contact.point.y);
    const double wheel_flank =
        instant.wheel_tooth_angle - contact.pair * 2 * kPi / g.pair.wheel.teeth + half_tooth_angle(g, true, r2);
    EXPECT_NEAR(std::remainder(wheel_flank - std::atan2(contact.point.y, x2), 2 * kPi), 0, 1e-12);
  }
  EXPECT_GE(seen, 1);
}

TEST(ToothLoad, InternalContactPointLiesOnBothFlanks) {
  GearPair pair;
  pair.pinion.teeth = 20;
  pair.wheel.teeth = 79;
  pair.internal = true;
  pair.module = 0.003;
  pair.face_width = 0.03;
  const PairGeometry g = pair_geometry(pair).value();
  const MeshInstant instant = mesh_instant(g, load(), 0.05);
  for (const ToothContact& contact : instant.contacts) {
    const double x2 = contact.point.x - instant.wheel_centre.x;
    const double r2 = std::hypot(x2, contact.point.y);
    const double flank = instant.wheel_tooth_angle + contact.pair * 2 * kPi / 79 - half_tooth_angle(g, true, r2);
    EXPECT_NEAR(std::remainder(flank - std::atan2(contact.point.y, x2), 2 * kPi), 0, 1e-12);
  }
}

TEST(ToothLoad, SinglePairAtThePitchPointIsHertz) {
  const PairGeometry g = helical(0);
  const MeshInstant instant = mesh_instant(g, load(), 0);
  ASSERT_EQ(instant.contacts.size(), 1U);
  const double q = 300 / g.rb1 / g.pair.face_width;
  EXPECT_NEAR(instant.contacts[0].pressure, std::sqrt(q * load().contact_modulus / (kPi * curvature_at(g, 0).relative)),
              1);
}

TEST(ToothLoad, SpurShareStartsNearOneThird) {
  // Where a second pair joins, spur teeth of usual proportions carry about a third: the ramp 1/3 … 2/3 of
  // ISO/TS 6336-20 (from memory).
  const PairGeometry g = helical(0);
  const double start = (-g.approach + 1e-9) / g.rb1;
  const MeshInstant instant = mesh_instant(g, load(), start);
  ASSERT_EQ(instant.contacts.size(), 2U);
  EXPECT_NEAR(instant.contacts[0].share, 1.0 / 3, 0.06);
}

TEST(ToothLoad, HelicalTeethAlwaysKeepMorePairs) {
  const MeshCycle spur = mesh_cycle(helical(0), load());
  const MeshCycle slanted = mesh_cycle(helical(0.35), load());
  EXPECT_EQ(spur.fewest_pairs, 1);
  EXPECT_EQ(spur.most_pairs, 2);
  EXPECT_GE(slanted.fewest_pairs, 2);
  EXPECT_LT(slanted.largest_share, spur.largest_share);
}

TEST(PairGeometryErrors, NameTheField) {
  GearPair pair;
  pair.pinion.teeth = 3;
  pair.wheel.teeth = 20;
  pair.module = -1;
  const Result<PairGeometry> result = pair_geometry(pair);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors().size(), 3U);  // teeth, module, face width: all at once
  EXPECT_EQ(result.errors()[0].path, "pinion.teeth");
  pair = {{9, 0, 1}, {40, 0, 1}, false, 0.003, 0, 0.03, {}};
  EXPECT_FALSE(pair_geometry(pair).ok());  // undercut
}

}  // namespace
}  // namespace lobewise::incumbent
