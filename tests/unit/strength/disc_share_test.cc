// Unlike torques of the discs of a stage.
#include "engine/strength/disc_share.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "engine/base/constants.h"

namespace lobewise::strength {
namespace {

/// Deflection at `lever` by numerical integration of the curvature: fixed at 0, at `length` free, or held parallel.
double integrated(double diameter, double lever, double length, bool guided) {
  const double stiffness = kShaftModulus * kPi / 64 * std::pow(diameter, 4);
  const int n = 20000;
  const double h = length / n;
  const double end_moment = guided ? lever * lever / (2 * length) : 0;  // makes the slope at `length` zero
  double slope = 0, deflection = 0;
  for (int i = 0; i < n; ++i) {
    const double x = (i + 0.5) * h;
    if (x > lever) break;
    slope += h * ((lever - x) - end_moment) / stiffness;
    deflection += h * slope;
  }
  return deflection;
}

TEST(PinCompliance, AgreesWithTheIntegratedCurvature) {
  for (double lever : {0.013, 0.037}) {
    const double guided = pin_compliance_at(0.0185, lever, 0.05, PinSupport::guided);
    EXPECT_NEAR(guided, integrated(0.0185, lever, 0.05, true), 1e-3 * guided);
    const double free = pin_compliance_at(0.0185, lever, 0.05, PinSupport::cantilever);
    EXPECT_NEAR(free, integrated(0.0185, lever, 0.05, false), 1e-3 * free);
  }
}

TEST(PinCompliance, RingAtTheDiscIsTheGuidedPin) {
  EXPECT_NEAR(pin_compliance_at(0.02, 0.03, 0.03, PinSupport::guided),
              pin_bending(1, 0.02, 0.03, PinSupport::guided).deflection, 1e-18);
  // Levers of 13 and 37 mm, free ends: (37/13)^3 = 23.06 times apart.
  EXPECT_NEAR(pin_compliance_at(0.02, 0.037, 0.05, PinSupport::cantilever) /
                  pin_compliance_at(0.02, 0.013, 0.05, PinSupport::cantilever),
              23.06, 0.005);
  // Far ends tied by a ring at 50 mm: (37/13)^3 (200 - 111)/(200 - 39) = 12.7.
  EXPECT_NEAR(pin_compliance_at(0.02, 0.037, 0.05, PinSupport::guided) /
                  pin_compliance_at(0.02, 0.013, 0.05, PinSupport::guided),
              12.75, 0.05);
}

// Ten pins at 70 mm that give way by 1e-8 m/N each. A turn of 1e-3 rad moves the pin at angle a by 7e-5 sin a, so with
// 7e3 sin a N it carries 7e3 * 0.07 sum sin^2 over the loaded half = 490 * 10/4 = 1225 N m.
TEST(PinTurn, SineOfTheAngleCounted) { EXPECT_NEAR(pin_turn(1e-8, 10, 0.07), 1e-3 / 1225, 1e-12); }

TEST(DiscShares, StifferCarriesMore) {
  const auto alike = disc_shares(1e-6, {2e-7, 2e-7});
  EXPECT_NEAR(alike[0], 1, 1e-15);
  // 1/1.1 and 1/1.5: 0.9091 and 0.6667, mean 0.7879.
  const auto shares = disc_shares(1e-6, {1e-7, 5e-7});
  EXPECT_NEAR(shares[0], 1.1538, 5e-5);
  EXPECT_NEAR(shares[1], 0.8462, 5e-5);
  const auto three = disc_shares(2e-6, {1e-7, 3e-7, 9e-7});
  EXPECT_NEAR(std::accumulate(three.begin(), three.end(), 0.0), 3, 1e-12);
  EXPECT_GT(three[0], three[1]);
  EXPECT_GT(three[1], three[2]);
}

}  // namespace
}  // namespace lobewise::strength
