// One unit as it was made, against the independent model: gaps and play within 1e-9 of the largest, forces within 1e-6.
#include "engine/api/perturbed_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "engine/api/mesh_case.h"
#include "tests/support/json_file.h"

namespace {
using Json = nlohmann::json;

Json load(const std::string& name) { return lobewise::test::json_file("oracle/cases/" + name + ".json"); }

void expect_list(const Json& expected, const Json& actual, double share, const std::string& what) {
  const auto e = expected.get<std::vector<double>>(), a = actual.get<std::vector<double>>();
  ASSERT_EQ(e.size(), a.size()) << what;
  double most = 0;
  for (const double value : e) most = std::max(most, std::abs(value));
  for (std::size_t i = 0; i < e.size(); ++i) EXPECT_NEAR(a[i], e[i], share * most) << what << " " << i;
}

class PerturbedCase : public testing::TestWithParam<const char*> {};

TEST_P(PerturbedCase, MeetsTheIndependentModel) {
  const Json full = load(GetParam());
  const auto result = lobewise::api::perturbed_case(full["input"]);
  ASSERT_TRUE(result.ok()) << result.errors()[0].path << ": " << result.errors()[0].message;
  const Json& rows = (*result)["rows"];
  ASSERT_EQ(rows.size(), full["expected"].size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Json& e = full["expected"][i];
    const Json& a = rows[i];
    EXPECT_NEAR(a["beta_o"].get<double>() / e["beta_o"].get<double>(), 1, 1e-7) << i;
    ASSERT_EQ(a["discs"].size(), e["discs"].size());
    for (std::size_t d = 0; d < e["discs"].size(); ++d) {
      const std::string what = "row " + std::to_string(i) + " disc " + std::to_string(d);
      expect_list(e["unloaded"][d]["gap"], a["unloaded"][d]["gap"], 1e-9, what + " gap");
      for (const char* key : {"beta_minus", "beta_plus"})
        EXPECT_NEAR(a["unloaded"][d][key].get<double>() / e["unloaded"][d][key].get<double>(), 1, 1e-9) << what << key;
      expect_list(e["discs"][d]["F"], a["discs"][d]["F"], 1e-6, what + " F");
      expect_list(e["discs"][d]["Q"], a["discs"][d]["Q"], 1e-6, what + " Q");
      EXPECT_NEAR(a["discs"][d]["torque"].get<double>() / e["discs"][d]["torque"].get<double>(), 1, 1e-6) << what;
    }
  }
}
INSTANTIATE_TEST_SUITE_P(Open, PerturbedCase, testing::Values("perturbed_1", "perturbed_2"));

TEST(PerturbedCaseErrors, NameThePlace) {
  const Json full = load("perturbed_1");
  const auto path_of = [](const Json& request) {
    const auto result = lobewise::api::perturbed_case(request);
    return result.ok() ? std::string("accepted") : result.errors()[0].path;
  };
  Json request = full["input"];
  request["offsets"]["roller_radials"] = Json::array();
  EXPECT_EQ(path_of(request), "offsets.roller_radials");
  request = full["input"];
  request["offsets"]["roller_radial"].erase(0);
  EXPECT_EQ(path_of(request), "offsets.roller_radial");
  request = full["input"];
  request["offsets"]["hole_radius"][1][3] = "0";
  EXPECT_EQ(path_of(request), "offsets.hole_radius[1]");
  request = full["input"];
  request["offsets"]["pin_radius"][2] = 0.9;  // more than a tenth of the pin
  EXPECT_EQ(path_of(request), "offsets.pin_radius[2]");
  request = full["input"];
  request["offsets"]["hole_radial"].erase(1);
  EXPECT_EQ(path_of(request), "offsets.hole_radial");
  request = full["input"];
  request.erase("T");
  EXPECT_EQ(path_of(request), "T");
  request = full["input"];
  request["params"]["clearance"] = 0.1;
  EXPECT_EQ(path_of(request), "params.clearance");
}

TEST(MeshCaseErrors, UnknownNamesAreRefused) {
  const Json full = load("open_n17");
  const auto path_of = [](const Json& request) {
    const auto result = lobewise::api::mesh_case(request);
    return result.ok() ? std::string("accepted") : result.errors()[0].path;
  };
  EXPECT_EQ(path_of(full), "accepted");  // an answer is a case of its own
  Json request = full;
  request["offsets"] = Json::object();
  EXPECT_EQ(path_of(request), "offsets");
  request = full;
  request["L2"][1]["angle"] = 0.1;
  EXPECT_EQ(path_of(request), "L2[1].angle");
  request = full;
  request["params"]["rw_"] = 0.1;
  EXPECT_EQ(path_of(request), "params.rw_");
}

}  // namespace
