#include "apps/handover/label_place.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace lobewise::handover {
namespace {

bool meet(const Box& a, const Box& b) {
  return std::min(a.right, b.right) > std::max(a.left, b.left) && std::min(a.bottom, b.bottom) > std::max(a.top, b.top);
}

TEST(LabelPlace, StandsNextToItsSpot) {
  LabelPlace place({0, 0, 400, 200});
  const Box box = place.beside({100, 100}, 60, 10, 4);
  EXPECT_DOUBLE_EQ(box.left, 104);
  EXPECT_LT(box.bottom, 100);
  EXPECT_GT(box.bottom, 90);
}

TEST(LabelPlace, ManySpotsCloseTogetherAllGetRoom) {
  LabelPlace place({0, 0, 400, 200});
  std::vector<Box> boxes;
  for (int i = 0; i < 6; ++i) {
    boxes.push_back(place.beside({100.0 + 6 * i, 100}, 60, 10, 4));
    for (std::size_t k = 0; k + 1 < boxes.size(); ++k) EXPECT_FALSE(meet(boxes[k], boxes.back())) << i << " on " << k;
  }
}

TEST(LabelPlace, StaysInsideAndOffItsOwnSpot) {
  LabelPlace place({0, 0, 400, 200});
  for (const Spot spot : {Spot{0, 0}, Spot{400, 0}, Spot{0, 200}, Spot{400, 200}}) {
    const Box box = place.beside(spot, 80, 20, 4);
    EXPECT_GE(box.left, 0);
    EXPECT_GE(box.top, 0);
    EXPECT_LE(box.right, 400);
    EXPECT_LE(box.bottom, 200);
    EXPECT_FALSE(spot.x > box.left && spot.x < box.right && spot.y > box.top && spot.y < box.bottom);
  }
}

TEST(LabelPlace, AvoidsALineWhereItCan) {
  LabelPlace place({0, 0, 400, 200});
  place.avoid({{0, 90}, {400, 90}});
  const Box box = place.beside({100, 100}, 60, 12, 4);
  EXPECT_TRUE(box.top > 90 || box.bottom < 90);
}

}  // namespace
}  // namespace lobewise::handover
