#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "data/model_errors.h"
#include "engine/base/constants.h"
#include "engine/drive/cold.h"
#include "engine/drive/roller_sets.h"
#include "engine/evidence/sampling.h"
#include "engine/losses/cold.h"
#include "engine/losses/loss_terms.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

double efficiency_at_speed(const drive::Drive& drive, double share, const drive::Coefficients& c) {
  drive::Running now = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  now.speed *= share;
  return drive::running_losses(drive.build, drive.tables, drive.oil, now, kZeroCelsius + 60, c).efficiency();
}

TEST(Bands, EfficiencyFallsAgainTowardsRest) {
  for (const char* frame : {"ring-80", "ring-224", "ring-450"}) {
    const drive::Drive drive = drive_of(stated(frame == std::string("ring-80") ? 60 : 1200, 50 * kRpm), frame, 31);
    double best = 0, at = 0;
    for (double share = 1; share > 1e-3; share /= 1.3)
      if (const double eta = efficiency_at_speed(drive, share, {}); eta > best) best = eta, at = share;
    EXPECT_GT(at, 0.01) << frame;
    EXPECT_LT(efficiency_at_speed(drive, 1e-3, {}), best - 0.003) << frame;
  }
}

TEST(Bands, SlowlyTurningAndAtRestMeet) {
  // What the losses become as the film goes is what a start from rest counts on, but for the seals.
  const drive::Drive drive = drive_of(stated(1200, 50 * kRpm), "ring-224", 31);
  const drive::Coefficients c;
  drive::Running now = drive.running({1, 1200, drive.requirement.speed}, c);
  const double rest = drive::at_rest(drive, 1200, kZeroCelsius + 60, c).friction.eccentric_bearings;
  now.speed *= 1e-5;
  const auto losses = drive::running_losses(drive.build, drive.tables, drive.oil, now, kZeroCelsius + 60, c);
  const double idle = 16 * drive::no_load_factor(drive.build.last().eccentric_bearing, drive.oil) *
                      std::pow(drive.build.last().eccentric_bearing.pitch_diameter, 3) * 2 *
                      drive.build.last().geometry.rollers() / drive.build.last().geometry.lobes;
  EXPECT_NEAR(losses.places.eccentric_bearings / (now.speed * drive.build.ratio()) - idle, rest, 0.01 * rest);
}

TEST(Bands, TheCustomerSeesWhatAnEngineerWouldBetOn) {
  // The model has been measured by nobody. Formulas of its kind meet measurements within some 30 % at best
  // (data/model_errors.csv): the band must allow for that much more loss at least, and not promise more than the best
  // of the trade.
  const Finding f = finding(prove(drive_of(stated(1200, 50 * kRpm), "ring-224", 31), {.in_time = false}), "efficiency");
  const Check& eta = f.checks.front();
  EXPECT_GT(1 - *eta.low, 1.3 * (1 - eta.figure));
  EXPECT_GT(*eta.low, 0.85);
  EXPECT_GT(*eta.high, eta.figure);
  EXPECT_LT(*eta.high, 0.97);
}

