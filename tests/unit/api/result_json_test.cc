// Results by their description: out, back, and as a schema.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/api/json_io.h"
#include "engine/result/comparison.h"
#include "engine/result/sizing.h"

namespace lobewise::api {
namespace {

evidence::Finding example() {
  evidence::Finding finding;
  finding.id = "life";
  finding.question = "How long?";
  finding.verdict = evidence::Verdict::holds_if;
  finding.answer = {"{} at least", {{3.6e7, Quantity::duration}}};
  finding.checks.push_back({"life", 2, 1, Quantity::number, false, 1.5, std::nullopt, 0, evidence::Basis::yardstick});
  finding.checks.push_back({"heat", 1, 2, Quantity::number, true, std::nullopt, std::nullopt});
  finding.checks.back().of_order = true;
  return finding;
}

TEST(ResultJson, WhatIsWrittenIsReadBack) {
  const Json json = write(result::of(example()));
  const Result<result::Finding> back = result::read<result::Finding>(json);
  ASSERT_TRUE(back.ok()) << back.errors().front().message;
  EXPECT_EQ(write(*back), json);
  EXPECT_EQ(back->verdict, evidence::Verdict::holds_if);
  EXPECT_TRUE(back->working.has_value());
  EXPECT_TRUE(back->working->empty());
  EXPECT_FALSE(back->checks[0].high.has_value());
}

TEST(ResultJson, ACheckSaysWhetherItDecidesIsOfTheOrderAndARuleOfTheTrade) {
  const Json checks = write(result::of(example()))["checks"];
  EXPECT_EQ(checks[0]["basis"], "yardstick");
  EXPECT_EQ(checks[0]["of_order"], false);
  EXPECT_EQ(checks[1]["of_order"], true);
  EXPECT_EQ(checks[0]["decides"], false);
  EXPECT_EQ(checks[1]["decides"], true) << "half of its limit is left; of the other one a whole one";
}

TEST(ResultJson, AbsentIsLeftOutExceptWhereNullIsSaid) {
  const Json json = write(result::Comparison{});
  EXPECT_TRUE(json["incumbent"].is_null());
  EXPECT_FALSE(json.contains("why_none"));
  EXPECT_EQ(json["axes"], Json::array());
  const Json fact = write(result::Fact{"a", "A", {}, "words"});
  EXPECT_EQ(fact["value"], "words");
  const Result<result::Fact> back = result::read<result::Fact>(fact);
  ASSERT_TRUE(back.ok());
  EXPECT_EQ(back->words, "words");
}

TEST(ResultJson, AListStandsInPlaceOfItsValue) {
  const Json json = write(result::amount({1, 2, 3, 4, 5}, Quantity::length));
  EXPECT_EQ(json["value"], Json({1.0, 2.0, 3.0, 4.0, 5.0}));
  const Result<result::Amount> back = result::read<result::Amount>(json);
  ASSERT_TRUE(back.ok());
  EXPECT_EQ(back->list.size(), 5U);
}

TEST(ResultJson, AnErrorNamesItsPath) {
  Json json = write(result::of(example()));
  json["checks"][1]["limit"].erase("si");
  json["checks"][0]["margin"] = "much";
  json["verdict"] = "perhaps";
  const Result<result::Finding> back = result::read<result::Finding>(json);
  ASSERT_FALSE(back.ok());
  std::vector<std::string> paths;
  for (const Error& error : back.errors()) paths.push_back(error.path);
  for (const char* path : {"checks[1].limit.si", "checks[0].margin", "verdict"})
    EXPECT_NE(std::find(paths.begin(), paths.end(), path), paths.end()) << path;
}

/// Every field of every record has a meaning, and no two records share a name.
TEST(ResultJson, EveryResultHasASchemaThatNamesEachRecordOnce) {
  ASSERT_GT(result::all_results().size(), 4U);
  for (const model::RecordType* type : result::all_results()) {
    const Json schema = result::schema_of_result(*type);
    EXPECT_EQ(schema["$ref"], "#/$defs/" + std::string(type->key));
    for (const auto& [name, record] : schema["$defs"].items()) {
      EXPECT_FALSE(record["description"].get<std::string>().empty()) << name;
      for (const auto& [key, field] : record["properties"].items())
        EXPECT_FALSE(field["description"].get<std::string>().empty()) << name << '.' << key;
    }
  }
  EXPECT_EQ(
      result::schema_of_result(model::describe<result::Fact>())["$defs"]["fact"]["properties"]["value"]["anyOf"].size(),
      2U);
}

}  // namespace
}  // namespace lobewise::api
