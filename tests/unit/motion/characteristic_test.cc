// Start and jam on the drive's own twist over torque: closed forms of a linear chain, and the integrator.
#include "engine/motion/characteristic.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/motion/shock.h"
#include "engine/motion/simulate.h"

namespace lobewise::motion {
namespace {

constexpr double kStiff = 4e5;
const Characteristic kLinear(2e-4, {{4000, 4000 / kStiff}});
const Characteristic kHardening(2e-4, {{300, 1.2e-3}, {1000, 2.9e-3}, {3000, 6e-3}});

TEST(Characteristic, EnergyIsTheAreaUnderTheCurve) {
  double sum = 0, before = 0;
  constexpr int kSteps = 200000;
  for (int i = 1; i <= kSteps; ++i) {
    const double torque = 5000.0 * i / kSteps;
    const double twist = kHardening.twist(torque);
    sum += (torque - 0.5 * 5000.0 / kSteps) * (twist - before);
    before = twist;
  }
  EXPECT_NEAR(kHardening.energy(5000), sum, 1e-8 * sum);
  EXPECT_NEAR(kLinear.energy(1234), 0.5 * 1234 * 1234 / kStiff, 1e-12);
  EXPECT_NEAR(kLinear.stiffness(777), kStiff, 1e-6);
}

TEST(Characteristic, LinearChainsMeetTheirClosedForms) {
  EXPECT_NEAR(start_peak(kLinear, 1500, 4e-4, 0, 5.5, 3, {0, 0}),
              start_through_play(1500, 5.5, 3, kStiff, 4e-4).peak_torque, 1e-6);
  EXPECT_NEAR(start_peak(kLinear, 1500, 0, 0, 5.5, 3, {0, 0}), step_torque(1500, 5.5, 3).peak_torque, 1e-6);
  EXPECT_NEAR(jam_at_once(kLinear, 600, 600, 5.5, 8.9), jam_linear(8.9, kStiff, 5.5, 600, JamDrive::constant), 1e-6);
  EXPECT_NEAR(jam_at_once(kLinear, 600, 0, 5.5, 8.9), jam_linear(8.9, kStiff, 5.5, 600, JamDrive::unwound), 1e-6);
  for (double angle : {0.01, 0.1, 0.5})
    EXPECT_NEAR(jam_within(kLinear, 600, 600, 5.5, 8.9, angle), jam_within_angle(8.9, kStiff, 5.5, angle, 600), 1e-4);
  // A machine too heavy to move: the motor swings against a wall, T_m (g + x) = U.
  EXPECT_NEAR(start_peak(kLinear, 500, 0, 0, 5.5, 3, {2000, 600}), 1000, 1e-6);
}

TEST(Characteristic, ShorterStopsHitHarderUpToTheWall) {
  double before = 0;
  for (double angle : {1.0, 0.3, 0.1, 0.03, 0.01, 0.001, 0.0}) {
    const double peak = jam_within(kHardening, 1500, 600, 5.5, 8.9, angle);
    EXPECT_GE(peak, before);
    before = peak;
  }
  EXPECT_EQ(before, jam_at_once(kHardening, 1500, 600, 5.5, 8.9));
}

/// Motor side of constant torque, play to cross, a machine held by dry friction: all that `start_peak` knows.
TEST(Characteristic, StartMeetsTheIntegrator) {
  for (double friction : {0.0, 600.0, 1200.0}) {
    Scenario s;
    s.chain.size = 2;
    s.chain.inertia = {5.5, 20};
    s.chain.link[0].stiffness = kStiff;
    s.chain.link[0].play = kLinear.free_angle();
    s.drive.torque = 1500;
    s.load.friction = friction;
    s.flanks = InitialFlanks::opposite;
    s.duration = 0.06;
    s.tolerance = 1e-9;
    const auto run = simulate(s);
    ASSERT_TRUE(run.ok());
    const double exact = start_peak(kLinear, 1500, 2 * kLinear.free_angle(), 0, 5.5, 20, {friction, friction});
    EXPECT_NEAR(run->links[0].spring_peak, exact, 1e-5 * exact) << friction;
  }
}

/// A drive at full speed whose supply is reversed: all that `reversal_peak` knows. The machine's friction slows it
/// down.
TEST(Characteristic, ReversalMeetsTheIntegrator) {
  for (double friction : {0.0, 600.0, 1200.0}) {
    Scenario s;
    s.chain.size = 2;
    s.chain.inertia = {5.5, 20};
    s.chain.link[0].stiffness = kStiff;
    s.chain.link[0].play = kLinear.free_angle();
    s.drive.torque = -1500;  // from the first moment on
    s.load.friction = friction;
    s.speed = 10;
    s.flanks = InitialFlanks::wound;
    s.wound_torque = friction;
    s.duration = 0.03;
    s.tolerance = 1e-9;
    const auto run = simulate(s);
    ASSERT_TRUE(run.ok());
    const double exact = reversal_peak(kLinear, 1500, friction, 5.5, 20);
    EXPECT_NEAR(-run->links[0].lowest_torque, exact, 1e-5 * exact) << friction;
  }
  // A machine that slows down at once lets the motor swing alone against the flank it lies on.
  EXPECT_EQ(reversal_peak(kLinear, 100, 2000, 5.5, 0.1), 0);
}

TEST(Characteristic, CubicSpringMeetsBothTorques) {
  const CubicSpring s = cubic_through(kHardening, 500, 3000);
  for (double torque : {500.0, 3000.0}) {
    const double x = kHardening.twist(torque);
    EXPECT_NEAR(s.linear * x + s.cubic * x * x * x, torque, 1e-6 * torque);
  }
  EXPECT_NEAR(cubic_through(kLinear, 500, 3000).cubic, 0, 1e-3 * kStiff);
}

}  // namespace
}  // namespace lobewise::motion