TEST(Bands, EveryErrorOfFormIsSampledAndMovesSomething) {
  const drive::Drive rigid = drive_of(stated(1200, 50 * kRpm), "ring-224", 31);
  // Damping counts only where the motor passes its breakdown before the first swing has died away: behind a soft
  // coupling. On a stiff chain the first swing itself is the peak, and closed forms of that have no damping.
  enquiry::Requirement coupled = stated(1200, 50 * kRpm);
  coupled.coupled.link_stiffness = 3e3;
  const drive::Drive soft = drive_of(coupled, "ring-224", 31);
  for (const data::ModelErrorsRow& row : data::kModelErrors) {
    const drive::Drive& drive = row.id == "damping" ? soft : rigid;
    const auto list = unknowns_of(drive);
    const auto found = std::find_if(list.begin(), list.end(), [&](const drive::Unknown& u) { return u.id == row.id; });
    ASSERT_NE(found, list.end()) << row.id;
    EXPECT_DOUBLE_EQ(drive::Coefficients{}.*found->member, row.nominal) << row.id;
    EXPECT_LT(found->range.low, found->range.high) << row.id;
    EXPECT_FALSE(row.reason.empty()) << row.id;
    drive::Coefficients low, high;
    low.*found->member = found->range.low;
    high.*found->member = found->range.high;
    const Evaluation a = evaluate(drive, low), b = evaluate(drive, high);
    bool moves = false;
    for (const Question& question : questions()) {
      const std::vector<Check> one = question.checks(drive, a), other = question.checks(drive, b);
      for (std::size_t i = 0; i < one.size(); ++i) moves = moves || one[i].figure != other[i].figure;
    }
    EXPECT_TRUE(moves) << row.id;
  }
}

TEST(Bands, MoreIsLostWhereMoreIsTaken) {
  const drive::Drive drive = drive_of(stated(1200, 50 * kRpm), "ring-224", 31);
  const double nominal = efficiency_at_speed(drive, 1, {});
  using C = drive::Coefficients;
  for (double C::*member : {&C::rolling_arm, &C::roller_drag, &C::load_loss_form, &C::no_load_loss_form,
                            &C::low_speed_half, &C::low_speed_rise, &C::needle_friction}) {
    C more;
    more.*member *= 1.5;
    EXPECT_LT(efficiency_at_speed(drive, 1, more), nominal);
  }
}

TEST(LowSpeed, EndsOfTheRise) {
  EXPECT_EQ(losses::low_speed_factor<double>(1, 0, 0.3), 2);
  EXPECT_EQ(losses::low_speed_factor<double>(1, 0.3, 0.3), 1.5);
  EXPECT_NEAR(losses::low_speed_factor<double>(1, 4, 0.3), 1, 0.006);
}

TEST(LossTerms, AreTheLossesOfTheParts) {
  // The formulas that workings print against the code that computes.
  const losses::BearingDrag drag{0.0865, 5, 5.5e-4};
  for (const double speed : {0.5, 5.0, 150.0}) {
    const losses::BearingLoss loss = losses::bearing_friction(drag, speed, 50e-6, 9000);
    EXPECT_NEAR(losses::no_load_moment<double>(5, 0.0865, losses::viscosity_speed<double>(50e-6, speed)), loss.M_0,
                1e-9 * loss.M_0);
  }
  EXPECT_NEAR(losses::seal_power<double>(1, kZeroCelsius + 69, 220e-6, 0.036, 153),
              losses::seal_loss(0.036, 153, 220e-6, kZeroCelsius + 69), 1e-9);
  EXPECT_NEAR(losses::gap_power<double>(3, 0.05, 2.6e-3, 153, 0.16, 0.4, losses::kDiscGap),
              3 * losses::gap_shear_loss(0.05, 2.6e-3 * 153, 0.16, losses::kDiscGap, 0.4), 1e-12);
}

TEST(RollerSets, SpinOfARingRollerIsTheMeanOfTheKinematics) {
  // The series of the mean against the mean itself.
  const range::Stage& stage = build_named("ring-224", 31).last();
  const mechanism::StageGeometry& g = stage.geometry;
  double mean = 0;
  constexpr int kSteps = 2000;
  for (int i = 0; i < kSteps; ++i) {
    const double x = 2 * kPi * i / kSteps, K = g.shortening();
    mean += g.pitch_radius * std::sqrt(1 + K * K - 2 * K * std::cos(x)) / kSteps;
  }
  EXPECT_NEAR(drive::ring_rollers(stage).spin, (mean - g.roller_radius) / (g.lobes * g.roller_radius),
              1e-3 * drive::ring_rollers(stage).spin);
}

}  // namespace
}  // namespace lobewise::evidence
