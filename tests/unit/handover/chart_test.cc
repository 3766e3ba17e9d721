#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "apps/handover/chart_svg.h"

namespace lobewise::handover {
namespace {

using Json = nlohmann::json;

Json chart(bool bars) {
  const Json unit{{"si", {{"unit", "MPa"}, {"factor", 1e6}, {"offset", 0.0}}},
                  {"us", {{"unit", "psi"}, {"factor", 6894.757}, {"offset", 0.0}}}};
  return Json{{"id", "c"},      {"title", "<b>T</b>"}, {"x_label", "x <"}, {"y_label", "y"}, {"x_unit", unit},
              {"y_unit", unit}, {"bars", bars},        {"log_x", false},   {"log_y", false}, {"series", Json::array()}};
}
Json series(const char* name, std::vector<double> x, std::vector<double> y, bool dashed) {
  return Json{{"name", name}, {"x", x}, {"y", y}, {"dashed", dashed}};
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
  EXPECT_EQ(count(si, "class=\"series\""), 1U);
  EXPECT_EQ(count(si, "class=\"limit\""), 1U);
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
