// Thrust that two inclined bearings induce in each other.
#include "engine/strength/axial_pair.h"

#include <gtest/gtest.h>

#include "engine/strength/shaft.h"

namespace lobewise::strength {
namespace {

// Radial loads 8.8 and 21 kN, Y = 1.5 on both: S_A = 8800/3 = 2933.3, S_B = 21000/3 = 7000.
constexpr double kA = 8800.0 / 3, kB = 7000;

TEST(AxialPair, WithoutOutsideForceTheLargerThrustLoadsBoth) {
  EXPECT_NEAR(induced_thrust(8800.0, 1.5), kA, 1e-9);
  EXPECT_NEAR(pair_axial(kA, kB, 0.0), 7000, 1e-9);
  EXPECT_NEAR(pair_axial(kB, kA, 0.0), 7000, 1e-9);
  // 0.4 * 8800 + 1.5 * 7000 = 14 020: the bearing away from the load carries more than its radial 8800.
  EXPECT_NEAR(equivalent_load_of(8800.0, 7000.0, 0.4, 1.5), 14020, 1e-9);
  // 0.4 * 21 000 + 1.5 * 7000 = 18 900 < 21 000.
  EXPECT_NEAR(equivalent_load_of(21000.0, 7000.0, 0.4, 1.5), 21000, 1e-9);
}

TEST(AxialPair, OutsideForceInBothDirections) {
  struct Case {
    double towards_A, at_A, at_B;
  };
  for (const Case& c : {Case{5000, 12000, 7000},     // 7000 + 5000; max(7000, 2933 - 5000)
                        Case{-3000, 4000, 7000},     // 7000 - 3000 = 4000 > 2933
                        Case{-5000, kA, kA + 5000},  // 7000 - 5000 = 2000 < 2933: A keeps its own, B takes the rest
                        Case{-20000, kA, kA + 20000}}) {
    EXPECT_NEAR(pair_axial(kA, kB, c.towards_A), c.at_A, 1e-9);
    EXPECT_NEAR(pair_axial(kB, kA, -c.towards_A), c.at_B, 1e-9);
    EXPECT_NEAR(c.at_A - c.at_B, c.towards_A, 1e-9);  // statics: the shaft stands still
  }
}

// Back to back the bearing that the force leaves behind stops the shaft, face to face the one it goes to.
TEST(AxialPair, ArrangementTurnsTheDirection) {
  EXPECT_EQ(towards_A(Arrangement::back_to_back, 5000), 5000);
  EXPECT_EQ(towards_A(Arrangement::face_to_face, 5000), -5000);
  const auto at_A = [](Arrangement arrangement) { return pair_axial(kA, kB, towards_A(arrangement, 5000)); };
  EXPECT_NEAR(at_A(Arrangement::back_to_back), 12000, 1e-9);
  EXPECT_NEAR(at_A(Arrangement::face_to_face), kA, 1e-9);
}

// Textbook example of two tapered bearings (Shigley, rolling-contact chapter; from memory): radial 2170 and 2654 N,
// induced 680 and 832 N, outside force 1690 N towards the first, axial factor 1.5: equivalent loads 4651 and 2654 N.
TEST(AxialPair, TextbookPair) {
  EXPECT_NEAR(equivalent_load_of(2170.0, pair_axial(680.0, 832.0, 1690.0), 0.4, 1.5), 4651, 0.5);
  EXPECT_NEAR(equivalent_load_of(2654.0, pair_axial(832.0, 680.0, -1690.0), 0.4, 1.5), 2654, 0.5);
}

// Where X + Y e = 1 the larger of both loads is the rule with e.
TEST(AxialPair, LargerLoadIsTheRuleOfTaperedBearings) {
  for (double axial = 0; axial < 3000; axial += 50)
    EXPECT_NEAR(equivalent_load_of(4000.0, axial, 0.4, 1.5), bearing_equivalent(4000, axial, 0.4, 1.5, 0.4), 1e-9);
}

}  // namespace
}  // namespace lobewise::strength
