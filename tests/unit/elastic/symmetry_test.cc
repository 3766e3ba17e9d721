// Turned, mirrored and shifted discs are the same body.
#include "engine/contact/elastic/symmetry.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/constants.h"
#include "engine/contact/elastic/stage_data.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact::elastic;

DiscShape twelve(double offset) { return {{12, 0.060, 0.006, 0.003, 0.012, 1, 8, 0.036, 0.006}, 0.018, true, offset}; }

std::vector<int> all_of(const Flexibility& f) {
  std::vector<int> all(static_cast<std::size_t>(f.size()));
  std::iota(all.begin(), all.end(), 0);
  return all;
}

struct Place {
  int kind;  ///< 0 flank, 1 hole, 2 bore
  int hole;
  double angle;
};
const Place kPlaces[] = {{0, 0, 0.31}, {0, 0, 2.7}, {0, 0, -1.9}, {1, 1, 0.4}, {1, 6, 2.9}, {2, 0, 1.3}, {2, 0, 4.0}};

TEST(DiscSymmetry, FindsTurnsAndMirror) {
  EXPECT_EQ(DiscSymmetry(17, 10, 0).turns(), 1);
  EXPECT_TRUE(DiscSymmetry(17, 10, 0).mirror());
  EXPECT_EQ(DiscSymmetry(12, 8, 0).turns(), 4);
  EXPECT_EQ(DiscSymmetry(17, 0, 0).turns(), 17);
  EXPECT_TRUE(DiscSymmetry(17, 10, kPi / 17).mirror());
  EXPECT_FALSE(DiscSymmetry(12, 8, 0.05).mirror());
  EXPECT_EQ(DiscSymmetry(12, 8, 0.05).turns(), 4);
}

TEST(DiscSymmetry, ImagesArePermutations) {
  const DiscSymmetry symmetry(12, 8, 0);
  const SampleCounts counts = symmetry.rounded({12 * 5, 7, 30});
  EXPECT_EQ(counts.flank % 24, 0);
  EXPECT_EQ(counts.bore, 32);
  const auto images = symmetry.images(counts);
  EXPECT_EQ(images.size(), 8u);
  for (const SampleImage& image : images) {
    auto sorted = image.index;
    std::sort(sorted.begin(), sorted.end());
    for (std::size_t i = 0; i < sorted.size(); ++i) ASSERT_EQ(sorted[i], static_cast<int>(i));
  }
}

TEST(DiscBody, TableOfImagesMeetsDirectSolutions) {
  // Mirrors about a root, about a tip, none at all: the table solves 1/8, 1/8, 1/4 of its loads.
  for (const double offset : {0.0, kPi / 12, 0.05}) {
    const auto shape = twelve(offset);
    const auto table =
        DiscBody::build(shape, plane_stress(0.3), BoreBase::frame, default_density(12), default_table(shape));
    const auto direct = DiscBody::build(shape, plane_stress(0.3), BoreBase::frame, default_density(12), std::nullopt);
    ASSERT_TRUE(table.ok() && direct.ok());
    std::vector<SurfacePoint> points;
    for (const Place& p : kPlaces)
      points.push_back(p.kind == 0   ? table->on_flank(p.angle)
                       : p.kind == 1 ? table->on_hole(p.hole, p.angle)
                                     : table->on_bore(p.angle));
    Flexibility a(points), b(points);
    table->fill(a, all_of(a), 1e-3);
    direct->fill(b, all_of(b), 1e-3);
    double most = 0;
    for (const double value : b.normals) most = std::max(most, std::abs(value));
    for (std::size_t i = 0; i < a.normals.size(); ++i) {
      EXPECT_NEAR(a.normals[i], b.normals[i], 0.004 * most) << offset << " " << i;
      EXPECT_NEAR(a.tangentials[i], b.tangentials[i], 0.004 * most) << offset << " " << i;
    }
  }
}

/// Largest change of the influences, as a share of the largest, when the whole flank lies deeper by `cut`.
double change_by_cut(double cut) {
  std::vector<double> normals[2];
  for (int thinner = 0; thinner < 2; ++thinner) {
    DiscShape shape = twelve(0);
    shape.stage.roller_offset = thinner * cut;
    const auto body = DiscBody::build(shape, plane_stress(0.3), BoreBase::frame, default_density(12), std::nullopt);
    std::vector<SurfacePoint> points;
    for (const Place& p : kPlaces)
      points.push_back(p.kind == 0   ? body->on_flank(p.angle)
                       : p.kind == 1 ? body->on_hole(p.hole, p.angle)
                                     : body->on_bore(p.angle));
    Flexibility f(points);
    body->fill(f, all_of(f), 1e-3);
    normals[thinner] = f.normals;
  }
  double most = 0, change = 0;
  for (std::size_t i = 0; i < normals[0].size(); ++i) {
    most = std::max(most, std::abs(normals[0][i]));
    change = std::max(change, std::abs(normals[1][i] - normals[0][i]));
  }
  return change / most;
}

TEST(DiscBody, FlankReliefIsNothingToItsFlexibility) {
  // Flank relief turns the gaps, not the mesh. 0.2 mrad at 60 mm takes 12 um off a flank at most; here the whole flank
  // loses as much.
  EXPECT_LT(change_by_cut(12e-6), 1e-3);
  EXPECT_GT(change_by_cut(1.2e-3), 1e-2);  // a hundred times as much would show
}

TEST(DiscBody, SecondDiscIsTheFirstOneTurned) {
  // Holes shifted against the lobes by half and by a third of a lobe: mapped onto a body that exists already when
  // possible.
  const int lobes = 12, holes = 8;
  EXPECT_FALSE(same_body(lobes, holes, 2 * kPi / (2 * lobes) + 0.01, 0));
  for (const double body_offset : {0.0, 2 * kPi / (3 * lobes)}) {
    const double offset = body_offset == 0 ? kPi / lobes * 3 : 2 * 2 * kPi / (3 * lobes);
    const auto map = same_body(lobes, holes, offset, body_offset);
    ASSERT_TRUE(map.has_value()) << offset;
    EXPECT_EQ(map->hand, body_offset == 0 ? 1 : -1);
    const auto base = DiscBody::build(twelve(body_offset), plane_stress(0.3), BoreBase::frame, {12, 3}, std::nullopt);
    const auto other = DiscBody::build(twelve(offset), plane_stress(0.3), BoreBase::frame, {12, 3}, std::nullopt);
    ASSERT_TRUE(base.ok() && other.ok());
    std::vector<SurfacePoint> mapped, points;
    for (const Place& p : kPlaces) {
      const double angle = map->angle(p.angle);
      mapped.push_back(p.kind == 0   ? base->on_flank(angle)
                       : p.kind == 1 ? base->on_hole(map->hole(p.hole, holes), angle)
                                     : base->on_bore(angle));
      points.push_back(p.kind == 0   ? other->on_flank(p.angle)
                       : p.kind == 1 ? other->on_hole(p.hole, p.angle)
                                     : other->on_bore(p.angle));
    }
    Flexibility a(mapped), b(points);
    base->fill(a, all_of(a), 1e-3);
    other->fill(b, all_of(b), 1e-3);
    double most = 0;
    for (const double value : b.normals) most = std::max(most, std::abs(value));
    for (std::size_t i = 0; i < a.normals.size(); ++i) {
      EXPECT_NEAR(a.normals[i], b.normals[i], 1e-3 * most) << i;
      EXPECT_NEAR(map->hand * a.tangentials[i], b.tangentials[i], 1e-3 * most) << i;
    }
  }
}

}  // namespace
