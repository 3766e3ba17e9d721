// compare and gear_pair through the door, on invented drives.
#include <gtest/gtest.h>

#include <cmath>

#include "engine/api/json_io.h"
#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

Json enquiry(const char* kind) {
  return Json{{"machine", {{"measured", {{"measured_torque", "900 N·m"}, {"speed", "50 rpm"}, {"feed", "even"}}}}},
              {"build", {{"frame", "ring-224"}, {"lobes", 31}}},
              {"incumbent",
               {{"kind", kind},
                {"ratio", 29},
                {"troubles", {{{"what", "overheating"}, {"per_year", 1}}}},
                {"dimensions", {{"shaft_height", "250 mm"}, {"length", "2 m"}}}}},
              {"economics",
               {{"years", 10},
                {"energy_price", "0.15 … 0.25 /kWh"},
                {"stop_cost", "200 /h"},
                {"stops_per_year", "0.5 … 1"},
                {"candidate_spare", "yes"},
                {"replacement_price", "800 … 1000"}}}};
}

const Session& session() {
  static const Session kept;
  return kept;
}
Json call(const char* name, const Json& input) {
  return Json::parse(session().answer(Json{{"call", name}, {"input", input}}.dump()));
}

const Json& axis(const Json& result, const std::string& id) {
  for (const Json& one : result["axes"])
    if (one["id"] == id) return one;
  throw std::runtime_error("no axis " + id);
}

TEST(CompareCall, SideBySideFitAndCase) {
  const Json result = call("compare", {{"enquiry", enquiry("worm")}});
  ASSERT_FALSE(result.contains("errors")) << result.dump();
  EXPECT_EQ(axis(result, "efficiency")["better"], "candidate");
  // Bronze on steel against steel on steel.
  EXPECT_EQ(axis(result, "contact_stress")["better"], "unknown");
  EXPECT_EQ(result["incumbent"]["kind"], "worm");
  EXPECT_EQ(result["troubles"][0]["what"], "overheating");
  EXPECT_FALSE(result["verdict"].empty());
  ASSERT_EQ(result["cases"].size(), 2U);
  for (const Json& one : result["cases"]) {
    const double value = one["value"]["nominal"]["value"];
    EXPECT_NEAR(value, one["keep"]["total"]["value"].get<double>() - one["candidate"]["total"]["value"].get<double>(),
                1e-6 * one["keep"]["total"]["value"].get<double>());
    EXPECT_LE(one["value"]["low"]["value"], one["value"]["high"]["value"]);
    double parts = 0;
    for (const char* part : {"purchase", "energy", "carbon", "upkeep", "repairs", "standstill"})
      parts += one["keep"][part]["value"].get<double>();
    EXPECT_NEAR(parts, one["keep"]["total"]["value"].get<double>(), 1e-6 * parts);
    EXPECT_EQ(one["charts"].size(), 3U);
    EXPECT_GE(one["break_evens"].size(), 4U);
    // The chart of the cash flow ends at the present value.
    EXPECT_NEAR(one["charts"][0]["series"][0]["y"].back().get<double>(), value, 1e-6 * std::abs(value) + 1e-6);
  }
  EXPECT_EQ(result["fit"]["verdict"], "adapter");
  EXPECT_FALSE(result["fit"]["missing"].empty());
  bool estimate = false;
  for (const Json& caution : result["cautions"]) estimate = estimate || caution["key"] == "case_estimate";
  EXPECT_TRUE(estimate);
}

TEST(CompareCall, NothingKnownIsAnAnswerTooAndSaysWhatIsMissing) {
  Json bare = enquiry("worm");
  bare.erase("incumbent");
  bare.erase("economics");
  const Json result = call("compare", {{"enquiry", bare}});
  ASSERT_FALSE(result.contains("errors")) << result.dump();
  EXPECT_TRUE(result["incumbent"].is_null());
  EXPECT_TRUE(result["axes"].empty());
  EXPECT_TRUE(result["cases"].empty());
  EXPECT_FALSE(result["missing"].empty());
}

TEST(CompareCall, AUnitThatMustGoIsOnlySetAgainstANewOne) {
  Json must = enquiry("parallel_shaft");
  must["economics"]["must_be_replaced"] = true;
  const Json result = call("compare", {{"enquiry", must}});
  ASSERT_EQ(result["cases"].size(), 1U) << result.dump().substr(0, 400);
  EXPECT_EQ(result["cases"][0]["against"], "replacement");
}

