// Cautions of an answer: ranked, each with who does it and when, none twice.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "engine/api/registry.h"
#include "engine/demand/caution_duty.h"
#include "support.h"

namespace lobewise::api {
namespace {

Result<Json> call(const char* name, Json enquiry) {
  return Session().registry().run(name, Json{{"enquiry", std::move(enquiry)}});
}

/// Everything that adds a caution at once.
Json loud(Json enquiry) {
  enquiry["site"] = {{"ambient_low", "-25 °C"}, {"ambient_high", "45 °C"},     {"altitude", "1500 m"},
                     {"place", "outdoors_sun"}, {"washed_down", true},         {"dusty", true},
                     {"food_area", true},       {"explosive_atmosphere", true}};
  enquiry["mounting"] = {{"orientation", "output_down"}, {"lifting", "5000 kg"}};
  enquiry["supply"] = {{"starting", "inverter"}, {"voltage", "400 V"}};
  enquiry["incumbent"] = {{"kind", "worm"}, {"ratio", 29}, {"rated_power", "11 kW"}};
  return enquiry;
}

void sound(const Json& cautions) {
  std::set<std::string> keys, texts, openings;
  int last = 0;
  for (const Json& caution : cautions) {
    const std::string key = caution["key"], text = caution["text"];
    EXPECT_TRUE(keys.insert(key).second) << key;
    EXPECT_TRUE(texts.insert(text).second) << text;
    EXPECT_TRUE(openings.insert(text.substr(0, 40)).second) << text;
    EXPECT_NE(demand::find_duty(key), nullptr) << key;
    EXPECT_FALSE(caution["who"].get<std::string>().empty());
    EXPECT_FALSE(caution["when"].get<std::string>().empty());
    EXPECT_GE(caution["rank"].get<int>(), last) << key;
    last = caution["rank"];
  }
  EXPECT_GE(cautions.size(), 5u);
}

TEST(Cautions, RankedWithWhoAndWhenAndNoneTwice) {
  for (const Json& enquiry : {conveyor(), loud(conveyor())})
    for (const char* name : {"prove", "compare", "check"}) {
      const Result<Json> answer = call(name, enquiry);
      ASSERT_TRUE(answer.ok()) << name << ": " << answer.errors().front().message;
      sound((*answer)["cautions"]);
    }
}

TEST(Cautions, TheGravestOfALoudPlaceIsTheExplosion) {
  const Result<Json> answer = call("prove", loud(conveyor()));
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ((*answer)["cautions"][0]["key"], "explosive");
  // Lock-out is said once, whatever asks for it.
  int locks = 0;
  for (const Json& caution : (*answer)["cautions"])
    locks += caution["text"].get<std::string>().find("lock out") != std::string::npos ? 1 : 0;
  EXPECT_EQ(locks, 1);
}

TEST(NoOffer, AnExplosivePlaceHasNoPriceUntilItIsDescribed) {
  Json enquiry = conveyor();
  enquiry["site"] = {{"explosive_atmosphere", true}};
  const Result<Json> proof = call("prove", enquiry), size = call("size", enquiry);
  ASSERT_TRUE(proof.ok() && size.ok());
  for (const Json* answer : {&*proof, &*size}) {
    ASSERT_TRUE(answer->contains("why_none"));
    EXPECT_NE((*answer)["why_none"]["si"].get<std::string>().find("Not offered for this zone"), std::string::npos);
  }
  EXPECT_EQ((*size)["chosen"], -1);
  EXPECT_EQ((*proof)["offer"]["offered"], false);
  EXPECT_EQ((*proof)["offer"]["price"]["si"], "not offered");
  for (const Json& fact : (*proof)["drive"]) EXPECT_NE(fact["id"], "price");
  for (const Json& candidate : (*size)["candidates"]) EXPECT_EQ(candidate["price"]["si"], "not offered");
  // The same for a build that is named.
  const Result<Json> named =
      Session().registry().run("prove", Json{{"enquiry", enquiry}, {"build", (*proof)["build"]}});
  ASSERT_TRUE(named.ok());
  EXPECT_TRUE(named->contains("why_none"));
  enquiry["site"]["explosive"] = {
      {"zone", "zone_22"}, {"category", 3}, {"temperature_class", "t3"}, {"certifier", "inspection body"}};
  const Result<Json> stated = call("prove", enquiry);
  ASSERT_TRUE(stated.ok());
  EXPECT_FALSE(stated->contains("why_none"));
  EXPECT_EQ((*stated)["offer"]["offered"], true);
}

TEST(Asked, TheServiceFactorStandsInTheRequirementAndAmongTheFacts) {
  Json enquiry = conveyor();
  enquiry["wishes"] = {{"service_factor", 1.4}};
  const Result<Json> proof = call("prove", enquiry);
  ASSERT_TRUE(proof.ok());
  const auto has = [](const Json& list, const char* key, const char* value) {
    return std::any_of(list.begin(), list.end(), [&](const Json& item) { return item[key] == value; });
  };
  EXPECT_TRUE(has((*proof)["requirement"], "path", "wishes.service_factor"));
  EXPECT_TRUE(has((*proof)["drive"], "id", "service_factor"));
}

}  // namespace
}  // namespace lobewise::api
