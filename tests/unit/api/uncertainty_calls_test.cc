#include <gtest/gtest.h>

#include <cmath>

#include "tests/unit/api/support.h"

namespace lobewise::api {
namespace {

std::string path_of(const char* call, const Json& input) {
  const Session session;
  const auto answer = session.registry().run(call, input);
  return answer.ok() ? "accepted" : answer.errors()[0].path;
}

TEST(UncertaintyCalls, AnswerAndReproduce) {
  const Session session;
  const Json normal = {{"kind", "normal"}, {"mean", 1}, {"deviation", 0.1}};
  const Json rectangular = {{"kind", "rectangular"}, {"low", 0}, {"high", 1}};
  const Json t = {{"kind", "t"}, {"mean", 0}, {"deviation", 0.1}, {"degrees", 5}};
  const Json input = {{"distributions", {normal, rectangular, t}},
                      {"expression", "x_1 + x_2 * 2 + x_3"},
                      {"samples", 4096},
                      {"seed", 3}};
  const auto first = session.registry().run("uncertainty.propagate", input);
  ASSERT_TRUE(first.ok()) << first.errors()[0].message;
  EXPECT_NEAR((*first)["mean"].get<double>(), 2, 0.002);
  EXPECT_NEAR((*first)["gum_deviation"].get<double>(), std::sqrt(0.02 + 4.0 / 12), 1e-9);
  EXPECT_EQ(session.registry().run("uncertainty.propagate", input)->dump(), first->dump());
  Json other = input;
  other["seed"] = 4;
  EXPECT_NE(session.registry().run("uncertainty.propagate", other)->dump(), first->dump());

  const Json ranges = {{"ranges", {{0, 1}, {0, 2}}}, {"expression", "x_1 + x_2"}, {"samples", 1024}, {"seed", 1}};
  const auto shares = session.registry().run("sensitivity.sobol", ranges);
  ASSERT_TRUE(shares.ok());
  EXPECT_NEAR((*shares)["first"][0].get<double>(), 0.2, 0.01);
  EXPECT_NEAR((*shares)["total"][1].get<double>(), 0.8, 0.01);

  EXPECT_NEAR((*session.registry().run("tolerance.fit", {{"diameter", 0.1}, {"grade", 7}}))["tolerance"].get<double>(),
              34.8e-6, 0.05e-6);
  EXPECT_NEAR(
      (*session.registry().run("uncertainty.share", {{"failures", 3}, {"trials", 200}}))["high_95"].get<double>(),
      0.0432, 5e-5);
}

TEST(UncertaintyCalls, NameWhatIsWrong) {
  const Json normal = {{"kind", "normal"}, {"mean", 1}, {"deviation", 0.1}};
  const auto propagate = [&](const Json& distribution, const char* expression, int samples) {
    return path_of("uncertainty.propagate",
                   {{"distributions", Json::array({distribution})}, {"expression", expression}, {"samples", samples}});
  };
  EXPECT_EQ(propagate(normal, "x_1", 100), "accepted");
  EXPECT_EQ(propagate(normal, "x_2", 100), "expression");
  EXPECT_EQ(propagate(normal, "ln(x_1 - 1)", 100), "expression");
  EXPECT_EQ(propagate(normal, "x_1", 3), "samples");
  EXPECT_EQ(propagate({{"kind", "normal"}, {"mean", 1}}, "x_1", 100), "distributions[0].deviation");
  EXPECT_EQ(propagate({{"kind", "normal"}, {"mean", 1}, {"deviation", 1}, {"low", 0}}, "x_1", 100),
            "distributions[0].low");
  EXPECT_EQ(propagate({{"kind", "rectangular"}, {"low", 1}, {"high", 1}}, "x_1", 100), "distributions[0].high");
  EXPECT_EQ(propagate({{"kind", "t"}, {"mean", 1}, {"deviation", 1}, {"degrees", 0.2}}, "x_1", 100),
            "distributions[0].degrees");
  EXPECT_EQ(path_of("sensitivity.sobol", {{"ranges", {{0, 1}, {2, 1}}}, {"expression", "x_1"}, {"samples", 8}}),
            "ranges[1]");
  EXPECT_EQ(path_of("sensitivity.sobol", {{"ranges", {{0, 1}}}, {"expression", "x_1"}, {"samples", 1000000000}}),
            "samples");
  EXPECT_EQ(
      path_of("sensitivity.sobol",
              {{"ranges", std::vector<std::vector<int>>(40, {0, 1})}, {"expression", "x_1"}, {"samples", 999999}}),
      "samples");
  EXPECT_EQ(path_of("tolerance.fit", {{"diameter", 3.7}, {"grade", 7}}), "diameter");
  EXPECT_EQ(path_of("tolerance.fit", {{"diameter", 0.1}, {"grade", 4}}), "grade");
  EXPECT_EQ(path_of("uncertainty.share", {{"failures", 5}, {"trials", 4}}), "failures");
}

}  // namespace
}  // namespace lobewise::api
