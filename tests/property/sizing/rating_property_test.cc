#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/drive/thermal.h"
#include "engine/range/demo_range.h"
#include "engine/sizing/rating.h"

namespace {
using namespace lobewise;
using namespace lobewise::sizing;

Result<Tables::value_type> rigid_table(const range::Stage& stage) {
  Result<drive::StageTable> table = drive::rigid_stage_table(stage);
  if (!table) return table.errors();
  return std::make_shared<const drive::StageTable>(std::move(*table));
}
Result<Tables> quick_tables(const drive::Build& build) { return rating_tables(build, rigid_table); }

drive::Build some_build() {
  const auto builds = drive::all_builds(range::demo_range());
  return builds[static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(builds.size())))];
}

double torque_of(const Rating& rating, Criterion criterion) {
  return std::find_if(rating.criteria.begin(), rating.criteria.end(),
                      [&](const CriterionTorque& c) { return c.criterion == criterion; })
      ->torque;
}

RatingConditions at(double rpm, double hours) {
  RatingConditions conditions;
  conditions.input_speed = rpm * 2 * kPi / 60;
  conditions.hours = hours;
  return conditions;
}

/// What a stage carries when `torque` leaves the build.
double stage_torque(const drive::Build& build, const Tables& tables, const RatingConditions& conditions,
                    std::size_t stage, double torque) {
  const drive::Oil oil = drive::oil_of(build.frame().lubricants.front()).value();
  const drive::Running running{torque, conditions.input_speed / build.ratio()};
  const auto losses =
      drive::running_losses(build, tables, oil, running, drive::lubricant_limit(oil), drive::Coefficients{});
  return stage + 1 == build.stages.size() ? torque : losses.stages[stage].torque;
}

RC_GTEST_PROP(RatingProperty, NeverGrowsWithSpeedNorWithHours, ()) {
  const drive::Build build = some_build();
  const Tables tables = quick_tables(build).value();
  const double rpm = *rc::gen::inRange(100, 1500);
  const double hours = *rc::gen::inRange(1000, 60000);
  const Rating slow = *rate(build, tables, at(rpm, hours));
  RC_ASSERT(slow.torque > 0);
  // Of the stage that rules: a last stage that runs faster rubs less, and a first one that rules then allows some 0.2 %
  // more outside.
  const double fast = rate(build, tables, at(1.3 * rpm, hours))->torque;
  const std::size_t ruling = slow.criteria.front().stage;
  RC_ASSERT(stage_torque(build, tables, at(1.3 * rpm, hours), ruling, fast) <=
            stage_torque(build, tables, at(rpm, hours), ruling, slow.torque) * (1 + 1e-6));
  RC_ASSERT(rate(build, tables, at(rpm, 1.5 * hours))->torque <= slow.torque * (1 + 1e-6));
}

RC_GTEST_PROP(RatingProperty, WarmAirAllowsLess, ()) {
  const drive::Build build = some_build();
  const Tables tables = quick_tables(build).value();
  RatingConditions conditions = at(*rc::gen::inRange(300, 1400), 10000);
  const double cool = torque_of(*rate(build, tables, conditions), Criterion::heat);
  conditions.ambient += *rc::gen::inRange(5, 30);
  RC_ASSERT(torque_of(*rate(build, tables, conditions), Criterion::heat) < cool);
}

/// All lengths times f.
range::Stage scaled(range::Stage stage, double f) {
  auto& g = stage.geometry;
  for (double* length : {&g.pitch_radius, &g.roller_radius, &g.eccentricity, &g.width, &g.pin_circle_radius,
                         &g.pin_radius, &g.hole_clearance, &g.roller_offset, &g.radius_offset, &stage.ring_pin_radius,
                         &stage.output_pin_radius, &stage.pin_lever_near, &stage.pin_lever_far, &stage.input_span})
    *length *= f;
  for (range::Bearing* bearing : {&stage.eccentric_bearing, &stage.input_bearing})
    for (double* length : {&bearing->element_diameter, &bearing->element_length, &bearing->pitch_diameter})
      *length *= f;
  return stage;
}

RC_GTEST_PROP(RatingProperty, PressuresAndStressesScaleWithTheCubeOfSize, ()) {
  range::Range small = range::demo_range();
  const auto frame = static_cast<std::size_t>(*rc::gen::inRange(0, 12));
  small.frames = {small.frames[frame]};
  small.frames[0].stages = {small.frames[0].stages[static_cast<std::size_t>(*rc::gen::inRange(0, 10))]};
  small.two_stage.clear();
  const double f = 1 + *rc::gen::inRange(1, 20) / 10.0;
  range::Range large = small;
  large.frames[0].stages[0] = scaled(small.frames[0].stages[0], f);
  // Tables are solved at torques that scale with the cube, too: they hold the same forces in other units, and nothing
  // is left but rounding and the root's tolerance.
  const auto rating_of = [&](const range::Range& range) {
    const drive::Build build = drive::all_builds(range)[0];
    return rate(build, {rigid_table(build.last()).value()}, at(600, 10000)).value();
  };
  const Rating a = rating_of(small), b = rating_of(large);
  for (const Criterion criterion : {Criterion::lobe_pressure, Criterion::pin_pressure, Criterion::pin_bending})
    RC_ASSERT(std::abs(torque_of(b, criterion) / torque_of(a, criterion) / (f * f * f) - 1) < 1e-6);
  // C grows with f^(7/9 + 29/27), the lever with f.
  RC_ASSERT(std::abs(torque_of(b, Criterion::eccentric_bearing) / torque_of(a, Criterion::eccentric_bearing) /
                         std::pow(f, 1 + 7.0 / 9 + 29.0 / 27) -
                     1) < 0.02);
}

}  // namespace
