// Case files of the independent model: every list within 1e-6 of its largest entry (l2, l3: 1e-5, the reference's own
// residual), counts exactly, leaving out contacts below 1e-6 of the largest force.
#include "engine/api/mesh_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/contact/mesh_stiffness.h"
#include "tests/support/json_file.h"

namespace {
using Json = nlohmann::json;

Json load(const std::string& name) { return lobewise::test::json_file("oracle/cases/" + name + ".json"); }

/// Only what is an input: a solver that peeked at results could not pass.
Json inputs_of(const Json& full) {
  Json inputs = {{"name", full["name"]}, {"params", full["params"]}};
  for (const char* list : {"profile", "kinematics", "unloaded", "L1", "L1F", "L2", "L3"}) {
    for (const Json& entry : full[list]) {
      Json asked;
      for (const char* key : {"t", "phi", "T"})
        if (entry.contains(key)) asked[key] = entry[key];
      inputs[list].push_back(asked);
    }
  }
  inputs["curve"] = {{"phi", full["curve"]["phi"]}, {"T", full["curve"]["T"]}};
  return inputs;
}

void flatten(const Json& value, std::vector<double>& numbers) {
  if (value.is_array())
    for (const Json& item : value) flatten(item, numbers);
  else
    numbers.push_back(value.get<double>());
}

/// Contacts that count: above 1e-6 of the largest force.
long loaded(const Json& forces) {
  std::vector<double> numbers;
  flatten(forces, numbers);
  const double most = *std::max_element(numbers.begin(), numbers.end());
  return std::count_if(numbers.begin(), numbers.end(), [&](double force) { return force > 1e-6 * most; });
}

void compare(const Json& expected, const Json& actual, double tolerance, const std::string& path) {
  if (expected.is_object()) {
    for (const auto& [key, value] : expected.items()) {
      if (key == "residual" || key == "note" || key == "params") continue;
      const std::string here = path + "." + key;
      ASSERT_TRUE(actual.contains(key)) << here;
      if (key == "loaded" || key == "pins_loaded") {
        const char* forces = key == "loaded" ? "F" : "Q";
        EXPECT_EQ(loaded(expected[forces]), loaded(actual[forces])) << here;
        EXPECT_EQ(actual[key], std::count_if(actual[forces].begin(), actual[forces].end(),
                                             [](const Json& force) { return force.get<double>() > 0; }));
        continue;
      }
      compare(value, actual[key], key == "L2" || key == "L3" ? 1e-5 : tolerance, here);
    }
    return;
  }
  if (expected.is_array() && !expected.empty() && expected[0].is_object()) {
    ASSERT_EQ(expected.size(), actual.size()) << path;
    for (std::size_t i = 0; i < expected.size(); ++i)
      compare(expected[i], actual[i], tolerance, path + "[" + std::to_string(i) + "]");
    return;
  }
  if (expected.is_string()) {
    EXPECT_EQ(expected, actual) << path;
    return;
  }
  std::vector<double> want;
  std::vector<double> got;
  flatten(expected, want);
  flatten(actual, got);
  ASSERT_EQ(want.size(), got.size()) << path;
  double most = 0;
  for (const double value : want) most = std::max(most, std::abs(value));
  // The reference's rounding: ideal gaps without clearance are 1e-14 mm there.
  const double allowed = tolerance * most + 1e-12;
  for (std::size_t i = 0; i < want.size(); ++i) EXPECT_NEAR(want[i], got[i], allowed) << path << " entry " << i;
}

class MeshCase : public testing::TestWithParam<const char*> {};

TEST_P(MeshCase, MeetsTheIndependentModel) {
  const Json full = load(GetParam());
  const auto result = lobewise::api::mesh_case(inputs_of(full));
  ASSERT_TRUE(result.ok()) << result.errors()[0].path << ": " << result.errors()[0].message;
  compare(full, *result, 1e-6, GetParam());
}
INSTANTIATE_TEST_SUITE_P(Open, MeshCase,
                         testing::Values("open_n6c", "open_n11", "open_n17", "open_n29c", "open_n59", "open_n87c"));

// The first stage of this file is not among the open cases: its second stage and the rule of the train are.
TEST(TwoStages, SecondStageAndTrain) {
  const Json full = load("open_two_stage_a");
  Json request = {{"stage1", full["stage1"]}, {"stage2", full["stage2"]}, {"T2", full["T2"]}, {"phis", full["phis"]}};
  request["stages"] = {{"n17c", load("open_n17")}, {"n29c", load("open_n29c")["params"]}};
  const auto result = lobewise::api::mesh_case(request);
  ASSERT_TRUE(result.ok());
  for (const char* key : {"eta2", "k2", "lm2"})
    EXPECT_NEAR((*result)[key].get<double>() / full[key].get<double>(), 1, 1e-5) << key;
  EXPECT_NEAR((*result)["result"]["T1"].get<double>() / full["result"]["T1"].get<double>(), 1, 1e-5);
  EXPECT_EQ((*result)["result"]["i"], 493);

  lobewise::contact::StageFigures first{-17, full["eta1"], full["k1"], full["lm1"], 0};
  lobewise::contact::StageFigures second{-29, full["eta2"], full["k2"], full["lm2"], 0};
  const auto train = lobewise::contact::in_series(first, second);
  EXPECT_NEAR(train.efficiency / full["result"]["eta"].get<double>(), 1, 1e-9);
  EXPECT_NEAR(train.stiffness / full["result"]["k"].get<double>(), 1, 1e-9);
  EXPECT_NEAR(train.lost_motion / full["result"]["lm"].get<double>(), 1, 1e-9);
  const double T1 = lobewise::contact::input_torque(second, full["T2"]);
  EXPECT_NEAR(lobewise::contact::input_torque(first, T1) / full["result"]["T_in"].get<double>(), 1, 1e-9);
}

TEST(MeshCaseErrors, NameThePlace) {
  Json request = {{"params", load("open_n17")["params"]}};
  request["params"]["r"] = 20;
  request["params"].erase("e");
  auto result = lobewise::api::mesh_case(request);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors()[0].path, "params.e");
  request["params"]["e"] = 3;
  result = lobewise::api::mesh_case(request);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors()[0].path, "params.r");
  request["params"]["r"] = 7;
  request["L1"] = {{{"phi", 0.1}}};
  result = lobewise::api::mesh_case(request);
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors()[0].path, "L1[0].T");
  result = lobewise::api::mesh_case({{"stage1", "a"}, {"stage2", "b"}, {"T2", 1e6}, {"phis", {0.0}}});
  ASSERT_FALSE(result.ok());
  ASSERT_EQ(result.errors().size(), 2u);
  EXPECT_EQ(result.errors()[1].path, "stage2");
  EXPECT_EQ(result.errors()[1].offending, "b");
}

}  // namespace
