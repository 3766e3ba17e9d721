#include "engine/tolerance/unit_sampler.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/contact/mesh_solver.h"
#include "engine/uncertainty/propagation.h"

namespace {
using namespace lobewise;
using namespace lobewise::tolerance;

mechanism::StageGeometry stage(int discs) {
  mechanism::StageGeometry g;
  g.lobes = 17;
  g.pitch_radius = 0.08;
  g.roller_radius = 0.007;
  g.eccentricity = 0.003;
  g.width = 0.014;
  g.discs = discs;
  g.pins = 10;
  g.pin_circle_radius = 0.05;
  g.pin_radius = 0.008;
  g.roller_offset = 12e-6;
  return g;
}

Widths wide() { return *widths_of(std::nullopt, stage(2), 6); }

TEST(WidthsOf, StatedOnesStand) {
  Manufacture stated;
  stated.grade = 5;
  stated.roller_radius = 1e-6;
  stated.capability = 1.33;
  const auto w = widths_of(stated, stage(2), 7);
  ASSERT_TRUE(w.ok());
  EXPECT_EQ(w->roller_radius, 1e-6);
  EXPECT_EQ(w->capability, 1.33);
  EXPECT_NEAR(w->roller_position, 17.7e-6, 0.05e-6);  // grade 5 of 120–180 mm, ISO 286-1
  EXPECT_NEAR(widths_of(std::nullopt, stage(2), 7)->roller_position, 40.3e-6, 0.05e-6);
  mechanism::StageGeometry large = stage(2);
  large.pitch_radius = 1.6;
  EXPECT_FALSE(widths_of(std::nullopt, large, 6).ok());
  EXPECT_EQ(wide().pitch_radius * 2, wide().roller_position);
}

TEST(UnitSampler, SeedsReproduceAndTwinsAreOthers) {
  const UnitSampler sampler(stage(2), wide(), 5), same(stage(2), wide(), 5), other(stage(2), wide(), 6);
  const MadeUnit unit = sampler.unit(9);
  EXPECT_EQ(unit.offsets.roller_radial, same.unit(9).offsets.roller_radial);
  EXPECT_NE(unit.offsets.roller_radial, other.unit(9).offsets.roller_radial);
  EXPECT_NE(unit.offsets.roller_radial, sampler.unit(10).offsets.roller_radial);
  Sources twin{};
  twin[static_cast<std::size_t>(Source::holes)] = true;
  const MadeUnit mixed = sampler.unit(9, twin);
  EXPECT_EQ(unit.offsets.roller_radial, mixed.offsets.roller_radial);
  EXPECT_EQ(unit.offsets.pin_radius, mixed.offsets.pin_radius);
  EXPECT_EQ(unit.lobe_form, mixed.lobe_form);
  EXPECT_EQ(unit.warmth, mixed.warmth);
  EXPECT_NE(unit.offsets.hole_radial, mixed.offsets.hole_radial);
  EXPECT_NE(unit.offsets.hole_radius, mixed.offsets.hole_radius);
}

/// Scatter within a unit and between units as the widths say: six C_p deviations a width.
TEST(UnitSampler, DeviationsAreThoseOfTheWidths) {
  Widths w = wide();
  w.capability = 1.5;
  const UnitSampler sampler(stage(2), w, 1);
  double within = 0, between = 0;
  constexpr int kUnits = 2000;
  for (std::uint32_t i = 0; i < kUnits; ++i) {
    const auto& radius = sampler.unit(i).offsets.roller_radius;
    double mean = 0;
    for (const double value : radius) mean += value / static_cast<double>(radius.size());
    for (const double value : radius)
      within += (value - mean) * (value - mean) / static_cast<double>(radius.size() - 1) / kUnits;
    between += mean * mean / kUnits;
  }
  EXPECT_NEAR(std::sqrt(within) * 6 * 1.5 / w.roller_radius, 1, 0.02);
  const double batch = std::sqrt(between - within / 18);
  EXPECT_NEAR(batch * 6 * 1.5 / w.roller_radius_batch, 1, 0.05);
}

/// To first order the play is that of the moved geometry solved anew.
TEST(PlayOfUnits, IsThatOfSolvedGeometry) {
  mechanism::StageGeometry g = stage(1);
  Widths w = wide();
  w.hole_position = w.hole_radius = w.hole_radius_batch = w.pin_position = w.pin_radius = w.pin_radius_batch = 0;
  for (double* width : {&w.pitch_radius, &w.roller_position, &w.roller_radius, &w.roller_radius_batch, &w.profile_batch,
                        &w.profile_form})
    *width /= 20;  // so that the second order is small
  g.roller_offset = 1e-6;
  const PlayOfUnits play(g);
  contact::MeshModel model;
  model.stage = g;
  contact::MeshSolver solver(model);
  const UnitSampler sampler(g, w, 3);
  const double growth = 0.3e-6;
  int free_units = 0;
  for (std::uint32_t i = 0; i < 20; ++i) {
    MadeUnit unit = sampler.unit(i);
    const PlayOfUnits::Play found = play.of(unit, growth);
    double least = 1, most = 0;
    bool pressed = false;  // in the ideal pose, where no turn frees what has no lever: another convention's affair
    for (double& radial : unit.offsets.roller_radial) radial -= growth;
    for (const double angle : stated_angles(g)) {
      face_lobes(g, angle, unit);
      solver.set_offsets(unit.offsets);
      solver.unload(angle);
      const std::vector<double>& gaps = solver.discs().front().ring.gap;
      pressed = pressed || *std::min_element(gaps.begin(), gaps.end()) < 0;
      const double sum = solver.touch_rotation(angle, 0, 1) - solver.touch_rotation(angle, 0, -1);
      least = std::min(least, sum);
      most = std::max(most, sum);
    }
    if (pressed) continue;
    ++free_units;
    EXPECT_NEAR(found.lost_motion / least, 1, 0.01) << i;
    EXPECT_NEAR(found.widest / most, 1, 0.01) << i;
  }
  EXPECT_GE(free_units, 10);
}

/// Holes and pins: a clearance adds its play at both sides; one pin too thick takes it away.
TEST(PlayOfUnits, HolesAddTheirPlay) {
  mechanism::StageGeometry g = stage(2);
  const MadeUnit perfect = [&] {
    Widths none;
    return UnitSampler(g, none, 1).unit(0);
  }();
  const double without = PlayOfUnits(g).of(perfect, 0).lost_motion;
  g.hole_clearance = 10e-6;
  const PlayOfUnits with(g);
  const double added = with.of(perfect, 0).lost_motion - without;
  EXPECT_GT(added, 2 * 10e-6 / g.pin_circle_radius * 0.999);
  EXPECT_LT(added, 2 * 10e-6 / g.pin_circle_radius * 1.06);  // ten pins: one stands within 18 degrees of the best place
  MadeUnit thick = perfect;
  thick.offsets.pin_radius.assign(10, 10e-6);
  EXPECT_NEAR(with.of(thick, 0).lost_motion, without, 1e-12);
  thick.offsets.pin_radius.assign(10, 1e-3);
  EXPECT_LT(with.of(thick, 0).lost_motion, 0);  // does not go together
}

}  // namespace
