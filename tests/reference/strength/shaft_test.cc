// Published examples of shafts and keys. FOSSEE = github.com/FOSSEE/Python-Textbook-Companions at commit d34b2ae.
// Tolerance: half a unit of the last printed digit unless a line says why not.
#include "engine/strength/shaft.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/strength/shaft_key.h"
#include "engine/strength/shaft_overhung.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::strength {
namespace {

TEST(Published, Goodman_Shigley_7_1) {
  // Budynas/Nisbett, Shigley's, solutions manual Prob 7-1 (scribd.com/document/555636806): K_f 2.2, K_fs 1.8, M_a 600,
  // T_a 400, M_m 500, T_m 300 lbf in, S_e 30, S_ut 100 kpsi, n 2: d 1.073 in. In inch units: the formula has no
  // constants with units.
  const FatigueLoad load{600, 500, 400, 300, 2.2, 1.8};
  EXPECT_NEAR(goodman_diameter(load, 2, 30e3, 100e3), 1.073, 0.0005);
  EXPECT_NEAR(goodman_safety(load, 1.0728439, 30e3, 100e3), 2, 1e-6);
}

TEST(Published, OverhungShaft_Singh_6_4) {
  // Sadhu Singh, Machine Design I, Ex 6.4 p171 (FOSSEE chapter6): 25 kW, 600 1/min, pulley 400 mm at 300 mm beyond C,
  // belt tension ratio 3, bearings 600 mm apart, gear 300 mm pitch diameter midway (20 deg).
  const double torque = 25e3 / (2 * kPi * 600 / 60);
  const double pull = overhung_force(torque, 0.4, 2);  // (T1 + T2)/(T1 - T2) = 2 at ratio 3
  EXPECT_NEAR(pull, 3978.87, 0.4);
  // Vertical plane of the source: the pull at 900 mm and the separating force of the gear at 300 mm, same direction.
  const Reactions belt = reactions({0.6, 0.9, pull, 0, 0});
  const Reactions gear = reactions({0.6, 0.3, 2 * torque / 0.3 * std::tan(20 * kPi / 180), 0, 0});
  EXPECT_NEAR(belt.at_B + gear.at_B, 6451.04, 0.6);
  EXPECT_NEAR(belt.at_A + gear.at_A, -1506.71, 0.2);
  EXPECT_NEAR(belt.moment_B, pull * 0.3, 1e-9);
}

TEST(Published, Key_Wentzell_15_1) {
  // Wentzell, Machine Design, Ex 15.1 p332 (FOSSEE Chapter15): 180 lbf in, shaft 0.5 in, key 1/8 in square; needed
  // lengths 0.47 in in shear (30.5 ksi / 2.5), 0.56 in in bearing on half the height (51 ksi / 2.5).
  ParallelKey key{0.125, 0.125, 0.0625, 0.4721312, false};
  EXPECT_NEAR(parallel_key(key, 180, 0.5).shear, 0.5 * 61e3 / 2.5, 1);
  key.length = 0.5647059;
  EXPECT_NEAR(parallel_key(key, 180, 0.5).hub_pressure, 51e3 / 2.5, 1);
}

TEST(Published, KeyAsStrongAsTheShaft_Singh_7_4) {
  // Sadhu Singh, Ex 7.4 p204 (FOSSEE chapter7): d 75, b 20 mm: a key of 110.4 mm shears with the shaft, pi d^2/(8 b).
  const double torque = 50e6 * kPi * std::pow(0.075, 3) / 16;
  const ParallelKey key{0.020, 0.014, 0.007, 0.1104, false};
  EXPECT_NEAR(parallel_key(key, torque, 0.075).shear, 50e6, 50e6 * 0.05 / 110.4);
  EXPECT_NEAR(nominal_stress(0, torque, 0, 0.075, 0).shear, 50e6, 1e-6);
}

TEST(Published, OutputPinSine) {
  // Derived identity: the squares of the sine of M evenly spread pins, loaded half, sum to M/4, hence Q_max = 4 T/(M
  // R_w).
  for (const int pins : {6, 8, 10, 12}) {
    double sum = 0;
    for (int j = 0; j < pins; ++j) {
      const double s = std::sin(2 * kPi * j / pins + 0.1);
      if (s > 0) sum += s * s;
    }
    EXPECT_NEAR(sum, pins / 4.0, 1e-12);
    EXPECT_NEAR(pin_load(100, pins, 0.05) * 0.05 * sum, 100, 1e-9);
  }
}

TEST(Independent, AllowableOverhungForceOfTheWorkedReducer) {
  // An independent model (other language): 20000 h at 1450/17 1/min, two 90 kN bearings at 90 mm, shaft 60 mm with a
  // keyway (2.14, 3.0), 700 MPa, 600 N m, safety 1.5: 18.4 kN at 20 mm outside B, 13.5 at 60, 10.6 at 100 (life of
  // B), 7.35 at 150 mm (shaft). Printed to 0.1 and 0.01 kN.
  OverhungShaft shaft;
  shaft.span = 0.09;
  shaft.C_A = shaft.C_B = 90e3;
  shaft.C0_A = shaft.C0_B = 100e3;
  shaft.hours = 20000;
  shaft.speed = 2 * kPi * 1450 / 60 / 17;
  shaft.diameter_B = 0.06;
  shaft.S_ut = 700e6;
  shaft.S_e = *endurance_limit(700e6, 0.06);
  shaft.torque_mean = 600;
  EXPECT_NEAR(allowable_overhung(shaft, 0.11).force, 18.4e3, 50);
  EXPECT_NEAR(allowable_overhung(shaft, 0.15).force, 13.5e3, 50);
  const AllowableForce at_100 = allowable_overhung(shaft, 0.19);
  EXPECT_NEAR(at_100.force, 10.6e3, 50);
  EXPECT_EQ(at_100.limit, OverhungLimit::life_B);
  const AllowableForce at_150 = allowable_overhung(shaft, 0.24);
  EXPECT_NEAR(at_150.force, 7.35e3, 5);
  EXPECT_EQ(at_150.limit, OverhungLimit::shaft_B);
}

}  // namespace
}  // namespace lobewise::strength
