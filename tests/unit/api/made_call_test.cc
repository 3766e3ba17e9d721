#include "engine/api/made_call.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/find_made.h"
#include "tests/unit/api/support.h"

namespace lobewise::api {
namespace {

const Session& session() {
  static const Session one;
  return one;
}

Json enquiry() {
  Json e = conveyor();
  e["build"] = {{"frame", "ring-265"}, {"lobes", 31}};
  return e;
}

/// The demo range with every stage made in one way; null leaves it open.
Json range_made(const Json& manufacture) {
  Json range = *session().registry().run("range", Json::object());
  for (Json& frame : range["frames"])
    for (Json& stage : frame["stages"]) {
      stage.erase("manufacture");
      if (!manufacture.is_null()) stage["manufacture"] = manufacture;
    }
  return range;
}

Json made(const Json& e, const Json& manufacture, int units = 16) {
  const auto answer =
      session().registry().run("units.made", {{"enquiry", e}, {"range", range_made(manufacture)}, {"units", units}});
  EXPECT_TRUE(answer.ok()) << answer.errors()[0].path << ": " << answer.errors()[0].message;
  return answer.ok() ? *answer : Json::object();
}

/// Parts without error: every unit is the perfect one, but for its temperature.
TEST(UnitsMade, ExactPartsMakeOneUnit) {
  Json exact = Json::object();
  for (const char* width :
       {"pitch_radius", "roller_position", "roller_radius_batch", "roller_radius", "profile_batch", "profile_form",
        "hole_position", "hole_radius_batch", "hole_radius", "pin_position", "pin_radius_batch", "pin_radius"})
    exact[width] = 0;
  const Json answer = made(enquiry(), exact);
  EXPECT_EQ(answer["shares"]["go_together"]["share"], 1);
  EXPECT_EQ(answer["shares"]["keep_play"]["share"], 1);
  for (const Json& unit : answer["units"])
    EXPECT_DOUBLE_EQ(unit["lost_motion"].get<double>(), answer["units"][0]["lost_motion"].get<double>());
  // The warmest disc has the least play, and most lobes carry it.
  const auto by_play = [](const Json& a, const Json& b) {
    return a["running_lost_motion"].get<double>() < b["running_lost_motion"].get<double>();
  };
  const auto [tight, loose] = std::minmax_element(answer["units"].begin(), answer["units"].end(), by_play);
  EXPECT_LT((*tight)["force_ratio"].get<double>(), (*loose)["force_ratio"].get<double>());
  EXPECT_GE((*tight)["loaded"].get<double>(), (*loose)["loaded"].get<double>());
  // All that scatters is the temperature.
  for (const Json& source : answer["sources"])
    EXPECT_NEAR(source["total"].get<double>(), source["source"] == "temperature of disc and ring" ? 1 : 0, 0.02);
}

/// Each grade coarser scatters more; where the tolerances are wider than the clearance the answer says so with the
/// share.
TEST(UnitsMade, CoarserPartsAreWorse) {
  double force = 0, together = 1.01;
  for (const int grade : {5, 6, 7, 8}) {
    const Json answer = made(enquiry(), {{"grade", grade}});
    EXPECT_GT(answer["figures"]["force_ratio"]["q95"].get<double>(), force) << grade;
    EXPECT_LT(answer["shares"]["go_together"]["share"].get<double>(), together) << grade;
    force = answer["figures"]["force_ratio"]["q95"];
    together = answer["shares"]["go_together"]["share"];
    if (together < 1) {
      EXPECT_NE(answer["finding"]["notes"].dump().find("Tolerances wider than the clearance"), std::string::npos);
    }
  }
  EXPECT_LT(together, 0.2);  // 63 um for the place of a roller, some 15 um of play
}

/// Stated tolerances and a stated wish are a promise; one of them taken makes it a condition.
TEST(UnitsMade, WhatIsTakenIsNoPromise) {
  Json wish = enquiry();
  wish["wishes"]["unit_share"] = 0.9;
  EXPECT_EQ(made(wish, {{"grade", 8}})["finding"]["verdict"], "does_not_hold");
  EXPECT_EQ(made(enquiry(), {{"grade", 8}})["finding"]["verdict"], "holds_if");
  const Json open = made(wish, nullptr);
  EXPECT_EQ(open["finding"]["verdict"], "holds_if");
  EXPECT_NE(open["finding"]["notes"].dump().find("grade 6 of ISO 286-1 is taken"), std::string::npos);
  const Json& check = open["finding"]["checks"][1];
  EXPECT_LT(check["low"]["value"].get<double>(), check["figure"]["value"].get<double>());  // a coarser maker
}

TEST(UnitsMade, ReproducesAndStandsInAProof) {
  const Json asked = {{"enquiry", enquiry()}, {"units", 16}};
  EXPECT_EQ(session().registry().run("units.made", asked)->dump(),
            Session().registry().run("units.made", asked)->dump());
  const auto has_made = [](const Json& proof) {
    return std::any_of(proof["findings"].begin(), proof["findings"].end(),
                       [](const Json& finding) { return finding["id"] == "made"; });
  };
  Json request = {{"enquiry", enquiry()}, {"samples", 0}, {"in_time", false}, {"questions", false}};
  EXPECT_FALSE(has_made(*session().registry().run("prove", request)));
  request["made"] = 16;
  EXPECT_TRUE(has_made(*session().registry().run("prove", request)));
  request.erase("made");
  request["enquiry"]["wishes"]["unit_share"] = 0.9;
  EXPECT_TRUE(has_made(*session().registry().run("prove", request)));
}

/// As many units as a share needs to be shown by none failing; where they run out the condition says so.
TEST(UnitsMade, AProofLooksAtAsManyUnitsAsTheWishNeeds) {
  EXPECT_EQ(units_to_show(0.9), 64);
  EXPECT_EQ(units_to_show(0.99), 299);
  EXPECT_EQ(units_to_show(0.999), 512);
  Json wish = enquiry();
  wish["wishes"]["unit_share"] = 0.99;
  const Json fine = {{"grade", 5}, {"capability", 4}, {"pitch_radius", "1 um"}, {"roller_position", "2 um"}};
  EXPECT_EQ(made(wish, fine, 304)["finding"]["verdict"], "holds");
  const Json few = made(wish, fine, 16)["finding"];
  EXPECT_EQ(few["verdict"], "holds_if");
  EXPECT_NE(few["condition"]["si"].get<std::string>().find("16 units looked at"), std::string::npos);
}

TEST(UnitsMade, NamesWhatIsWrong) {
  const auto path_of = [](const Json& input) {
    const auto answer = session().registry().run("units.made", input);
    return answer.ok() ? std::string("accepted") : answer.errors()[0].path;
  };
  EXPECT_EQ(path_of({{"enquiry", enquiry()}, {"units", 3}}), "units");
  EXPECT_EQ(path_of({{"enquiry", enquiry()}, {"units", 100000}}), "units");
  EXPECT_EQ(path_of({{"enquiry", enquiry()}, {"range", range_made({{"grade", 4}})}}),
            "frames[0].stages[0].manufacture.grade");
  // Far wider than any clearance: no unit goes together, and that is the answer.
  EXPECT_EQ(made(enquiry(), {{"roller_position", "0.6 mm"}})["shares"]["go_together"]["share"], 0);
}

TEST(ShareOfUnits, IntervalsHoldWhatIsKnown) {
  std::vector<bool> all(160, true);
  const evidence::ShareOfUnits whole = evidence::share_of_units(all);
  EXPECT_EQ(whole.share, 1);
  EXPECT_NEAR(whole.low, 0.9815, 0.0005);  // none of 160 failed: 1 - 0.05^(1/160)
  EXPECT_EQ(whole.high, 1);
  for (std::size_t i = 0; i < all.size(); i += 10) all[i] = false;  // one in each block
  const evidence::ShareOfUnits even = evidence::share_of_units(all);
  EXPECT_NEAR(even.share, 0.9, 1e-12);
  EXPECT_NEAR(even.high - even.low, 0, 1e-9);
  for (std::size_t i = 0; i < 80; ++i) all[i] = false;
  const evidence::ShareOfUnits half = evidence::share_of_units(all);
  EXPECT_NEAR(half.share, 0.45, 1e-12);
  // 16 blocks of 0 or 0.9: 2.131 * 0.9 sqrt(1/60)
  EXPECT_NEAR(half.high - half.share, 2.131 * 0.9 * std::sqrt(1.0 / 60), 1e-3);
}

}  // namespace
}  // namespace lobewise::api
