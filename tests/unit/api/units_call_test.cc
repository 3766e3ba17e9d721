// The calls `units` and `quantity`, which screens live on.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

Json ask(const Json& request) { return Json::parse(answer(request.dump())); }

TEST(UnitsCall, EveryDisplayUnitIsAmongTheUnits) {
  const Json answer = ask({{"call", "units"}});
  ASSERT_TRUE(answer.contains("quantities"));
  for (const auto& [key, quantity] : answer["quantities"].items())
    for (const char* system : {"si", "us"}) {
      bool found = false;
      for (const Json& unit : quantity["units"]) {
        found = found || unit["name"] == quantity[system];
        if (unit["name"] == quantity[system] && unit.contains("system")) {
          EXPECT_EQ(unit["system"], system) << key;  // a unit of one system is never shown in the other
        }
      }
      EXPECT_TRUE(found) << key << " " << system;
    }
}

TEST(UnitsCall, ReadsWhatPeopleWriteAndNamesWhatItCannotRead) {
  const Json answer = ask({{"call", "quantity"},
                           {"input",
                            {{"items", Json::array({Json{{"text", "7.5 hp"}, {"quantity", "power"}},
                                                    Json{{"text", "7.5 mm"}, {"quantity", "power"}}})}}}});
  EXPECT_NEAR(answer["values"][0]["value"].get<double>(), 7.5 * 745.69987, 1e-3);  // NIST SP 811, appendix B
  EXPECT_EQ(answer["values"][0]["us"], "7.5 hp");
  EXPECT_NE(answer["values"][1]["error"].get<std::string>().find("unit of length"), std::string::npos);
}

TEST(UnitsCall, RefusesAnUnknownQuantityWithItsPlace) {
  const Json answer =
      ask({{"call", "quantity"}, {"input", {{"items", Json::array({Json{{"text", "1"}, {"quantity", "colour"}}})}}}});
  EXPECT_EQ(answer["errors"][0]["path"], "items[0].quantity");
}

}  // namespace
}  // namespace lobewise::api
