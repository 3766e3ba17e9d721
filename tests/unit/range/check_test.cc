#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/range/demo_range.h"

namespace {
using namespace lobewise;
using namespace lobewise::range;

/// One frame with two stages and a pair of them.
Range small_range() {
  Range range = demo_range();
  range.frames.resize(1);
  range.frames[0].stages.resize(2);
  TwoStage pair;
  pair.frame = pair.first_frame = range.frames[0].name;
  pair.second_lobes = pair.first_lobes = range.frames[0].stages[0].geometry.lobes;
  pair.price = 1;
  range.two_stage = {pair};
  return range;
}

/// True when exactly one error has this path and it says `words`.
bool says(const Errors& errors, const std::string& path, const std::string& words) {
  return std::count_if(errors.begin(), errors.end(), [&](const Error& error) {
           return error.kind == ErrorKind::data && error.path == path && error.message.find(words) != std::string::npos;
         }) == 1;
}

TEST(RangeCheck, ASoundRangeIsClean) { EXPECT_TRUE(check(small_range()).empty()); }

TEST(RangeCheck, SaysEverythingThatIsWrongAtOnce) {
  Range range = small_range();
  range.currency.clear();
  Stage& stage = range.frames[0].stages[0];
  stage.geometry.eccentricity = 0.006;
  stage.price = 0;  // behind a geometry that cannot exist nothing more is said of that stage
  Stage& other = range.frames[0].stages[1];
  other.geometry.lobes = 7;
  other.geometry.eccentricity = range.frames[0].stages[0].geometry.eccentricity = 0.00275;
  other.eccentric_bearing.elements = 40;
  other.output_pin_radius = 1;
  other.pin_lever_far = other.pin_lever_near;
  range.frames[0].output.key_length = 1;
  range.frames[0].output.bearing_inside = {};
  range.frames[0].output.bearing_inside.kind = BearingKind::deep_groove;
  range.frames[0].motor_frames[1] = "no such motor";
  range.frames[0].lubricants.clear();
  range.frames[0].housing.area = std::nan("");
  range.frames.push_back(range.frames[0]);
  range.two_stage[0].first_lobes = 8;
  range.two_stage.push_back(range.two_stage[0]);
  range.two_stage[1].frame = "ring-0";

  const Errors errors = check(range);
  EXPECT_TRUE(says(errors, "currency", "word of their currency"));
  EXPECT_TRUE(says(errors, "frames[0].stages[0].price", "greater than zero"));
  EXPECT_TRUE(says(errors, "frames[0].stages[1].geometry.lobes", "stages[0] has as many lobes already"));
  EXPECT_TRUE(says(errors, "frames[0].stages[1].eccentric_bearing.elements", "at most 19 elements of 4 mm"));
  EXPECT_TRUE(says(errors, "frames[0].stages[1].output_pin_radius", "below 4.5 mm"));
  EXPECT_TRUE(says(errors, "frames[0].stages[1].pin_lever_far", "or the discs overlap"));
  EXPECT_TRUE(says(errors, "frames[0].output.key_length", "at most the shaft end, 60 mm"));
  EXPECT_TRUE(says(errors, "frames[0].output.bearing_inside.dynamic_capacity", "both capacities stated"));
  EXPECT_TRUE(says(errors, "frames[0].motor_frames[1]", "not an IEC or NEMA motor frame"));
  EXPECT_TRUE(says(errors, "frames[0].lubricants", "at least one"));
  EXPECT_TRUE(says(errors, "frames[0].housing.area", "greater than zero"));
  EXPECT_TRUE(says(errors, "frames[1].name", "frames[0] has this name already"));
  EXPECT_TRUE(says(errors, "two_stage[0].first_lobes", "ring-80 has no stage with as many lobes"));
  EXPECT_TRUE(says(errors, "two_stage[1].frame", "no frame of the range"));
}

TEST(RangeCheck, GeometryThatCannotExistIsSaidOnceWithoutItsConsequences) {
  Range range = small_range();
  range.frames[0].stages[0].geometry.eccentricity = 0.006;
  const Errors errors = check(range);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_TRUE(says(errors, "frames[0].stages[0].geometry.eccentricity", "or the lobes get loops"));
}

TEST(RangeCheck, ABoreThatCutsTheHolesAndAShaftOutsideItsEccentric) {
  Range range = small_range();
  Stage& stage = range.frames[0].stages[0];
  stage.eccentric_bearing.pitch_diameter = 0.030;
  stage.input_shaft_diameter = 0.022;
  const Errors errors = check(range);
  EXPECT_TRUE(says(errors, "frames[0].stages[0].eccentric_bearing", "or the bore cuts the output holes"));
  EXPECT_TRUE(says(errors, "frames[0].stages[0].input_shaft_diameter", "or the shaft stands out of its eccentric"));
}

TEST(RangeCheck, AnEmptyRangeNeedsNameCurrencyAndFrames) {
  const Errors errors = check(Range{});
  EXPECT_TRUE(says(errors, "name", "needs a name"));
  EXPECT_TRUE(says(errors, "frames", "at least one frame"));
  EXPECT_EQ(errors.size(), 3u);
}

TEST(RangeWarnings, TheDemoRangeKeepsItsPlay) { EXPECT_TRUE(warnings(demo_range()).empty()); }

TEST(RangeWarnings, AStageWithoutPlayIsNamedAndRefusesNothing) {
  Range range = small_range();
  mechanism::StageGeometry& g = range.frames[0].stages[1].geometry;
  g.radius_offset = -1e-6;
  g.roller_offset = -5e-6;
  EXPECT_TRUE(check(range).empty());
  ASSERT_EQ(warnings(range).size(), 1u);
  EXPECT_TRUE(
      says(warnings(range), "frames[0].stages[1].geometry.radius_offset", "as drawn, lobes and rollers overlap"));
  // 10 K of a steel disc in an iron ring: enough as drawn, not in a warm-up.
  g.roller_offset = 0;
  g.radius_offset = -g.pitch_radius * 11.5e-6 * 10;
  EXPECT_TRUE(says(warnings(range), "frames[0].stages[1].geometry.radius_offset", "its disc 20 K warmer"));
  // Aluminium shrinks twice as much as the disc inside it.
  range.frames[0].stages[1].ring_material = Material::aluminium;
  EXPECT_TRUE(says(warnings(range), "frames[0].stages[1].geometry.radius_offset", "at -20 °C"));
}

TEST(RangeCheck, TheSamePairTwice) {
  Range range = small_range();
  range.two_stage.push_back(range.two_stage[0]);
  EXPECT_TRUE(says(check(range), "two_stage[1].frame", "two_stage[0] is the same unit"));
}

}  // namespace
