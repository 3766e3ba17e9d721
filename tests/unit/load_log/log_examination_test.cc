#include "engine/api/log_examination.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise::api {
namespace {

Json screw() {
  return Json{{"machine", {{"measured", {{"measured_torque", "1000 N·m"}, {"speed", "36 rpm"}}}}},
              {"duty", {{"hours_per_day", "10 h"}, {"days_per_year", 200}}}};
}

/// Three levels in turn: 1000 N·m for 50 %, 500 N·m for 30 %, 1600 N·m for 20 % of the time, 100 s each turn.
std::string three_levels(int turns) {
  std::string text;
  for (int turn = 0; turn < turns; ++turn)
    for (const auto& [at, torque] : {std::pair{0, 1000}, {50, 500}, {80, 1600}})
      text += std::to_string(100 * turn + at) + "," + std::to_string(torque) + "\n";
  return text + std::to_string(100 * turns) + ",0\n";
}

LogExamination examined(const Json& enquiry, const std::string& text) {
  Result<LogExamination> log = LogExamination::open(enquiry, "Time [s],Torque [N·m]", "", {});
  EXPECT_TRUE(log.ok());
  log->feed(text);
  log->finish();
  return *log;
}

TEST(LogExamination, ThreeLevelsComeBackAsBlocksOfTheEnquiry) {
  const Result<Json> result = examined(screw(), three_levels(100)).result();
  ASSERT_TRUE(result.ok());
  const Json& duty = (*result)["duty"];
  ASSERT_EQ(duty["blocks"].size(), 3u);
  EXPECT_EQ(duty["blocks"][0], (Json{{"time_share", "20 %"}, {"torque", "160 %"}}));
  EXPECT_EQ(duty["blocks"][1], (Json{{"time_share", "50 %"}, {"torque", "100 %"}}));
  EXPECT_EQ(duty["blocks"][2], (Json{{"time_share", "30 %"}, {"torque", "50 %"}}));
  EXPECT_EQ(duty["hours_per_day"], "10 h");
  EXPECT_DOUBLE_EQ(duty["days_per_year"].get<double>(), 200);
  // (0.2 1.6^(10/3) + 0.5 + 0.3 0.5^(10/3))^(3/10), by hand.
  EXPECT_NEAR((*result)["equivalent"]["value"].get<double>(), 1126.61, 0.01);
  ASSERT_EQ(duty["shocks"].size(), 1u);
  EXPECT_DOUBLE_EQ(duty["shocks"][0]["torque"].get<double>(), 1.6);
  EXPECT_NEAR(duty["shocks"][0]["per_year"].get<double>(), 2000 * 3600 / 100.0, 1);  // one in a turn of 100 s
}

TEST(LogExamination, AReadingNoDriveCouldGiveIsNotALoad) {  // found by fuzzing: tables widened for ever
  const LogExamination log = examined(screw(), "0,1000\n1,1e308\n2,-1e308\n3,1000\n4,1000\n");
  EXPECT_EQ(log.counts().unreadable, 2);
  ASSERT_TRUE(log.result().ok());
  EXPECT_DOUBLE_EQ(log.counts().highest, 1000);
}

TEST(LogExamination, FewBlocksWearAsTheirManyLevels) {
  std::string text;
  for (int t = 0; t < 20'000; ++t)
    text += std::to_string(t) + "," + std::to_string(900 + 600 * std::sin(t * 0.01) + 5 * (t * 7919 % 13)) + "\n";
  const Result<Json> result = examined(screw(), text).result();
  ASSERT_TRUE(result.ok());
  const Json& blocks = (*result)["duty"]["blocks"];
  EXPECT_LE(blocks.size(), 9u);
  double sum = 0, damage = 0;
  for (const Json& block : blocks) {
    const double share = *parse_quantity(block["time_share"].get<std::string>(), Quantity::share, "");
    const double torque = *parse_quantity(block["torque"].get<std::string>(), Quantity::share, "");
    sum += share;
    damage += share * std::pow(torque, 10.0 / 3);
  }
  EXPECT_NEAR(sum, 1, 1e-12);
  EXPECT_NEAR(1000 * std::pow(damage, 0.3) / (*result)["equivalent"]["value"].get<double>(), 1, 1e-3);
}

TEST(LogExamination, ChunksDoNotMatter) {
  const std::string text = three_levels(20);
  const Json whole = *examined(screw(), text).result();
  Result<LogExamination> log = LogExamination::open(screw(), "Time [s],Torque [N·m]", "", {});
  for (std::size_t i = 0; i < text.size(); i += 7) log->feed(std::string_view(text).substr(i, 7));
  log->finish();
  EXPECT_EQ(log->result()->dump(), whole.dump());
}

TEST(LogExamination, MotorReadingsNeedTheNameplate) {
  const auto current = LogExamination::open(screw(), "t [s],I [A]", "", {});
  ASSERT_FALSE(current.ok());
  ASSERT_EQ(current.errors().size(), 3u);
  EXPECT_EQ(current.errors()[2].path, "machine.measured.rated_current");
  Json known = screw();
  known["machine"]["measured"]["rated_power"] = "5.5 kW";
  known["machine"]["measured"]["rated_speed"] = "1450 rpm";
  EXPECT_TRUE(LogExamination::open(known, "t [s],P [kW]", "", {}).ok());
  EXPECT_FALSE(LogExamination::open(Json::object(), "t [s],P [kW]", "", {}).ok());
  EXPECT_FALSE(examined(screw(), "0,0\n1,0\n").result().ok());  // it never ran
}

TEST(LogExamination, WhatNoMotorOfThatPlateGivesIsNamed) {
  Json known = screw();
  known["machine"]["measured"] = {{"rated_power", "11 kW"},
                                  {"rated_speed", "1460 rpm"},
                                  {"rated_current", "21.5 A"},
                                  {"load_share", 0.9},
                                  {"speed", "48 rpm"}};
  const auto result = [&](const char* amps) {
    Result<LogExamination> log = LogExamination::open(known, "t [s],I [A]", "", {});
    EXPECT_TRUE(log.ok());
    std::string text;
    for (int second = 0; second < 200; ++second)
      text += std::to_string(second) + "," + (second < 5 ? "90" : amps) + "\n";  // a start may draw that much
    log->feed(text);
    log->finish();
    return log->result();
  };
  EXPECT_TRUE(result("19").ok());
  const auto refused = result("60");
  ASSERT_FALSE(refused.ok());
  EXPECT_EQ(refused.errors().front().path, "log");
  EXPECT_NE(refused.errors().front().message.find("machine.measured.rated_current"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::api
