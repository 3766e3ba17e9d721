// Every case in cases/ (an independent model's calls and answers, each with its source) through the one door.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/api/registry.h"
#include "tests/support/source_dir.h"

namespace lobewise::api {
namespace {

std::vector<std::filesystem::path> case_files() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry :
       std::filesystem::directory_iterator(lobewise::test::source_dir() + "/tests/oracle/system/cases"))
    if (entry.path().extension() == ".json") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

void compare(const Json& expected, const Json& got, const Json& tolerance, const std::string& path) {
  if (expected.is_array()) {
    ASSERT_EQ(got.size(), expected.size()) << path;
    for (std::size_t i = 0; i < expected.size(); ++i) compare(expected[i], got[i], tolerance, path + "[]");
    return;
  }
  ASSERT_TRUE(got.is_number()) << path;
  const double want = expected.get<double>();
  const double allowed =
      tolerance.contains("abs") ? tolerance["abs"].get<double>() : tolerance.at("rel").get<double>() * std::abs(want);
  EXPECT_NEAR(got.get<double>(), want, allowed) << path;
}

class SystemCase : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(SystemCase, AnswersAsTheIndependentModel) {
  std::ifstream file(GetParam());
  const Json json = Json::parse(file);
  const Result<Json> answer = Session().registry().run(json.at("call").get<std::string>(), json.at("input"));
  ASSERT_TRUE(answer.ok()) << error_json(answer.errors()).dump(1);
  for (const auto& [key, expected] : json.at("expected").items()) {
    ASSERT_TRUE(answer->contains(key)) << key;
    compare(expected, (*answer)[key], json.at("tolerance").at(key), key);
  }
}

INSTANTIATE_TEST_SUITE_P(Cases, SystemCase, testing::ValuesIn(case_files()),
                         [](const auto& test) { return test.param.stem().string(); });

}  // namespace
}  // namespace lobewise::api
