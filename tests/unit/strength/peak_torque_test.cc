// Closed forms of what a part bears, each put back into what it was solved from.
#include "engine/strength/peak_torque.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/strength/bolts.h"
#include "engine/strength/pulses.h"
#include "engine/strength/shaft.h"
#include "engine/strength/shaft_key.h"

namespace lobewise::strength {
namespace {

TEST(PeakTorque, ASectionYieldsWhereDistortionEnergySays) {
  for (double bending : {0.0, 0.4, 2.5})
    for (double axial : {0.0, 30e3}) {
      const double torque = section_yield_torque(bending, axial, 0.06, 650e6);
      EXPECT_NEAR(von_mises(nominal_stress(bending * torque, torque, axial, 0.06, 0)), 650e6, 1);
    }
  // Torsion alone: R_e pi d^3/(16 sqrt 3), 15.9 kN m for 650 MPa and 60 mm (by hand).
  EXPECT_NEAR(section_yield_torque(0.0, 0.0, 0.06, 650e6), 15916, 1);
}

TEST(PeakTorque, AKeyIsPressedAsItsMeanPressureSays) {
  const ParallelKey key{0.018, 0.011, 0.007, 0.1, true};
  const double torque = key_torque(420e6, 0.06, 0.011 - 0.007, 0.1 - 0.018);
  EXPECT_NEAR(parallel_key(key, torque, 0.06).hub_pressure, 420e6, 1e-3);
}

TEST(PeakTorque, ABearingTakesTheWorseOfItsTwoLines) {
  // C_0 200 kN, radial load 10 N and induced thrust 2 N a newton metre, 20 kN axial. Radial alone: 200e3/10 = 20 kN m;
  // with thrust (200e3 - 0.8 20e3)/(0.5 10 + 0.8 2) = 27.9 kN m: the radial load rules.
  EXPECT_NEAR(bearing_static_torque(200e3, 1.0, 10.0, 20e3, 2.0, 0.5, 0.8), 20e3, 1e-6);
  // Thrust five times as much rules itself: 184e3/(5 + 8) = 14.15 kN m; twice the safety asks more than half.
  EXPECT_NEAR(bearing_static_torque(200e3, 1.0, 10.0, 20e3, 10.0, 0.5, 0.8), 184e3 / 13, 1e-6);
  EXPECT_NEAR(bearing_static_torque(200e3, 2.0, 10.0, 20e3, 10.0, 0.5, 0.8), 84e3 / 13, 1e-6);
}

TEST(PeakTorque, TheInputSeesTheRotorsShareOfWhatTheMotorKeeps) {
  // Nothing of its own: the input carries what passes, whatever the motor gives.
  EXPECT_EQ(input_torque(1000.0, 0.04, 0.0, 90.0), 40);
  // A rotor without inertia beside it: the shaft carries what the motor gives.
  EXPECT_EQ(input_torque(1000.0, 0.04, 1.0, 90.0), 90);
  // Newton on both: J_r a = T_m - T_1, J_o a = T_1 - u T.
  const double J_r = 0.05, J_o = 0.005, T_m = 90, passed = 40;
  const double a = (T_m - passed) / (J_r + J_o);
  EXPECT_NEAR(input_torque(1000.0, 0.04, J_o / (J_r + J_o), T_m), T_m - J_r * a, 1e-12);
}

TEST(Pulses, APinIsMetByItsShareOfAllPeaks) {
  EXPECT_NEAR(pin_share(1.0), 1 / kPi, 1e-12);  // mean of a half wave
  EXPECT_NEAR(pin_share(2.0), 0.25, 1e-12);
  double sum = 0;
  constexpr int kSteps = 100000;
  for (int i = 0; i < kSteps; ++i)
    sum += std::pow(std::max(0.0, std::cos(2 * kPi * (i + 0.5) / kSteps)), 4.29) / kSteps;
  EXPECT_NEAR(pin_share(4.29), sum, 1e-8);
}

TEST(Pulses, TheLineMeetsBothStrengths) {
  const double k = pulse_exponent(1500.0, 300.0);
  EXPECT_NEAR(1e3 * std::pow(1500.0, k), 1e6 * std::pow(300.0, k), 1e-6 * 1e6 * std::pow(300.0, k));
}

TEST(Pulses, SafetyIsGoodmansLine) {
  FatigueLoad load;
  load.moment_amplitude = 300;
  load.moment_mean = 120;
  load.torque_amplitude = 500;
  load.torque_mean = 700;
  const auto both = [&](double M, double T) { return std::hypot(2 * load.K_f * M, std::sqrt(3.0) * load.K_fs * T); };
  EXPECT_NEAR(pulse_safety(both(300, 500), both(120, 700), 0.06, 230e6, 900e6),
              goodman_safety(load, 0.06, 230e6, 900e6), 1e-12);
}

TEST(Bolts, FeetCarryMomentAndPull) {
  // A torque alone: two bolts at the distance a hold M = 2 F a.
  EXPECT_NEAR(foot_torque(10e3, 1.0, 0.3, 0.0, 0.8), 2 * 10e3 * 0.3, 1e-9);
  // The force that the torque and the pull put on the bolt together is the force it was solved for.
  const double torque = foot_torque(10e3, 1.03, 0.3, 9.1, 0.8);
  EXPECT_NEAR(1.03 * torque / (2 * 0.3) + 9.1 * torque * 0.8, 10e3, 1e-9);
}

TEST(Bolts, AFlangeHoldsByFrictionAndAgainstTilting) {
  EXPECT_NEAR(flange_slip_torque(0.15, 8.0, 40e3, 0.2, 1.0), 0.15 * 8 * 40e3 * 0.2, 1e-9);
  // Forces linear over a circle of n bolts: M = F_max R sum cos^2 = F_max R n/2.
  const double torque = flange_tilt_torque(40e3, 8.0, 0.2, 9.0, 0.1);
  double moment = 0;
  for (int i = 0; i < 8; ++i) moment += 40e3 * 0.2 * std::pow(std::cos(2 * kPi * i / 8), 2);
  EXPECT_NEAR(9.0 * torque * 0.1, moment, 1e-6);
}

}  // namespace
}  // namespace lobewise::strength