TEST(CompareCall, TheGearedUnitMayWinAndThatIsSaid) {
  Json good = enquiry("parallel_shaft");
  good["economics"]["stops_per_year"] = 0;
  good["economics"]["replacement_delivery"] = "1 week";
  good["economics"]["candidate_delivery"] = "8 week";
  const Json result = call("compare", {{"enquiry", good}});
  EXPECT_EQ(axis(result, "delivery")["better"], "incumbent");
  EXPECT_LT(result["cases"][0]["value"]["nominal"]["value"].get<double>(), 0);
  EXPECT_FALSE(result["cases"][0]["payback"].contains("nominal"));
  std::string all;
  for (const Json& sentence : result["verdict"]) all += sentence["si"].get<std::string>();
  EXPECT_NE(all.find("unit is better at"), std::string::npos) << all;
  EXPECT_NE(all.find("does not pay"), std::string::npos) << all;
}

TEST(CompareCall, AWrongUnitIsRefusedWithItsPath) {
  Json wrong = enquiry("worm");
  wrong["incumbent"]["ratio"] = 2;
  const Json result = call("compare", {{"enquiry", wrong}});
  ASSERT_TRUE(result.contains("errors"));
  EXPECT_EQ(result["errors"][0]["path"], "incumbent.ratio");
}

TEST(GearPairCall, SharesAddUpAndPointsLieOnTheLineOfAction) {
  const Json result = call("gear_pair", {{"enquiry", enquiry("helical_in_line")}, {"steps", 24}});
  ASSERT_FALSE(result.contains("errors")) << result.dump();
  const Json& pair = result["pair"];
  const double alpha = pair["working_angle"];
  ASSERT_EQ(result["contacts"].size(), 24U);
  double mean = 0;
  for (const Json& instant : result["contacts"]) {
    double share = 0;
    mean += static_cast<double>(instant.size()) / 24;
    for (const Json& contact : instant) {
      share += contact["share"].get<double>();
      if (!contact["in_section"].get<bool>()) continue;
      // Through the pitch point, at right angles to the base circles (textbook).
      const double x = contact["point"][0].get<double>() - pair["pinion_radii"]["pitch"].get<double>();
      const double y = contact["point"][1];
      EXPECT_NEAR(std::abs(x * std::cos(alpha)), std::abs(y * std::sin(alpha)), 1e-9);
    }
    EXPECT_NEAR(share, 1, 1e-9);
  }
  // Pairs in contact on average: transverse contact ratio and overlap ratio (textbook).
  EXPECT_NEAR(mean, pair["contact_ratio"].get<double>() + pair["overlap_ratio"].get<double>(), 0.1);
  EXPECT_NEAR(result["wheel_centre"][0].get<double>(), pair["centre_distance"].get<double>(), 1e-15);
  // Tooth outlines run between root and tip.
  for (const char* gear : {"pinion", "wheel"}) {
    double largest = 0;
    for (const Json& p : result[std::string(gear) + "_outline"])
      largest = std::max(largest, std::hypot(p[0].get<double>(), p[1].get<double>()));
    EXPECT_NEAR(largest, pair[std::string(gear) + "_radii"]["tip"].get<double>(), 1e-9);
  }
}

TEST(GearPairCall, AnUnknownUnitIsDrawnAsAHelicalOneAndSaysSo) {
  Json bare = enquiry("worm");
  bare.erase("incumbent");
  EXPECT_EQ(call("gear_pair", {{"enquiry", bare}})["kind_assumed"], true);
}

TEST(GearPairCall, WhatHasNoInvoluteTeethIsRefused) {
  EXPECT_EQ(call("gear_pair", {{"enquiry", enquiry("worm")}})["errors"][0]["path"], "stage");
  EXPECT_EQ(call("gear_pair", {{"enquiry", enquiry("planetary")}, {"stage", 9}})["errors"][0]["path"], "stage");
  EXPECT_EQ(call("gear_pair", {{"enquiry", enquiry("planetary")}, {"steps", 3}})["errors"][0]["path"], "steps");
}

TEST(GearPairCall, EveryKindWithTeethIsDrawn) {
  for (const char* kind : {"helical_in_line", "parallel_shaft", "bevel_helical", "planetary", "belt_and_gear"}) {
    const Json result = call("gear_pair", {{"enquiry", enquiry(kind)}});
    ASSERT_FALSE(result.contains("errors")) << kind << result.dump();
    for (std::size_t stage = 0; stage < result["stages"].size(); ++stage) {
      const Json one = call("gear_pair", {{"enquiry", enquiry(kind)}, {"stage", stage}});
      EXPECT_EQ(one.contains("errors"), !result["stages"][stage]["drawn"].get<bool>()) << kind << stage;
    }
  }
}

}  // namespace
}  // namespace lobewise::api
