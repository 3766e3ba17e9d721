// Path of contact, contact ratio and sliding of involute pairs against printed textbook results.
// Tolerance: half a unit of the last printed digit.
#include "engine/incumbent/involute.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

constexpr double kDegree = kPi / 180;
constexpr double kRpm = 2 * kPi / 60;

GearPair spur(int z1, int z2, double module, double addendum1 = 1, double addendum2 = 1) {
  GearPair pair;
  pair.pinion = {z1, 0, addendum1};
  pair.wheel = {z2, 0, addendum2};
  pair.module = module;
  pair.face_width = 10 * module;
  return pair;
}

PairGeometry geometry(const GearPair& pair) {
  Result<PairGeometry> result = pair_geometry(pair);
  EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.errors().front().message);
  return result.value();
}

// Khurmi & Gupta, Theory of Machines, ch. 12 Ex. 12.3 (FOSSEE Python-Textbook-Companions @d34b2ae): 30 and 80 teeth,
// module 12 mm, addendum 10 mm, 20 degrees.
TEST(InvoluteReference, KhurmiGupta12_3) {
  const PairGeometry g = geometry(spur(30, 80, 0.012, 10.0 / 12, 10.0 / 12));
  EXPECT_NEAR(g.path(), 52.3e-3, 0.05e-3);
  EXPECT_NEAR(g.path() / std::cos(20 * kDegree), 55.61e-3, 0.005e-3);  // arc of contact
  EXPECT_NEAR(g.contact_ratio, 1.5, 0.05);
}

// Same book, Ex. 12.4: 20 and 40 teeth, module 5 mm, addendum one module, pitch-line speed 1.2 m/s.
TEST(InvoluteReference, KhurmiGupta12_4) {
  const PairGeometry g = geometry(spur(20, 40, 0.005));
  EXPECT_NEAR(contact_angle(g) / kDegree, 29.43, 0.005);
  EXPECT_NEAR(sliding_speed(g, -g.approach, 1.2 / g.r1), 0.4553, 0.00005);
}

// Same book, Ex. 12.5: the pair of Ex. 12.4 with the pinion at 2000 rpm; sliding at engagement and disengagement.
TEST(InvoluteReference, KhurmiGupta12_5) {
  const PairGeometry g = geometry(spur(20, 40, 0.005));
  EXPECT_NEAR(sliding_speed(g, -g.approach, 2000 * kRpm), 3.973, 0.0005);
  EXPECT_NEAR(sliding_speed(g, g.recess, 2000 * kRpm), 3.610, 0.0005);
}

// Same book, Ex. 12.6: 17 and 49 teeth, module 6 mm. The contact ratio 1.63297 was recomputed from the printed formula
// (the book rounds it up to 2).
TEST(InvoluteReference, KhurmiGupta12_6) {
  const PairGeometry g = geometry(spur(17, 49, 0.006));
  EXPECT_NEAR(contact_angle(g) / kDegree, 34.6, 0.05);
  EXPECT_NEAR(g.contact_ratio, 1.63297, 0.0002);
  const double rolling = g.r1;  // pitch-line speed at 1 rad/s
  EXPECT_NEAR(sliding_speed(g, -g.approach, 1) / rolling, 0.41, 0.005);
  EXPECT_NEAR(sliding_speed(g, g.recess, 1) / rolling, 0.354, 0.0005);
}

// Same book, Ex. 12.7: internal pair 18 and 72 teeth, module 4 mm, addenda 8.5 mm (pinion) and 3.5 mm (ring).
TEST(InvoluteReference, KhurmiGupta12_7_Internal) {
  GearPair pair = spur(18, 72, 0.004, 8.5 / 4, 3.5 / 4);
  pair.internal = true;
  EXPECT_NEAR(geometry(pair).path(), 28.04e-3, 0.005e-3);
}

// Transverse module and pressure angle, normal module 4 mm, helix 15 degrees; U. C. Jindal, Machine Design, ch. 26
// Ex. 26.1 (Scilab_TBC @98e421a), recomputed from the printed inputs.
TEST(InvoluteReference, Jindal26_1) {
  GearPair pair = spur(25, 50, 0.004);
  pair.helix = 15 * kDegree;
  const PairGeometry g = geometry(pair);
  EXPECT_NEAR(g.transverse_module, 4.1411e-3, 0.00005e-3);
  EXPECT_NEAR(g.pressure_angle / kDegree, 20.6469, 0.00005);
}

}  // namespace
}  // namespace lobewise::incumbent
