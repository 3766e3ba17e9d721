#include "apps/handover/solid.h"

#include <gtest/gtest.h>

#include "apps/handover/demo_model.h"
#include "engine/api/registry.h"
#include "engine/base/constants.h"

namespace lobewise::handover {
namespace {

double triangles_area(const Loop& outline, const std::vector<Loop>& holes) {
  Loop all = outline;
  for (const Loop& hole : holes) all.insert(all.end(), hole.begin(), hole.end());
  double sum = 0;
  for (const auto& t : triangulate(outline, holes)) {
    const double one = area({all[static_cast<std::size_t>(t[0])], all[static_cast<std::size_t>(t[1])],
                             all[static_cast<std::size_t>(t[2])]});
    EXPECT_GE(one, -1e-12);  // none is turned over
    sum += one;
  }
  return sum;
}

TEST(Triangulate, FillsExactlyTheAreaBetweenOutlineAndHoles) {
  const Loop outline = circle({}, 10, 60);
  std::vector<Loop> holes{circle({}, 2, 24)};
  for (int k = 0; k < 8; ++k) holes.push_back(circle({6 * std::cos(kPi * k / 4), 6 * std::sin(kPi * k / 4)}, 1.5, 20));
  double expected = area(outline);
  for (const Loop& hole : holes) expected -= area(hole);
  EXPECT_NEAR(triangles_area(outline, holes), expected, 1e-9);
}

TEST(Triangulate, CopesWithNotchesAndHolesInOneLine) {
  const Loop comb{{0, 0}, {10, 0}, {10, 5}, {8, 1}, {6, 5}, {4, 1}, {2, 5}, {0, 5}};
  EXPECT_NEAR(triangles_area(comb, {}), area(comb), 1e-12);
  const Loop plate{{0, 0}, {20, 0}, {20, 4}, {0, 4}};
  const std::vector<Loop> holes{circle({4, 2}, 1, 12), circle({10, 2}, 1, 12), circle({16, 2}, 1, 12)};
  EXPECT_NEAR(triangles_area(plate, holes), 80 - 3 * area(circle({}, 1, 12)), 1e-9);
}

TEST(Solid, PrismIsWatertightAndHasItsVolume) {
  Solid body;
  body.prism(circle({}, 10, 48), {circle({3, 0}, 2, 16)}, 1, 6);
  EXPECT_TRUE(body.watertight());
  EXPECT_NEAR(body.volume(), 5 * (area(circle({}, 10, 48)) - area(circle({}, 2, 16))), 1e-9);
  Solid open;
  open.wall(circle({}, 1, 8), 0, 1, false);
  EXPECT_FALSE(open.watertight());
}

/// Every build of the demo range at two sizes: parts are watertight (`demo_parts` refuses others) and have volume.
TEST(DemoModel, EveryStageOfTheRangeGivesWatertightPartsOrSaysWhyNot) {
  const auto ask = [](const std::string& call, const Json& input) {
    return Json::parse(api::answer(Json{{"call", call}, {"input", input}}.dump()));
  };
  const Json range = ask("range", Json::object());
  int made = 0, refused = 0;
  for (std::size_t f = 0; f < range["frames"].size(); f += 5)
    for (const Json& stage : range["frames"][f]["stages"]) {
      Json input{{"build", {{"frame", range["frames"][f]["name"]}, {"lobes", stage["geometry"]["lobes"]}}}};
      const Json plain = ask("mechanism_outline", input);
      input["clearance"] = 0.2e-3 / demo_scale(plain["stages"][0]["geometry"], 160);
      const Json outline = ask("mechanism_outline", input);
      if (outline.contains("errors")) {
        ++refused;
        continue;
      }
      const auto parts = demo_parts(outline["stages"][0], 160, 0.2);
      if (!parts) {
        EXPECT_NE(parts.errors().front().kind, ErrorKind::internal) << parts.errors().front().offending;
        ++refused;
        continue;
      }
      ++made;
      for (const Solid& part : *parts) EXPECT_GT(part.volume(), 100) << part.name;
    }
  EXPECT_GT(made, 20);
  EXPECT_LT(refused, made);
}

/// The ring's cut-out less the disc's outline: nothing of the disc may reach into a roller in the mounted pose.
TEST(DemoModel, DiscKeepsItsClearanceToTheRollers) {
  const Json input{{"build", {{"frame", "ring-132"}, {"lobes", 17}}}, {"clearance", 0.2e-3}};
  const Json answer =
      Json::parse(api::answer(Json{{"call", "mechanism_outline"}, {"input", input}}.dump()))["stages"][0];
  const double R = answer["geometry"]["pitch_radius"], r = answer["geometry"]["roller_radius"],
               e = answer["geometry"]["eccentricity"];
  double least = 1;
  for (const Json& p : answer["outline"])
    for (int k = 0; k < 18; ++k)  // crank at 0: the disc stands at (e, 0), unturned
      least = std::min(least, std::hypot(p[0].get<double>() + e - R * std::cos(2 * kPi * k / 18),
                                         p[1].get<double>() - R * std::sin(2 * kPi * k / 18)) -
                                  r);
  EXPECT_GT(least, 0.199e-3);
  EXPECT_LT(least, 0.22e-3);
}

}  // namespace
}  // namespace lobewise::handover
