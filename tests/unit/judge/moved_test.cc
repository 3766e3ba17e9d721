// What moved between a kept proof and a new one.
#include "engine/judge/moved.h"

#include <gtest/gtest.h>

namespace lobewise::judge {
namespace {

const std::vector<KeptFinding> kKept{
    {"life", "holds", {{"life of a bearing", 100, 50, 1}, {"life of a roller", 80, 50, 0.6}}},
    {"heat", "holds", {{"oil", 350, 363, 0.2}}},
    {"motion", "holds_if", {{"play", 2, 3, 0.3}}}};

TEST(Moved, NothingOfAProofAndItself) { EXPECT_TRUE(moved(kKept, kKept).empty()); }

TEST(Moved, AMillionthIsNothingAndMoreIsNot) {
  std::vector<KeptFinding> now = kKept;
  now[1].checks[0].figure *= 1 + 0.9 * kMoved;
  EXPECT_TRUE(moved(kKept, now).empty());
  now[1].checks[0].figure *= 1 + 2 * kMoved;
  EXPECT_EQ(moved(kKept, now).checks.size(), 1u);
}

TEST(Moved, VerdictsThatTurnedStandFirstThenTheMarginThatMovedMost) {
  std::vector<KeptFinding> now = kKept;
  now[0].checks[0].margin = 0.5;
  now[0].checks[1].margin = 0.59;
  now[1].checks[0].margin = 0.19;
  now[1].verdict = "does_not_hold";
  const Moved out = moved(kKept, now);
  ASSERT_EQ(out.turned.size(), 1u);
  EXPECT_EQ(out.turned[0].before, "holds");
  EXPECT_EQ(out.turned[0].after, "does_not_hold");
  ASSERT_EQ(out.checks.size(), 3u);
  EXPECT_EQ(out.checks[0].finding, "heat");
  EXPECT_EQ(out.checks[1].before->name, "life of a bearing");
  EXPECT_EQ(out.checks[2].before->name, "life of a roller");
}

TEST(Moved, WhatOneSideLacksIsNamed) {
  std::vector<KeptFinding> now = kKept;
  now.erase(now.begin() + 1);
  now.push_back({"made", "holds", {{"units that hold", 97, 95, 0.1}}});
  now[0].checks.pop_back();
  const Moved out = moved(kKept, now);
  ASSERT_EQ(out.turned.size(), 2u);
  EXPECT_EQ(out.turned[0].after, "");
  EXPECT_EQ(out.turned[1].before, "");
  ASSERT_EQ(out.checks.size(), 3u);
  for (const MovedCheck& check : out.checks) EXPECT_NE(check.before.has_value(), check.after.has_value());
}

}  // namespace
}  // namespace lobewise::judge
