#include "engine/range/demo_range.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/api/json_io.h"
#include "engine/range/bearing.h"
#include "engine/range/describe_range.h"

namespace {
using namespace lobewise;
using namespace lobewise::range;

std::string listed(const Errors& errors) {
  std::string text;
  for (const Error& error : errors) text += error.path + " [" + error.offending + "]: " + error.message + "\n";
  return text;
}

TEST(DemoRange, ContradictsItselfNowhere) { EXPECT_EQ(listed(check(demo_range())), ""); }

TEST(DemoRange, IsWhatTheDemoNeeds) {
  const Range& range = demo_range();
  EXPECT_GE(range.frames.size(), 10u);
  EXPECT_NE(range.note.find("invented"), std::string::npos);
  for (const Frame& frame : range.frames) {
    EXPECT_GE(frame.stages.size(), 10u) << frame.name;
    EXPECT_FALSE(frame.motor_frames.empty()) << frame.name;
    EXPECT_EQ(frame.stages.front().geometry.lobes, 7);
  }
}

std::vector<int> totals_of(const std::string& frame) {
  std::vector<int> totals;
  for (const TwoStage& pair : demo_range().two_stage)
    if (pair.frame == frame) totals.push_back(pair.first_lobes * pair.second_lobes);
  return totals;
}

TEST(DemoRange, RatiosAreTheOddNumbersNearestToTheSeries) {
  // ISO 3, R 20 (from memory): 7.1 8 9 10 11.2 12.5 14 16 18 20 22.4 25 28 31.5 35.5 40 45 50 56 63 71 80 90, by hand.
  const std::vector<int> expected{7, 9, 11, 13, 15, 17, 19, 23, 25, 27, 31, 35, 39, 45, 49, 55, 63, 71, 79, 89};
  for (const Frame& frame : demo_range().frames)
    for (std::size_t i = 0; i < frame.stages.size(); ++i)
      EXPECT_EQ(frame.stages[i].geometry.lobes, expected[i]) << frame.name;
  EXPECT_EQ(demo_range().frames.back().stages.size(), expected.size());
}

TEST(DemoRange, TotalsComeNearToEveryTermOfTheSeries) {
  // By hand, of 9, 23 and 45 times a larger ratio: 100 -> 9 x 11 = 99, 112 -> 9 x 13, 125 -> the same again, …
  const std::vector<int> expected{99,   117,  135,  153,  171,  207,  225,  243,  279,  315,  351,
                                  405,  441,  495,  567,  639,  711,  801,  897,  1035, 1127, 1265,
                                  1449, 1633, 1817, 2047, 2205, 2475, 2835, 3195, 3555, 4005};
  EXPECT_EQ(totals_of(demo_range().frames.back().name), expected);
  // Frames without the highest ratios have fewer, each within half a step of a term.
  for (const Frame& frame : demo_range().frames) {
    const std::vector<int> totals = totals_of(frame.name);
    EXPECT_GE(totals.size(), 20u) << frame.name;
    for (const int total : totals) {
      const double steps = 20 * std::log10(total / 100.0);
      EXPECT_LT(std::abs(steps - std::round(steps)), 0.6) << frame.name << ' ' << total;
    }
  }
}

TEST(DemoRange, ShowsNeedlesAndForContrastPlainSleeves) {
  const Range& range = demo_range();
  int needles = 0;
  for (const Frame& frame : range.frames)
    if (frame.stages[3].output_rollers == Carried::needle) ++needles;
  EXPECT_GE(needles, 10);
  EXPECT_EQ(range.frames.front().stages[3].output_rollers, Carried::sleeve);
}

TEST(DemoRange, KeepsItsOwnRules) {
  for (const Frame& frame : demo_range().frames)
    for (const Stage& stage : frame.stages) {
      const auto& g = stage.geometry;
      SCOPED_TRACE(frame.name + " " + std::to_string(g.lobes));
      EXPECT_GT(g.shortening(), 0.54);
      EXPECT_LT(g.shortening(), 0.71);
      EXPECT_LT(g.cut_roller_radius(), 0.6 * mechanism::roller_radius_limit(g));
      EXPECT_GT(g.roller_radius, g.eccentricity);  // docs/theory: the elastic disc needs it
      EXPECT_EQ(g.pins % (g.discs * std::gcd(g.lobes, g.pins)), 0) << "the discs are not the same part";
      EXPECT_TRUE(stage.pins_guided);
      // Nearly closed flanks, open tips and roots, both rounded to a micrometre.
      const double K = g.shortening();
      // As they are with the disc 23 K warmer than the ring, steel in iron of the same growth.
      const double warm = g.radius_offset + 11.5e-6 * 23 * g.pitch_radius;
      EXPECT_NEAR(g.roller_offset - warm * std::sqrt(1 - K * K), 1e-6 + g.pitch_radius / 160e3, 1.1e-6);
      EXPECT_NEAR(g.roller_offset - warm, 4e-6 + g.pitch_radius / 40e3, 1.6e-6);
    }
}

TEST(DemoRange, LargerFramesCarryMoreAndCostMore) {
  const auto& frames = demo_range().frames;
  for (std::size_t i = 1; i < frames.size(); ++i) {
    SCOPED_TRACE(frames[i].name);
    EXPECT_GT(frames[i].housing.mass, frames[i - 1].housing.mass);
    EXPECT_GT(frames[i].stages[0].price, frames[i - 1].stages[0].price);
    EXPECT_GT(frames[i].output.diameter, frames[i - 1].output.diameter);
    EXPECT_GT(rolling_bearing(frames[i].stages[3].eccentric_bearing)->rating.C,
              rolling_bearing(frames[i - 1].stages[3].eccentric_bearing)->rating.C);
  }
}

TEST(DemoRange, TwiceTheSameAndThroughJsonAndBack) {
  const api::Json once = api::write(make_demo_range());
  EXPECT_EQ(once, api::write(make_demo_range()));
  const auto back = api::read<Range>(once, api::Numbers::si);
  ASSERT_TRUE(back.ok()) << listed(back.errors());
  EXPECT_EQ(api::write(*back), once);
}

}  // namespace
