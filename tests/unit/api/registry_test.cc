#include "engine/api/registry.h"

#include <gtest/gtest.h>

#include <cmath>

namespace lobewise {
namespace api_test {

enum class Colour { clear, green };
struct Part {
  double length = 0;
  std::optional<double> torque;
};
struct Thing {
  std::string name;
  int count = 3;
  Colour colour = Colour::clear;
  std::optional<bool> wet;
  std::vector<Part> parts;
};

}  // namespace api_test

namespace model {
template <>
const std::vector<Choice>& choices_of<api_test::Colour>() {
  static const std::vector<Choice> choices{{"clear", "Clear glass"}, {"green", "Green glass"}};
  return choices;
}
template <>
const RecordType& describe<api_test::Part>() {
  static const RecordType type{"part",
                               "Part",
                               "",
                               {field<&api_test::Part::length>("length", "Length", "", Quantity::length, {0, 2}),
                                field<&api_test::Part::torque>("torque", "Torque", "", Quantity::torque, {0, 1e6})}};
  return type;
}
template <>
const RecordType& describe<api_test::Thing>() {
  static const RecordType type{
      "thing",
      "Thing",
      "",
      {field<&api_test::Thing::name>("name", "Name", ""),
       field<&api_test::Thing::count>("count", "Count", "", Quantity::number, {0, 10}).with_default(),
       field<&api_test::Thing::colour>("colour", "Colour", ""), field<&api_test::Thing::wet>("wet", "Wet", ""),
       field<&api_test::Thing::parts>("parts", "Parts", "")}};
  return type;
}
}  // namespace model

namespace api {
namespace {

using api_test::Thing;

TEST(ReadRecord, FillsEveryKindOfField) {
  const Json json = Json::parse(
      R"({"name": "bin", "colour": "green", "wet": "yes", "parts": [{"length": "12 in", "torque": "25 in-lb"}]})");
  const Result<Thing> thing = read<Thing>(json, Numbers::need_unit);
  ASSERT_TRUE(thing.ok());
  EXPECT_EQ(thing->name, "bin");
  EXPECT_EQ(thing->count, 3);
  EXPECT_EQ(thing->colour, api_test::Colour::green);
  EXPECT_TRUE(*thing->wet);
  EXPECT_NEAR(thing->parts[0].length, 0.3048, 1e-15);
  EXPECT_EQ(read<Thing>(write(*thing), Numbers::si)->parts[0].torque, thing->parts[0].torque);
}

TEST(ReadRecord, GivesEveryErrorAtOnceWithItsPlace) {
  const Json json = Json::parse(
      R"({"nane": "bin", "colour": "gren", "count": 11, "parts": [{"length": 0.3}, {"length": "3 m", "torque": "60 HRC"}]})");
  const Result<Thing> thing = read<Thing>(json, Numbers::need_unit);
  ASSERT_FALSE(thing.ok());
  std::map<std::string, std::string> messages;
  for (const Error& error : thing.errors()) messages[error.path] = error.message;
  EXPECT_EQ(messages.size(), 6u);
  EXPECT_EQ(messages["nane"], "unknown field; did you mean 'name'?");
  EXPECT_EQ(messages["colour"], "unknown word, did you mean 'green'?; allowed: clear, green");
  EXPECT_EQ(messages["count"], "out of range; allowed: 0 to 10");
  EXPECT_NE(messages["parts[0].length"].find("no unit"), std::string::npos);
  EXPECT_EQ(messages["parts[1].length"], "out of range; allowed: 0 mm to 2000 mm");
  EXPECT_NE(messages["parts[1].torque"].find("hardness"), std::string::npos);
}

TEST(ReadRecord, SaysWhatIsMissing) {
  const Result<Thing> thing = read<Thing>(Json::object(), Numbers::si);
  ASSERT_FALSE(thing.ok());
  EXPECT_EQ(thing.errors().front().path, "colour");
}

TEST(SchemaOf, CarriesUnitsLimitsAndOrder) {
  const Json schema = schema_of(model::describe<Thing>());
  EXPECT_EQ(schema["x-order"], Json::parse(R"(["name","count","colour","wet","parts"])"));
  EXPECT_EQ(schema["required"], Json::parse(R"(["colour"])"));
  const Json& length = schema["properties"]["parts"]["items"]["properties"]["length"];
  EXPECT_EQ(length["x-unit"], "m");
  EXPECT_EQ(length["maximum"], 2);
}

Registry test_registry() {
  Registry registry;
  registry.add("test.ratio", "A quotient.", [](Arguments& in, Json& out) {
    const double a = in.number("a", Quantity::force, kNotNegative);
    const double b = in.number("b", Quantity::force);
    if (!in.ok()) return;
    out["ratio"] = a / b;
  });
  return registry;
}

TEST(RegistryCalls, AnswerAndRefuse) {
  const Registry registry = test_registry();
  EXPECT_EQ((*registry.run("test.ratio", Json{{"a", 6}, {"b", "2 N"}}))["ratio"], 3.0);
  const Result<Json> bad = registry.run("test.ratio", Json{{"a", -1}, {"c", 2}});
  ASSERT_FALSE(bad.ok());
  ASSERT_EQ(bad.errors().size(), 3u);  // a out of range, b missing, c unknown
  EXPECT_EQ(bad.errors()[0].message, "out of range; allowed: 0 N or more");
  EXPECT_EQ(bad.errors()[1].path, "b");
  EXPECT_EQ(registry.run("test.ration", {}).errors().front().message, "unknown call; did you mean 'test.ratio'?");
}

TEST(RegistryCalls, LetNoInfinityOut) {
  const Result<Json> result = test_registry().run("test.ratio", Json{{"a", 1}, {"b", 0}});
  ASSERT_FALSE(result.ok());
  EXPECT_EQ(result.errors().front().path, "ratio");
  EXPECT_EQ(result.errors().front().kind, ErrorKind::model);
}

TEST(RegistryCalls, DescribeTheirInput) {
  const Json schema = test_registry().calls().front().schema();
  EXPECT_EQ(schema["required"], Json::parse(R"(["a","b"])"));
  EXPECT_EQ(schema["properties"]["a"]["x-unit"], "N");
}

TEST(Answer, NeverThrows) {
  for (const char* request :
       {"", "{", "[]", "{\"call\": 3}", "{\"call\": \"nothing\"}", "{\"call\":\"life.l10\",\"input\":[1]}"}) {
    const Json result = Json::parse(answer(request));
    EXPECT_TRUE(result.contains("errors")) << request;
  }
}

}  // namespace
}  // namespace api
}  // namespace lobewise
