#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "engine/api/registry.h"
#include "tests/support/source_dir.h"

namespace {
using namespace lobewise::api;

Json ask(Json input) {
  Session session;
  return Json::parse(session.answer(Json{{"call", "rate"}, {"input", std::move(input)}}.dump()));
}

TEST(RateCall, EveryFrameRatioAndSpeedWithWhatLimitsIt) {
  const Json answer = ask({{"speeds", {"1450 rpm"}}});
  ASSERT_TRUE(answer.contains("rows")) << answer.dump().substr(0, 300);
  EXPECT_NE(answer["note"].get<std::string>().find("invented"), std::string::npos);
  std::size_t single = 0;
  for (const Json& row : answer["rows"]) {
    if (!row.contains("first_frame")) ++single;
    if (row["limited_by"] == "input speed") continue;
    EXPECT_EQ(row["limited_by"], row["criteria"][0]["name"]);
    EXPECT_EQ(row["torque"]["value"], row["criteria"][0]["torque"]["value"]);
    EXPECT_FALSE(row.contains("working"));
  }
  EXPECT_EQ(single, 228u);
  EXPECT_GT(answer["rows"].size(), 500u);
}

TEST(RateCall, OneBuildWithItsWorking) {
  const Json answer = ask(
      {{"build", {{"frame", "ring-112"}, {"lobes", 17}}}, {"speeds", {"960 rpm", "1450 rpm"}}, {"hours", "20000 h"}});
  ASSERT_TRUE(answer.contains("rows")) << answer.dump().substr(0, 300);
  ASSERT_EQ(answer["rows"].size(), 2u);
  EXPECT_GT(answer["rows"][0]["torque"]["value"], answer["rows"][1]["torque"]["value"]);
  EXPECT_GE(answer["rows"][0]["working"].size(), 8u);
  EXPECT_NE(answer["model"].get<std::string>().find("bend"), std::string::npos);
}

TEST(RateCall, RatesTheRangeOfSomebodyElse) {
  std::ifstream file(lobewise::test::source_dir() + "/range/example_own_range.json");
  const Json answer = ask({{"range", Json::parse(file)}});
  ASSERT_TRUE(answer.contains("rows")) << answer.dump().substr(0, 300);
  EXPECT_EQ(answer["rows"].size(), 4u);
  EXPECT_EQ(answer["rows"][3]["limited_by"], "input speed");  // 2900 above its 2000 rpm
  EXPECT_EQ(answer["rows"][3]["torque"]["value"], 0);
}

TEST(RateCall, RefusesWithPaths) {
  const Json answer = ask({{"speeds", {"-3 rpm"}}, {"hours", "no"}, {"colour", 1}});
  ASSERT_TRUE(answer.contains("errors"));
  std::vector<std::string> paths;
  for (const Json& error : answer["errors"]) paths.push_back(error["path"]);
  std::sort(paths.begin(), paths.end());
  EXPECT_EQ(paths, (std::vector<std::string>{"colour", "hours", "speeds[0]"}));
  const Json unknown = ask({{"build", {{"frame", "ring-1"}}}});
  ASSERT_TRUE(unknown.contains("errors"));
  EXPECT_EQ(unknown["errors"][0]["path"], "build.frame");
}

}  // namespace
