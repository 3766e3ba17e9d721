// What a line of a list comes to: against closed forms and the rules as docs/survey.md states them.
#include "engine/judge/line.h"

#include <gtest/gtest.h>

#include "engine/evidence/finding.h"

namespace lobewise::judge {
namespace {

using evidence::Basis;
using evidence::Check;
using evidence::Finding;
using evidence::Verdict;

TEST(Rank, PointsAddUpAndAreExplained) {
  const RankingScale scale;
  LineFacts facts;
  facts.proved = facts.serves = true;
  EXPECT_EQ(why(rank(facts, scale), UnitSystem::si), "nothing stands out");
  EXPECT_DOUBLE_EQ(rank(facts, scale).total(), 0);
  facts.motor_load = 1.25;
  facts.gear_load = 0.9;
  facts.stoppage = 20 * 3600;
  facts.stoppages = 4;
  facts.stoppage_cost = 500;
  facts.energy_saved = 5e6 * 3600;
  facts.present_gear = "worm gear unit";
  facts.conditions = 2;
  const Ranked ranked = rank(facts, scale);
  EXPECT_DOUBLE_EQ(ranked.overload, 20);
  EXPECT_DOUBLE_EQ(ranked.stoppages, 15);
  EXPECT_DOUBLE_EQ(ranked.energy, 5);
  EXPECT_DOUBLE_EQ(ranked.proof, 4);
  EXPECT_DOUBLE_EQ(ranked.total(), 44);
  EXPECT_EQ(why(ranked, UnitSystem::si),
            "the motor carries 125 % of its rating (20.0); it stopped for 20 h a year in 4 events, worth 10000 (15.0); "
            "5000 kWh a year less than with the present worm gear unit (5.0); 2 findings hold under a condition only "
            "(4.0)");
  facts.energy_saved = -1e9;
  facts.serves = false;
  facts.failing = "life, heat";
  EXPECT_DOUBLE_EQ(rank(facts, scale).energy, 0);
  EXPECT_DOUBLE_EQ(rank(facts, scale).proof, 20);
  EXPECT_NE(why(rank(facts, scale), UnitSystem::si).find("fails at life, heat (20.0)"), std::string::npos);
}

TEST(Rank, ARefusedLineEarnsNothing) {
  LineFacts facts;
  facts.refused = true;
  facts.motor_load = 3;
  facts.obstacle = "people ride";
  EXPECT_EQ(rank(facts, {}).total(), 0);
  EXPECT_EQ(why(rank(facts, {}), UnitSystem::si), "refused: people ride");
  EXPECT_STREQ(result_of(facts), "refused");
}

TEST(Rank, AmericansReadAmericanUnits) {
  LineFacts facts;
  facts.serves = true;
  facts.energy_saved = 7.2e9;
  facts.present_gear = "worm gear unit";
  EXPECT_EQ(why(rank(facts, {}), UnitSystem::us), "2000 kWh a year less than with the present worm gear unit (2.0)");
}

TEST(PresentLoad, OfMotorAndGearUnit) {
  PresentLoad load{1000, 10, 0.8, 11000, 1500, 1.5};
  EXPECT_NEAR(*motor_load(load), 1000 * 10 / 0.8 / 11000, 1e-15);
  EXPECT_DOUBLE_EQ(*gear_load(load), 1);
  load.train_efficiency.reset();
  EXPECT_NEAR(*motor_load(load), 1000 * 10 / 0.9 / 11000, 1e-15);
  load.rated_power.reset();
  load.rated_torque.reset();
  EXPECT_FALSE(motor_load(load) || gear_load(load));
}

Finding finding(const char* id, Verdict verdict, Basis basis) {
  Finding out;
  out.id = id;
  out.verdict = verdict;
  Check check;
  check.basis = basis;
  check.limit = 1;
  out.checks = {check};
  return out;
}

TEST(Standing, OnlyTheBuildRefusesAndAYardstickIsNoCondition) {
  const Standing standing = standing_of({finding("cost", Verdict::does_not_hold, Basis::promise),
                                         finding("sharing", Verdict::holds_if, Basis::yardstick),
                                         finding("motor", Verdict::holds_if, Basis::assumed)});
  EXPECT_TRUE(standing.serves);
  EXPECT_EQ(standing.conditions, 1);
  EXPECT_EQ(standing.failing, "cost");
  EXPECT_FALSE(standing_of({finding("life", Verdict::does_not_hold, Basis::promise)}).serves);
}

TEST(Standing, TheResultOfALine) {
  LineFacts facts;
  EXPECT_STREQ(result_of(facts), "no build serves");
  facts.serves = true;
  EXPECT_STREQ(result_of(facts), "serves");
  facts.conditions = 1;
  EXPECT_STREQ(result_of(facts), "serves under conditions");
  facts.offered = false;
  EXPECT_STREQ(result_of(facts), "not offered");
  facts.obstacle = "no torque";
  EXPECT_STREQ(result_of(facts), "not proved");
}

}  // namespace
}  // namespace lobewise::judge
