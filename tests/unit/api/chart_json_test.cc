#include <gtest/gtest.h>

#include "engine/api/json_io.h"
#include "engine/result/finding.h"

namespace lobewise::api {
namespace {

using evidence::Chart;

TEST(ChartJson, AnAxisHasTheUnitThatFitsItsLargestFigure) {
  Chart chart{"c", "t", "x", "y", Quantity::angular_speed, Quantity::power, {}, false, false, false};
  chart.series = {{"a", {0, 100}, {3, 195}, false}, {"b", {0, 100}, {1, 2}, true}};
  EXPECT_EQ(write(result::of(chart))["y_unit"]["si"]["unit"], "W");
  chart.series[1].y[1] = 1950;
  const Json kilo = write(result::of(chart));
  EXPECT_EQ(kilo["y_unit"]["si"]["unit"], "kW");
  EXPECT_EQ(kilo["y_unit"]["si"]["factor"], 1000.0);
  EXPECT_EQ(kilo["y_unit"]["us"]["unit"], "hp");
  EXPECT_EQ(kilo["x_unit"]["us"]["unit"], "rpm");
}

TEST(ChartJson, NamesAreSentencesAndAPairIsNamed) {
  Chart chart{"c", "t", "x", "y", Quantity::number, Quantity::length, {}, true, false, false, {"before", "after"}};
  chart.series = {{"oil at {}", {0, 0.35}, {1, 2}, false, {{313.15, Quantity::temperature}}}};
  chart.series.push_back({"range", {0, 1}, {1, 2}, false, {}, true});
  const Json json = write(result::of(chart));
  EXPECT_EQ(json["series"][0]["name"]["si"], "oil at 40 °C");
  EXPECT_EQ(json["series"][0]["name"]["us"], "oil at 104 °F");
  EXPECT_EQ(json["series"][0]["band"], false);
  EXPECT_EQ(json["series"][1]["band"], true);
  EXPECT_EQ(json["pair"], Json::array({"before", "after"}));
}

}  // namespace
}  // namespace lobewise::api
