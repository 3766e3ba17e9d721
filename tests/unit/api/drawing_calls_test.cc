// dimensions, mechanism_outline, excitations: against the range's own numbers and against geometry.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

Json ask(const std::string& call, Json input) {
  return Json::parse(answer(Json{{"call", call}, {"input", std::move(input)}}.dump()));
}
const Json kBuild{{"frame", "ring-132"}, {"lobes", 17}};

TEST(DrawingCalls, DimensionsAreTheRangesOwn) {
  const Json range = ask("range", Json::object());
  const Json result = ask("dimensions", {{"build", kBuild}, {"motor_frame", "100L"}});
  for (const Json& frame : range["frames"]) {
    if (frame["name"] != "ring-132") continue;
    EXPECT_EQ(result["length"], frame["dimensions"]["length"]);
    EXPECT_EQ(result["unit"]["shaft_height"], frame["dimensions"]["shaft_height"]);
    EXPECT_EQ(result["shaft"]["diameter"], frame["output"]["diameter"]);
    EXPECT_EQ(result["bodies"].size(), 1U);
    EXPECT_DOUBLE_EQ(result["bodies"][0]["to"], frame["dimensions"]["length"]);
  }
  // IEC 60072-1, frame 100 L (from memory, as in data/motor_frames_iec.csv): shaft 28 x 60, flange FF215 of 250 mm.
  EXPECT_NEAR(result["motor"]["shaft_height"], 0.100, 1e-12);
  EXPECT_NEAR(result["motor"]["shaft_diameter"], 0.028, 1e-12);
  EXPECT_NEAR(result["motor"]["shaft_length"], 0.060, 1e-12);
  EXPECT_NEAR(result["motor"]["flange"]["outside"], 0.250, 1e-12);
}

TEST(DrawingCalls, TwoStagesHaveTwoBodiesEndToEnd) {
  const Json range = ask("range", Json::object());
  const Json& pair = range["two_stage"][0];
  const Json result = ask("dimensions", {{"build",
                                          {{"frame", pair["frame"]},
                                           {"lobes", pair["second_lobes"]},
                                           {"first_frame", pair["first_frame"]},
                                           {"first_lobes", pair["first_lobes"]}}}});
  ASSERT_EQ(result["bodies"].size(), 2U);
  EXPECT_EQ(result["bodies"][0]["to"], result["bodies"][1]["from"]);
  EXPECT_EQ(result["bodies"][1]["to"], result["length"]);
}

TEST(DrawingCalls, ClearanceMovesEveryPointOfTheOutlineInByItself) {
  constexpr double kClearance = 2e-4;
  const Json plain = ask("mechanism_outline", {{"build", kBuild}})["stages"][0]["outline"];
  const Json moved = ask("mechanism_outline", {{"build", kBuild}, {"clearance", kClearance}})["stages"][0]["outline"];
  ASSERT_EQ(plain.size(), moved.size());
  ASSERT_EQ(plain.size(), 17U * 24U);
  for (std::size_t i = 0; i < plain.size(); ++i) {
    const double dx = plain[i][0].get<double>() - moved[i][0].get<double>();
    const double dy = plain[i][1].get<double>() - moved[i][1].get<double>();
    EXPECT_NEAR(std::hypot(dx, dy), kClearance, 1e-12);
  }
}

TEST(DrawingCalls, ExcitationOrdersCountPerMotorRevolution) {
  const Json range = ask("range", Json::object());
  const Json& pair = range["two_stage"][0];
  const double first = pair["first_lobes"], second = pair["second_lobes"];
  const Json result = ask("excitations", {{"build",
                                           {{"frame", pair["frame"]},
                                            {"lobes", pair["second_lobes"]},
                                            {"first_frame", pair["first_frame"]},
                                            {"first_lobes", pair["first_lobes"]}}},
                                          {"input_speed", "1500 rpm"}});
  ASSERT_EQ(result["stages"].size(), 2U);
  const auto order = [&](std::size_t stage, const std::string& name) {
    for (const Json& row : result["stages"][stage]["orders"])
      if (row["name"] == name) return row["order"].get<double>();
    return std::nan("");
  };
  EXPECT_DOUBLE_EQ(order(0, "lobes on ring rollers"), first + 1);
  EXPECT_NEAR(order(1, "lobes on ring rollers"), (second + 1) / first, 1e-12);
  EXPECT_NEAR(order(1, "output shaft"), 1 / (first * second), 1e-12);
  for (const Json& row : result["stages"][1]["orders"])
    EXPECT_NEAR(row["frequency"]["value"].get<double>(), row["order"].get<double>() * 25, 1e-9);
}

TEST(DrawingCalls, SayWhatIsWrong) {
  EXPECT_EQ(ask("dimensions", {{"build", kBuild}, {"mounting", "wall"}})["errors"][0]["path"], "mounting");
  EXPECT_EQ(ask("dimensions", {{"build", kBuild}, {"colour", "red"}})["errors"][0]["path"], "colour");
  EXPECT_TRUE(ask("mechanism_outline", {{"build", kBuild}, {"clearance", "1 m"}}).contains("errors"));
  EXPECT_TRUE(ask("excitations", {{"build", {{"frame", "no-such"}}}, {"input_speed", 100}}).contains("errors"));
}

}  // namespace
}  // namespace lobewise::api
