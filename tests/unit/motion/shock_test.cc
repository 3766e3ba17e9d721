#include "engine/motion/shock.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/motion/chain.h"
#include "engine/motion/excitation.h"

namespace lobewise::motion {
namespace {

constexpr double kSpeed = 8.94, kStiff = 3.5e5, kInertia = 5.78;

TEST(Shock, WithoutInitialTorqueEveryJamIsTheSame) {
  const double swing = kSpeed * std::sqrt(kStiff * kInertia);
  for (const JamDrive drive : {JamDrive::constant, JamDrive::off, JamDrive::unwound})
    EXPECT_NEAR(jam_linear(kSpeed, kStiff, kInertia, 0, drive), swing, 1e-9);
  EXPECT_NEAR(damped_jam(kSpeed, kStiff, kInertia, 0), swing, 1e-9);
  EXPECT_NEAR(jam_after_play(kSpeed, kStiff, kInertia, 0, 0).peak_torque, swing, 1e-9);
  EXPECT_NEAR(jam_hardening(kSpeed, kInertia, kStiff, 0), swing, 1e-9);
  EXPECT_NEAR(jam_within_angle(kSpeed, kStiff, kInertia, 0, 0), swing, 1e-9);
}

TEST(Shock, DampedJamHasNoGapAtCriticalDamping) {
  const double critical = 2 * std::sqrt(kStiff * kInertia);
  const double at = damped_jam(kSpeed, kStiff, kInertia, critical);
  EXPECT_NEAR(at, kSpeed * std::sqrt(kStiff * kInertia) * std::exp(-1.0), 1e-9);
  EXPECT_NEAR(damped_jam(kSpeed, kStiff, kInertia, critical * (1 - 1e-6)), at, 1e-3 * at);
  EXPECT_NEAR(damped_jam(kSpeed, kStiff, kInertia, critical * (1 + 1e-6)), at, 1e-3 * at);
}

TEST(Shock, LongStopsForgetTheStiffness) {
  const double long_stop = jam_within_angle(kSpeed, kStiff, kInertia, 0.3, 600);
  EXPECT_NEAR(long_stop, 600 + kInertia * kSpeed * kSpeed / 0.3, 1e-9);
  EXPECT_NEAR(jam_within_angle(kSpeed, 2 * kStiff, kInertia, 0.3, 600), long_stop, 1e-9);
  // Short stops go over into the rigid jam.
  EXPECT_NEAR(jam_within_angle(kSpeed, kStiff, kInertia, 1e-6, 600), jam_within_angle(kSpeed, kStiff, kInertia, 0, 600),
              0.1);
}

TEST(Shock, WorkedReducerFigures) {
  // An independent model (other language), printed to 10 N m: J 5.55 kg m2, w 8.93 rad/s, 600 N m, k 1/2/4e5 N m/rad.
  EXPECT_NEAR(jam_linear(8.93, 1e5, 5.55, 600, JamDrive::constant), 7250, 10);
  EXPECT_NEAR(jam_linear(8.93, 2e5, 5.55, 600, JamDrive::constant), 10010, 10);
  EXPECT_NEAR(jam_linear(8.93, 4e5, 5.55, 600, JamDrive::constant), 13910, 10);
  constexpr double kDegree = 3.14159265358979 / 180;
  EXPECT_NEAR(jam_within_angle(8.93, 1e5, 5.55, 5 * kDegree, 600), 5500, 10);  // printed: about 5500 to 5670
  EXPECT_NEAR(jam_within_angle(8.93, 4e5, 5.55, 5 * kDegree, 600), 5670, 10);
  EXPECT_NEAR(jam_within_angle(8.93, 2e5, 5.55, 15 * kDegree, 600), 2291, 2);
  EXPECT_NEAR(jam_within_angle(8.93, 2e5, 5.55, 45 * kDegree, 600), 1164, 1);
}

TEST(Chain, DampingRatioIsThatOfTheMode) {
  const double c = damping_from_ratio(0.05, kStiff, 2, 8);
  const double reduced = 2.0 * 8 / 10;
  EXPECT_NEAR(c / (2 * std::sqrt(kStiff * reduced)), 0.05, 1e-15);
}

double order_of(const std::vector<Excitation>& list, const std::string& name, Sum sum) {
  for (const Excitation& e : list) {
    if (e.name == name) {
      EXPECT_EQ(e.sum, sum) << name;
      return e.order;
    }
  }
  ADD_FAILURE() << name;
  return 0;
}

TEST(Excitation, TwoDiscsMeshInPhaseForOddLobeCounts) {
  const auto odd = stage_excitations({17, 10, 2, Fixed::ring}, 100);
  EXPECT_NEAR(order_of(odd, "lobes on ring rollers", Sum::adds), 18, 1e-12);
  EXPECT_NEAR(order_of(odd, "output pins", Sum::adds), 10 * 18.0 / 17, 1e-12);
  EXPECT_NEAR(order_of(odd, "disc on its eccentric bearing", Sum::cancels), 18.0 / 17, 1e-12);
  EXPECT_NEAR(order_of(odd, "output shaft", Sum::single), 1.0 / 17, 1e-12);
  const auto even = stage_excitations({16, 9, 2, Fixed::ring}, 100);
  EXPECT_NEAR(order_of(even, "lobes on ring rollers", Sum::cancels), 17, 1e-12);
  EXPECT_NEAR(order_of(even, "lobes on ring rollers, second order", Sum::adds), 34, 1e-12);
  EXPECT_NEAR(order_of(even, "output pins", Sum::cancels), 9 * 17.0 / 16, 1e-12);
  EXPECT_NEAR(odd[0].frequency, 100 / (2 * 3.14159265358979), 1e-9);
}

TEST(Excitation, BearingRhythmCountsEveryRollerOnce) {
  const BearingRhythm rhythm = bearing_rhythm(14, 0.009, 0.050, 0);
  EXPECT_NEAR(rhythm.outer + rhythm.inner, 14, 1e-12);
  EXPECT_NEAR(rhythm.cage, 0.5 * (1 - 0.18), 1e-12);
  EXPECT_NEAR(rhythm.rolling_element, (1 - 0.18 * 0.18) / 0.18, 1e-12);
}

TEST(Excitation, DiscsBalanceInForceButNotInMoment) {
  EXPECT_NEAR(disc_unbalance(1, 2, 0.003, 0.02, 150).force, 2 * 0.003 * 150 * 150, 1e-9);
  EXPECT_EQ(disc_unbalance(1, 2, 0.003, 0.02, 150).couple, 0);
  const double one = 2 * 0.003 * 150 * 150;
  EXPECT_EQ(disc_unbalance(2, 2, 0.003, 0.02, 150).force, 0);
  EXPECT_NEAR(disc_unbalance(2, 2, 0.003, 0.02, 150).couple, one * 0.02, 1e-9);
  EXPECT_NEAR(disc_unbalance(3, 2, 0.003, 0.02, 150).couple, one * 0.02 * std::sqrt(3.0), 1e-9);
}

}  // namespace
}  // namespace lobewise::motion
