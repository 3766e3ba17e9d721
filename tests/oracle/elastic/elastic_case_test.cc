// Case files of the independent model of the elastic disc, at the tolerances that were agreed for them: forces 0.5 % of
// the largest, rotations and stiffness 0.3 %, flexibility 1 % of its largest entry, constants of roller and pin 0.01.
#include "engine/api/elastic_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/support/json_file.h"

namespace {
using Json = nlohmann::json;

Json load(const std::string& name) { return lobewise::test::json_file("oracle/elastic/cases/" + name + ".json"); }

/// Only what is an input: a solver that peeked at results could not pass.
Json inputs_of(const Json& full) {
  Json inputs = {{"name", full["name"]}, {"params", full["params"]}, {"config", full["config"]}};
  inputs["points"] = Json::array();
  for (const Json& point : full["points"]) {
    Json asked;
    for (const char* key : {"name", "kind", "t", "j", "angle"})
      if (point.contains(key)) asked[key] = point[key];
    inputs["points"].push_back(asked);
  }
  if (full.contains("roller_C_times_E")) inputs["roller_C_times_E"]["gamma"] = full["roller_C_times_E"]["gamma"];
  if (full.contains("offsets")) inputs["offsets"] = full["offsets"];
  return inputs;
}

void expect_list(const Json& expected, const Json& actual, double share, const std::string& what) {
  const auto e = expected.get<std::vector<double>>(), a = actual.get<std::vector<double>>();
  ASSERT_EQ(e.size(), a.size()) << what;
  double most = 0;
  for (const double value : e) most = std::max(most, std::abs(value));
  for (std::size_t i = 0; i < e.size(); ++i) EXPECT_NEAR(a[i], e[i], share * most) << what << " " << i;
}

void expect_share(const Json& expected, const Json& actual, double share, const std::string& what) {
  EXPECT_NEAR(actual.get<double>() / expected.get<double>(), 1, share) << what;
}

class ElasticCase : public testing::TestWithParam<const char*> {};

TEST_P(ElasticCase, MeetsTheIndependentModel) {
  const Json expected = load(GetParam());
  const auto result = lobewise::api::elastic_case(inputs_of(expected));
  ASSERT_TRUE(result.ok()) << result.errors()[0].path << ": " << result.errors()[0].message;
  const Json& actual = *result;

  ASSERT_EQ(actual["points"].size(), expected["points"].size());
  for (std::size_t i = 0; i < expected["points"].size(); ++i)
    for (const char* key : {"xy", "n"})
      expect_list(expected["points"][i][key], actual["points"][i][key], 1e-9, expected["points"][i]["name"]);
  Json flat_expected = Json::array(), flat_actual = Json::array();
  for (const Json& row : expected["C_times_E"]) flat_expected.insert(flat_expected.end(), row.begin(), row.end());
  for (const Json& row : actual["C_times_E"]) flat_actual.insert(flat_actual.end(), row.begin(), row.end());
  expect_list(flat_expected, flat_actual, 0.01, "C");
  const Json rollers = expected.contains("roller_C_times_E") ? expected["roller_C_times_E"]["value"] : Json::array();
  for (std::size_t i = 0; i < rollers.size(); ++i)
    EXPECT_NEAR(actual["roller_C_times_E"]["value"][i].get<double>(), rollers[i].get<double>(), 0.01) << i;
  if (expected.contains("pin_C_times_E")) {
    EXPECT_NEAR(actual["pin_C_times_E"].get<double>(), expected["pin_C_times_E"].get<double>(), 0.01);
  }

  ASSERT_EQ(actual["solutions"].size(), expected["solutions"].size());
  for (std::size_t i = 0; i < expected["solutions"].size(); ++i) {
    const Json& e = expected["solutions"][i];
    const Json& a = actual["solutions"][i];
    const std::string what = "f " + e["f"].dump() + ", T " + e["T"].dump();
    for (const char* key : {"f", "T", "loaded"}) EXPECT_EQ(a[key], e[key]) << key << " " << what;
    for (const char* key : {"F", "Q", "B"})
      if (e.contains(key)) expect_list(e[key], a[key], 0.005, key + (" " + what));
    if (e.contains("u")) expect_list(e["u"], a["u"], 0.005, "u " + what);
    for (const char* key : {"beta_d", "beta_o", "stiffness_50_100"})
      if (e.contains(key)) expect_share(e[key], a[key], 0.003, key + (" " + what));
  }
}

#ifdef NDEBUG
const auto kCases = testing::Values("n11_brg", "n17_brg", "n17_pins_mean", "n17_solid_glued", "n59_mean", "n17_out");
#else
const auto kCases = testing::Values("n11_brg", "n17_solid_glued");  // unoptimised: the quick ones
#endif
INSTANTIATE_TEST_SUITE_P(Cases, ElasticCase, kCases);

TEST(ElasticCaseInput, NamesEveryProblem) {
  Json request = inputs_of(load("n17_brg"));
  request["config"]["bore"] = "free";
  request["config"].erase("rb");
  request["config"]["brg"].erase("nb");
  const auto result = lobewise::api::elastic_case(request);
  ASSERT_FALSE(result.ok());
  std::vector<std::string> paths;
  for (const auto& error : result.errors()) paths.push_back(error.path);
  EXPECT_NE(std::find(paths.begin(), paths.end(), "config.bore"), paths.end());
  EXPECT_NE(std::find(paths.begin(), paths.end(), "config.rb"), paths.end());

  request = inputs_of(load("n17_brg"));
  request["config"]["rb"] = 39.5;
  request["config"]["brg"]["nb"] = 2;
  const auto second = lobewise::api::elastic_case(request);
  ASSERT_FALSE(second.ok());
  ASSERT_EQ(second.errors().size(), 2u);
  EXPECT_EQ(second.errors()[0].path, "config.rb");
  EXPECT_EQ(second.errors()[1].path, "config.brg.nb");
}

TEST(ElasticCaseInput, RefusesUnknownNamesAndAsksForNoPoints) {
  Json request = {{"params", load("n17_solid_glued")["params"]}, {"config", load("n17_solid_glued")["config"]}};
  const auto path_of = [](const Json& asked) {
    const auto result = lobewise::api::elastic_case(asked);
    return result.ok() ? std::string("accepted") : result.errors()[0].path;
  };
  EXPECT_EQ(path_of(request), "accepted");
  request["offset"] = Json::object();
  EXPECT_EQ(path_of(request), "offset");
  request.erase("offset");
  request["config"]["radius"] = 1;
  EXPECT_EQ(path_of(request), "config.radius");
  request["config"].erase("radius");
  request["offsets"] = {{"hole_radius", {std::vector<double>(10, 0.0), std::vector<double>(10, 0.0)}}};
  EXPECT_EQ(path_of(request), "offsets.hole_radius");  // a case is solved for one disc
}

TEST(ElasticCaseInput, RefusesPointsThatAreNotThere) {
  Json request = inputs_of(load("n17_solid_glued"));
  request["points"] = {{{"name", "a"}, {"kind", "hole"}, {"j", 0}, {"angle", 0.1}},
                       {{"name", "b"}, {"kind", "bore"}, {"angle", 0.1}},
                       {{"name", "c"}, {"kind", "edge"}}};
  const auto result = lobewise::api::elastic_case(request);
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(result.errors().size(), 3u);
  EXPECT_EQ(result.errors()[0].path, "points[0].j");
  EXPECT_EQ(result.errors()[1].path, "points[1].kind");
  EXPECT_EQ(result.errors()[2].path, "points[2].kind");
}

}  // namespace
