#include <gtest/gtest.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "apps/handover/chart_svg.h"

namespace lobewise::handover {
namespace {

using Json = nlohmann::json;

Json chart(bool bars) {
  const Json unit{{"si", {{"unit", "MPa"}, {"factor", 1e6}, {"offset", 0.0}}},
                  {"us", {{"unit", "psi"}, {"factor", 6894.757}, {"offset", 0.0}}}};
  return Json{{"id", "c"},      {"title", "<b>T</b>"},   {"x_label", "x <"},       {"y_label", "y"},
              {"x_unit", unit}, {"y_unit", unit},        {"bars", bars},           {"log_x", false},
              {"log_y", false}, {"pair", Json::array()}, {"series", Json::array()}};
}
Json series(const char* name, std::vector<double> x, std::vector<double> y, bool dashed) {
  return Json{{"name", {{"si", name}, {"us", name}}}, {"x", x}, {"y", y}, {"dashed", dashed}, {"band", false}};
}
std::size_t count(const std::string& text, const std::string& part) {
  std::size_t n = 0;
  for (std::size_t i = text.find(part); i != std::string::npos; i = text.find(part, i + 1)) ++n;
  return n;
}

TEST(Chart, LinesLimitsUnitsAndNames) {
  Json c = chart(false);
  c["series"] = {series("load", {0, 1e6, 2e6}, {0, 5e6, 9e6}, false), series("limit", {0, 2e6}, {7e6, 7e6}, true)};
  const std::string si = chart_svg(c, "si", 460, 160), us = chart_svg(c, "us", 460, 160);
  EXPECT_NE(si.find("y [MPa]"), std::string::npos);
  EXPECT_NE(us.find("y [psi]"), std::string::npos);
  EXPECT_EQ(count(si, "class=\"series\""), 2U);  // the line and the piece before its name
  EXPECT_EQ(count(si, "class=\"limit\""), 2U);
  EXPECT_NE(si.find(">load<"), std::string::npos);
  EXPECT_NE(si.find(">limit<"), std::string::npos);
}

TEST(Chart, TextOfOthersStaysText) {
  Json c = chart(false);
  c["series"] = {series("</text><script>", {0, 1e6}, {0, 1e6}, false)};
  const std::string svg = chart_svg(c, "si", 460, 160);
  EXPECT_EQ(svg.find("<script"), std::string::npos);
  EXPECT_EQ(svg.find("<b>"), std::string::npos);
}

TEST(Chart, SeveralLinesAreToldApartByMarks) {
  Json c = chart(false);
  std::vector<double> x, y;
  for (int i = 0; i <= 50; ++i) {
    x.push_back(i * 1e6);
    y.push_back(i * 2e6);
  }
  c["series"] = {series("a", x, y, false), series("b", x, x, false)};
  EXPECT_GE(count(chart_svg(c, "si", 460, 160), "class=\"mark"), 8U);
}

TEST(Chart, ANameIsInTheUnitsOfTheChart) {
  Json c = chart(false);
  c["series"] = {series("", {0, 1e6}, {0, 1e6}, false)};
  c["series"][0]["name"] = {{"si", "220 mm2/s at 40 °C"}, {"us", "220 cSt at 104 °F"}};
  EXPECT_NE(chart_svg(c, "si", 460, 160).find("220 mm²/s at 40\u00a0°C"), std::string::npos);
  EXPECT_NE(chart_svg(c, "us", 460, 160).find("220 cSt at 104\u00a0°F"), std::string::npos);
}

TEST(Chart, APieceOfItsLineStandsBeforeANameWhereThereAreSeveral) {
  Json c = chart(false);
  c["series"] = {series("curve", {0, 1e6}, {0, 1e6}, false)};
  EXPECT_EQ(count(chart_svg(c, "si", 460, 160), "class=\"series\""), 1U);
  c["series"].push_back(series("limit", {0, 1e6}, {5e5, 5e5}, true));
  const std::string two = chart_svg(c, "si", 460, 160);
  EXPECT_EQ(count(two, "class=\"series\""), 2U);
  EXPECT_EQ(count(two, "class=\"limit\""), 2U);
}

TEST(Chart, PointsAndUprightLimitsAreNamedInsideABandBesideItsLine) {
  Json c = chart(false);
  c["series"] = {series("curve", {0, 1e6, 2e6}, {0, 1e6, 4e6}, false), series("here", {1e6}, {1e6}, false),
                 series("upright", {1.5e6, 1.5e6}, {0, 4e6}, true),
                 series("may be", {9e5, 1.2e6}, {9e5, 1.5e6}, false)};
  c["series"][3]["band"] = true;
  const std::string svg = chart_svg(c, "si", 460, 160);
  EXPECT_EQ(count(svg, "class=\"band\""), 2U);  // and the piece before its name
  EXPECT_LT(svg.find("class=\"band\""), svg.find("class=\"series\"")) << "the line stays visible on its band";
  for (const char* name : {">here<", ">upright<", ">may be<"}) EXPECT_EQ(count(svg, name), 1U) << name;
  EXPECT_EQ(count(svg, "class=\"name halo\""), 2U);
}

TEST(Chart, APairOfBarsSaysWhatTheTwoAre) {
  Json c = chart(true);
  c["pair"] = {"what stands there", "candidate"};
  c["series"] = {series("length", {0, 0.35}, {3e6, 4e6}, false), series("width", {1, 1.35}, {1e6, 2e6}, false)};
  const std::string svg = chart_svg(c, "si", 460, 160);
  EXPECT_EQ(count(svg, ">what stands there<"), 1U);
  EXPECT_EQ(count(svg, ">candidate<"), 1U);
  EXPECT_EQ(count(svg, "class=\"bar\""), 3U);  // one of them in the legend
  EXPECT_EQ(count(svg, "class=\"bar second\""), 3U);
}

TEST(Chart, LabelsOfNearLimitsDoNotMeet) {
  Json c = chart(true);
  c["series"] = {series("one", {0}, {100e6}, false), series("slowest allowed", {0, 1}, {48e6, 48e6}, true),
                 series("asked for", {0, 1}, {50e6, 50e6}, true),
                 series("fastest allowed", {0, 1}, {52e6, 52e6}, true)};
  const std::string svg = chart_svg(c, "si", 460, 160);
  struct Text {
    double x, y;
  };
  const auto place = [&](const std::string& label) {
    const std::size_t end = svg.find(">" + label), begin = svg.rfind("<text", end);
    Text at{};
    EXPECT_EQ(std::sscanf(svg.c_str() + begin, "<text x=\"%lf\" y=\"%lf\"", &at.x, &at.y), 2) << label;
    return at;
  };
  const Text slow = place("slowest allowed 48"), asked = place("asked for 50"), fast = place("fastest allowed 52");
  EXPECT_LT(asked.y, slow.y);
  EXPECT_DOUBLE_EQ(slow.y, fast.y);
  EXPECT_GT(fast.x - slow.x, 60);  // middles of two labels of about as much
}

TEST(Chart, BarsWithLimitGroupsAndNegativeValues) {
  Json c = chart(true);
  c["series"] = {series("one", {0, 0.35}, {-3e6, 4e6}, false), series("two", {1}, {2e6}, false),
                 series("allowed", {0, 1}, {3e6, 3e6}, true)};
  const std::string svg = chart_svg(c, "si", 460, 160);
  EXPECT_EQ(count(svg, "class=\"bar"), 3U);
  EXPECT_EQ(count(svg, "class=\"bar second\""), 1U);
  EXPECT_NE(svg.find("allowed 3"), std::string::npos);
  EXPECT_EQ(count(svg, ">one<"), 1U);
}

TEST(Chart, NothingToShowGivesNothing) {
  EXPECT_EQ(chart_svg(chart(false), "si", 460, 160), "");
  EXPECT_EQ(chart_svg(chart(true), "si", 460, 160), "");
  Json c = chart(false);
  c["log_y"] = true;
  c["series"] = {series("zero", {0, 1}, {0, 0}, false)};
  EXPECT_EQ(chart_svg(c, "si", 460, 160), "");
}

}  // namespace
}  // namespace lobewise::handover
