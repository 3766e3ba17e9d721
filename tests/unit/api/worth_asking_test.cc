#include "engine/api/worth_asking.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/api/registry.h"
#include "support.h"

namespace lobewise::api {
namespace {

Json proved(const Json& enquiry) {
  const Result<Json> result = Session().registry().run(
      "prove", Json{{"enquiry", enquiry}, {"samples", 0}, {"build", {{"frame", "ring-224"}, {"lobes", 31}}}});
  EXPECT_TRUE(result.ok()) << (result ? "" : result.errors().front().message);
  return result ? *result : Json();
}

TEST(WorthAsking, SortedByWhatAnAnswerMoves) {
  const Json questions = proved(conveyor())["questions"];
  ASSERT_GT(questions.size(), 2u);
  bool decides_over = false;
  double last = 1e9;
  for (const Json& question : questions) {
    if (!question.contains("check")) continue;
    EXPECT_LT(question["low"].get<double>(), question["high"].get<double>());
    EXPECT_FALSE(question["decides"].get<bool>() && decides_over) << "what decides comes first";
    decides_over = decides_over || !question["decides"].get<bool>();
    const auto capped = [](double margin) { return std::clamp(margin, -0.5, 0.5); };
    const double moved = capped(question["high"]) - capped(question["low"]) + (question["decides"].get<bool>() ? 2 : 0);
    EXPECT_LE(moved, last + 1e-12);
    last = moved;
  }
}

TEST(WorthAsking, WhatWasAnsweredIsNotAskedAgain) {
  const auto asks = [](const Json& questions, const char* path) {
    return std::any_of(questions.begin(), questions.end(), [&](const Json& q) { return q["path"] == path; });
  };
  Json enquiry = conveyor();
  EXPECT_TRUE(asks(proved(enquiry)["questions"], "supply.starting"));
  enquiry["supply"]["starting"] = "direct";
  EXPECT_FALSE(asks(proved(enquiry)["questions"], "supply.starting"));
}

TEST(WorthAsking, TheServiceFactorsOfThePracticeStandBesideTheDuty) {
  const Json machine = proved(conveyor())["machine"];
  const Json& practice = machine["practice"];
  EXPECT_LE(practice["low"].get<double>(), practice["high"].get<double>());
  EXPECT_FALSE(practice["explanation"].empty());
  EXPECT_NE(practice["source"].get<std::string>().find("common practice, no source"), std::string::npos);
  EXPECT_EQ(machine["shock_class"], "uneven");
  // An inclined conveyor runs back: what a backstop must hold is said.
  EXPECT_TRUE(std::any_of(machine["figures"].begin(), machine["figures"].end(),
                          [](const Json& f) { return f["id"] == "holding_torque" && f["value"]["value"] > 0; }));
}

TEST(TorqueCyclesOfALog, WeakenTheShaft) {
  const auto safety = [](const Json& enquiry) {
    const Json answer = proved(enquiry);
    for (const Json& finding : answer["findings"])
      if (finding["id"] == "overhung")
        for (const Json& check : finding["checks"])
          if (check["name"] == "fatigue safety of the keyed shaft end") return check["figure"]["value"].get<double>();
    return 0.0;
  };
  Json enquiry = conveyor();
  enquiry["duty"] = {{"starts_per_hour", 0.0}};
  const double calm = safety(enquiry);
  enquiry["duty"]["torque_cycles"] = Json::array({{{"range", "200 %"}, {"mean", "100 %"}, {"per_hour", 60}}});
  const double swinging = safety(enquiry);
  EXPECT_GT(swinging, 0);
  EXPECT_LT(swinging, 0.9 * calm);
}

}  // namespace
}  // namespace lobewise::api
