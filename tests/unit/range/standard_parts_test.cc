#include "engine/range/standard_parts.h"

#include <gtest/gtest.h>

#include "data/motor_frames_iec.h"

namespace {
using namespace lobewise;
using namespace lobewise::range;

TEST(StandardParts, KeysAreThoseOfMotorShafts) {
  // Width F and height over the key GA = d + h - t1 of every IEC motor shaft from 11 mm on: data/motor_frames_iec.csv.
  int compared = 0;
  for (const auto& row : data::kMotorFramesIec) {
    const auto key = parallel_key(row.d_4to8p_mm);
    if (!key) continue;
    ++compared;
    EXPECT_EQ(key->width, row.f_key_mm) << row.frame;
    EXPECT_EQ(row.d_4to8p_mm + key->height - key->shaft_depth, row.ga_mm) << row.frame;
  }
  EXPECT_GE(compared, 20);
}

TEST(StandardParts, NextLargerAndNextSmaller) {
  EXPECT_EQ(bearing_from(Series::two, 33).bore, 35);
  EXPECT_EQ(bearing_from(Series::two, 33).outside, 72);
  EXPECT_EQ(bearing_from(Series::three, 500).bore, 100);
  EXPECT_EQ(bearing_up_to(Series::three, 33).bore, 30);
  EXPECT_EQ(bearing_up_to(Series::two, 5).bore, 10);
  EXPECT_EQ(key_length(57), 56);
  EXPECT_EQ(key_length(5), 0);
  EXPECT_EQ(shaft_height(113), 125);
  EXPECT_FALSE(parallel_key(9).has_value());
  EXPECT_FALSE(parallel_key(300).has_value());
}

}  // namespace
