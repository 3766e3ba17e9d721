// A revision made by the engine comes out the same again.

#include <nlohmann/json.hpp>

#include "apps/store/record.h"
#include "tests/unit/store/suite.h"

namespace lobewise::store {
namespace {

using Json = nlohmann::json;

Json example() {
  return Json::parse(R"({"enquiry": {"title": "Invented metering conveyor",
    "machine": {"measured": {"measured_power": "0.6 kW", "rated_power": "1 hp", "rated_speed": "1745 rpm",
                             "speed": "69 rpm"}}, "supply": {"frequency": "60 Hz"}}})");
}

TEST(Record, ARevisionComesOutTheSameYearsLater) {
  Folder folder;
  Place place;
  place.address = folder / "office.lobewise";
  {
    const api::Session session;
    const Draft draft = must(make_draft(session, example(), "first"));
    EXPECT_EQ(draft.engine, LOBEWISE_VERSION);
    EXPECT_TRUE(Json::parse(draft.result).contains("findings"));
    EXPECT_TRUE(Json::parse(draft.range).contains("frames")) << "the demo range is kept whole";
    (void)must(must(Store::create(place)).save({"anna", Role::engineer}, draft));
  }
  const api::Session session;
  Revision revision = must(must(Store::open(place)).revision(1, 1));
  const Remade again = remake(session, revision);
  EXPECT_TRUE(again.same_engine);
  EXPECT_TRUE(again.identical);
  EXPECT_TRUE(again.differences.empty());
  EXPECT_TRUE(again.moved["turned"].empty() && again.moved["checks"].empty()) << again.moved;

  // As a later engine would: another figure, another version.
  Json result = Json::parse(revision.draft.result);
  result["findings"][0]["verdict"] = "dreamt";
  Json& figure = result["findings"][1]["checks"][0]["figure"]["value"];
  const double is = figure.get<double>();
  figure = 1.01 * is;
  revision.draft.result = result.dump();
  revision.draft.engine = "0.0.9";
  const Remade later = remake(session, revision);
  EXPECT_FALSE(later.same_engine);
  EXPECT_FALSE(later.identical);
  ASSERT_EQ(later.moved["turned"].size(), 1U);
  EXPECT_EQ(later.moved["turned"][0]["before"], "dreamt");
  ASSERT_EQ(later.moved["checks"].size(), 1U);
  EXPECT_EQ(later.moved["checks"][0]["finding"], result["findings"][1]["id"]);
  EXPECT_DOUBLE_EQ(later.moved["checks"][0]["before"]["figure"]["value"].get<double>(), 1.01 * is);
  EXPECT_DOUBLE_EQ(later.moved["checks"][0]["after"]["figure"]["value"].get<double>(), is);
  ASSERT_EQ(later.differences.size(), 2U);
  EXPECT_EQ(later.differences[0].rfind("findings[0].verdict: was \"dreamt\", is ", 0), 0U) << later.differences[0];
}

TEST(Record, WhatCannotBeProvedYetIsKeptWithItsErrors) {
  const api::Session session;
  const Draft draft = must(make_draft(session, Json{{"enquiry", {{"title", "only a title"}}}}, ""));
  EXPECT_TRUE(Json::parse(draft.result).contains("errors"));
  EXPECT_TRUE(remake(session, {{}, draft}).identical);
}

TEST(Record, RefusesAnUnsoundRangeAndUnknownMembers) {
  const api::Session session;
  Json input = example();
  input["range"] = {{"frames", 3}};
  EXPECT_EQ(trouble(make_draft(session, input, "")), Trouble::input);
  input = example();
  input["colour"] = "red";
  EXPECT_EQ(trouble(make_draft(session, input, "")), Trouble::input);
  EXPECT_EQ(trouble(make_draft(session, Json::array(), "")), Trouble::input);
}

}  // namespace
}  // namespace lobewise::store
