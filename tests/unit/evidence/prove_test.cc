#include "engine/evidence/prove.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "engine/base/constants.h"
#include "engine/evidence/questions.h"
#include "engine/evidence/sampling.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

const WorkingStep& step(const Finding& finding, const std::string& symbol) {
  for (const WorkingStep& s : finding.working)
    if (s.symbol == symbol) return s;
  throw std::runtime_error("no step " + symbol);
}

double input(const WorkingStep& step, const std::string& symbol) {
  for (const WorkingInput& i : step.inputs)
    if (i.symbol == symbol) return i.value;
  throw std::runtime_error("no input " + symbol);
}

class ProofOfOneDrive : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    drive_ = new drive::Drive(drive_of(stated(1200, 47 * kRpm), "ring-265", 31));
    evidence_ = new Evidence(prove(*drive_, {100}));
  }
  static void TearDownTestSuite() {
    delete evidence_;
    delete drive_;
  }
  static drive::Drive* drive_;
  static Evidence* evidence_;
};
drive::Drive* ProofOfOneDrive::drive_ = nullptr;
Evidence* ProofOfOneDrive::evidence_ = nullptr;

TEST_F(ProofOfOneDrive, RatioIsTheLobeCountExactly) {
  // Fact of the trade: N lobes in N + 1 rollers give exactly N to 1.
  const Finding& ratio = finding(*evidence_, "ratio");
  EXPECT_DOUBLE_EQ(step(ratio, "n_2").value, drive_->motor->rated_speed / 31);
}

TEST_F(ProofOfOneDrive, ContactPressureIsHertzOfItsForce) {
  // The hardest pressed lobe: p0 = sqrt(q E* / (pi rho)) with 0 < rho <= r on the convex flank gives a lower bound from
  // rho = r.
  const Finding& contact = finding(*evidence_, "contact");
  const double r = drive_->build.last().geometry.roller_radius;
  for (const char* level : {"p_a", "p_b"}) {
    const WorkingStep& p = step(contact, level);
    const std::string at = level + 1;
    const double lower = std::sqrt(input(p, "F_p" + at.substr(1)) / input(p, "b") * input(p, "E*") / (kPi * r));
    EXPECT_GT(p.value, 0.95 * lower);
    EXPECT_LT(p.value, 3 * lower);
  }
  EXPECT_GE(step(contact, "p_0").value, step(contact, "p_a").value);
  EXPECT_LE(step(contact, "p_0").value, step(contact, "p_b").value);
}

TEST_F(ProofOfOneDrive, BasicLifeFollowsFromItsOwnWorking) {
  // L10h = 1e6 (C/P)^p / (60 n), ISO 281, of the bearing that its own check names; one load all the time.
  const Evaluation e = evaluate(*drive_, {});
  for (const drive::PartLife& part : e.lives.parts) {
    if (!part.bearing || !std::isfinite(part.basic_hours)) continue;
    const double exponent = part.ball ? 3 : 10.0 / 3;
    const double hours = 1e6 * std::pow(part.C / part.load, exponent) / (60 * part.speed / kRpm);
    EXPECT_NEAR(part.basic_hours, hours, 1e-6 * hours) << part.label;
    EXPECT_NEAR(part.hours_90, part.life_factor * hours, 1e-6 * part.hours_90) << part.label;
  }
  // The shares of the parts multiply to the share of whole units.
  double product = 1;
  for (const WorkingStep& s : finding(*evidence_, "life").working)
    if (s.symbol.rfind("R_", 0) == 0) product *= s.value;
  EXPECT_NEAR(step(finding(*evidence_, "life"), "R").value, product, 1e-12);
  EXPECT_NEAR(product, e.lives.reliability, 1e-9);
}

TEST_F(ProofOfOneDrive, ShaftReactionIsTheLeverLaw) {
  const drive::Drive loaded = [] {
    enquiry::Requirement requirement = stated(1200, 47 * kRpm);
    requirement.radial_force = 9000;
    requirement.position = 0.05;
    return drive_of(requirement, "ring-265", 31);
  }();
  const Evaluation e = evaluate(loaded, {});
  const range::OutputShaft& shaft = loaded.build.frame().output;
  const double x = shaft.span + shaft.overhang + 0.05;
  EXPECT_NEAR(e.reactions.at_B, 9000 * x / shaft.span, 1e-6);
  EXPECT_NEAR(e.reactions.at_A, 9000 - 9000 * x / shaft.span, 1e-6);
}

TEST_F(ProofOfOneDrive, HeatGivenOffEqualsLosses) {
  const Finding& heat = finding(*evidence_, "heat");
  const double out = step(heat, "Q_conv").value + step(heat, "Q_rad").value + step(heat, "Q_base").value;
  EXPECT_NEAR(out, step(heat, "P").value, 1e-5 * out);
}

TEST_F(ProofOfOneDrive, LossesAddUpToTheEfficiencyShown) {
  const Finding& efficiency = finding(*evidence_, "efficiency");
  double sum = 0;
  for (const WorkingStep& s : efficiency.working)
    if (s.symbol.rfind("P_", 0) == 0) sum += s.value;
  const WorkingStep& eta = step(efficiency, "eta");
  EXPECT_NEAR(eta.value, input(eta, "P_2") / (input(eta, "P_2") + sum), 1e-12);
}

TEST_F(ProofOfOneDrive, RigidJamIsAtLeastTheEnergyBalance) {
  // T0 + w sqrt(k J): the closed form of a rigid jam must exceed any stop within an angle.
  const Evaluation e = evaluate(*drive_, {});
  EXPECT_GE(e.peaks.jam_rigid, e.peaks.jam);
  const drive::Torsion t = drive::torsion_of(*drive_, {});
  const motion::Characteristic chain = drive::characteristic_of(*drive_, {});
  const double energy = 0.5 * t.motor_inertia * drive_->output_speed * drive_->output_speed;
  EXPECT_NEAR(energy + e.peaks.pull_jam * (chain.twist(e.peaks.jam_rigid) - chain.twist(1200)),
              chain.energy(e.peaks.jam_rigid) - chain.energy(1200), 1e-6 * energy);
}

TEST_F(ProofOfOneDrive, StartLiesBetweenTheMotorsPullAndItsBound) {
  const Evaluation e = evaluate(*drive_, {});
  EXPECT_GT(e.peaks.start, 1200);
  EXPECT_GE(e.peaks.start_bound, e.peaks.start);
  EXPECT_LE(e.peaks.start_bound, 4 * e.peaks.pull);
  const auto run = drive::simulate_first_moments(*drive_, {});
  ASSERT_TRUE(run.ok());
  // Damping and the falling curve of the motor only take torque away.
  EXPECT_LE(run->links[0].spring_peak, 1.02 * e.peaks.start);
  EXPECT_GE(run->links[0].spring_peak, 0.6 * e.peaks.start);
}

TEST_F(ProofOfOneDrive, VerdictsDoNotDependOnWhatIsFollowedInTime) {
  const Evidence brief = prove(*drive_, {.samples = 100, .in_time = false});
  ASSERT_EQ(brief.findings.size(), evidence_->findings.size());
  for (std::size_t i = 0; i < brief.findings.size(); ++i) {
    const Finding &one = brief.findings[i], &other = evidence_->findings[i];
    EXPECT_EQ(one.verdict, other.verdict) << one.id;
    ASSERT_EQ(one.checks.size(), other.checks.size()) << one.id;
    for (std::size_t k = 0; k < one.checks.size(); ++k) EXPECT_EQ(one.checks[k].figure, other.checks[k].figure);
  }
  EXPECT_LT(finding(brief, "shock").charts.size(), finding(*evidence_, "shock").charts.size());
}

TEST_F(ProofOfOneDrive, EveryEventCanBeFollowed) {
  const auto runs = drive::simulate_events(*drive_, drive::simulate_start(*drive_, {}), {});
  ASSERT_EQ(runs.size(), 7U);
  for (const drive::ShockRun& run : runs) {
    ASSERT_TRUE(run.outcome.ok()) << run.id << ": " << run.outcome.errors().front().message;
    EXPECT_GT(run.peak(), 0) << run.id;
  }
  // Star gives a third of the torque, so that it hits less hard at first than direct on line.
  EXPECT_LT(runs[1].peak(), runs[0].peak());
  EXPECT_LT(runs[3].peak(), runs[0].peak());
}

TEST_F(ProofOfOneDrive, EveryFigureHasWorkingWithASource) {
  for (const Finding& f : evidence_->findings) {
    EXPECT_FALSE(f.answer.empty()) << f.id;
    EXPECT_TRUE(!f.working.empty() || f.verdict == Verdict::cannot_be_judged) << f.id;
    for (const WorkingStep& s : f.working) {
      EXPECT_FALSE(s.source.empty()) << f.id << " " << s.symbol;
      EXPECT_TRUE(std::isfinite(s.value)) << f.id << " " << s.symbol;
    }
    for (const Chart& chart : f.charts)
      for (const Series& series : chart.series) {
        ASSERT_EQ(series.x.size(), series.y.size()) << chart.id;
        for (double y : series.y) EXPECT_TRUE(std::isfinite(y)) << chart.id;
      }
  }
}

TEST_F(ProofOfOneDrive, NominalFigureLiesInItsRange) {
  for (const Finding& f : evidence_->findings)
    for (const Check& check : f.checks) {
      if (!check.low || *check.low == *check.high) continue;
      EXPECT_LE(*check.low, check.figure * 1.05 + 1e-9) << f.id << " " << check.name;
      EXPECT_GE(*check.high, check.figure * 0.95 - 1e-9) << f.id << " " << check.name;
    }
}

TEST_F(ProofOfOneDrive, SameInputGivesTheSameAnswer) {
  const Evidence again = prove(*drive_, {100});
  for (std::size_t i = 0; i < again.findings.size(); ++i)
    for (std::size_t j = 0; j < again.findings[i].checks.size(); ++j)
      EXPECT_EQ(again.findings[i].checks[j].low, evidence_->findings[i].checks[j].low);
}

TEST(Proof, MoreTorqueNeverWidensAMarginOfStrength) {
  std::map<std::string, double> before;
  for (double torque : {600.0, 900.0, 1400.0, 2000.0}) {
    const drive::Drive drive = drive_of(stated(torque, 47 * kRpm), "ring-265", 31);
    for (const QuickFinding& quick : quick_look(drive))
      for (const Check& check : quick.checks) {
        const std::string id = quick.question->id;
        if (id != "contact" && id != "life" && id != "overhung") continue;
        const auto found = before.find(id + check.name);
        if (found != before.end()) {
          EXPECT_LE(check.margin(), found->second + 1e-9) << check.name << " at " << torque;
        }
        before[id + check.name] = check.margin();
      }
  }
}

TEST_F(ProofOfOneDrive, LifeAtOtherReliabilitiesFollowsTheTable) {
  // ISO 281:2007 table of a_1 (from memory): 95 % 0.64, 99 % 0.25; a line contact by its slope 9/8, 0.53 and 0.12.
  const Finding& life = finding(*evidence_, "life");
  for (const auto& [symbol, bearing, line] : {std::tuple{"L_5m", 0.64, 0.53}, {"L_1m", 0.25, 0.12}}) {
    const double a_1 = input(step(life, symbol), "a_1");
    EXPECT_TRUE(std::abs(a_1 - bearing) < 0.006 || std::abs(a_1 - line) < 0.006) << a_1;
    EXPECT_NEAR(step(life, symbol).value, std::min(3.6e9, a_1 * input(step(life, symbol), "L_10m")), 1);
  }
  // The unit's curve passes 90 % at its own 90 % life.
  for (const Chart& chart : life.charts)
    if (chart.id == "life_over_reliability") {
      EXPECT_NEAR(chart.series[1].y[0], std::min(1e6 * 3600, 3600 * evaluate(*drive_, {}).lives.hours_of(0.9)),
                  1e-6 * chart.series[1].y[0]);
    }
}

TEST_F(ProofOfOneDrive, HeatOrStrengthIsSaid) {
  const Finding& heat = finding(*evidence_, "heat");
  const double by_strength = step(heat, "T_strength").value;
  drive::Coefficients c;
  const auto fails = [&](double torque) {
    c.torque_factor = torque / 1200;
    const Evaluation e =
        evaluate(*drive_, c, drive::steady(*drive_, drive_->requirement.ambient_high, {})->oil_temperature);
    for (const auto checks : {contact_checks, life_checks, overhung_checks})
      for (const Check& check : checks(*drive_, e))
        if (check.margin() < 0) return true;
    return false;
  };
  EXPECT_FALSE(fails(0.999 * by_strength));
  EXPECT_TRUE(fails(1.001 * by_strength));
}

TEST(Heat, TheTorqueItAllowsBringsTheOilToItsLimit) {
  enquiry::Requirement requirement = stated(1200, 47 * kRpm);
  requirement.ambient_high = kZeroCelsius + 60;
  drive::Drive hot = drive_of(requirement, "ring-265", 31);
  const double allowed = step(finding(prove(hot, {0}), "heat"), "T_heat").value;
  hot.requirement.duty = {{1, allowed, requirement.speed}};
  EXPECT_NEAR(drive::steady(hot, requirement.ambient_high, {})->oil_temperature, drive::lubricant_limit(hot.oil), 0.05);
}

TEST_F(ProofOfOneDrive, MotorCurveMeetsItsRatedPoint) {
  const auto curve = drive::motor_curve_of(*drive_, {});
  ASSERT_TRUE(curve.ok());
  EXPECT_NEAR(curve->torque(drive_->motor->rated_speed), drive_->motor->rated_torque,
              1e-6 * drive_->motor->rated_torque);
}

TEST_F(ProofOfOneDrive, RhythmOfABearingCountsItsRollers) {
  // Passes over a point of the outer and of the inner ring add up to the rollers per turn of the rings (kinematics).
  const Finding& motion = finding(*evidence_, "motion");
  const double turns = drive_->input_speed / (2 * kPi);
  EXPECT_NEAR(step(motion, "f_outer_in").value + step(motion, "f_inner_in").value,
              drive_->build.last().input_bearing.elements * turns, 1e-9 * turns);
}

TEST_F(ProofOfOneDrive, StiffnessIsMeshAndShaftInARow) {
  const drive::Torsion t = drive::torsion_of(*drive_, {});
  EXPECT_NEAR(1 / t.stiffness, 1 / t.mesh_stiffness + 1 / t.shaft_stiffness, 1e-9 / t.stiffness);
  // Torsion of round bars, by hand: G 79.2 GPa, 32 l/(G pi d^4); the input shaft stands behind 31^2.
  const range::OutputShaft& shaft = drive_->build.frame().output;
  const auto bar = [](double d, double l) { return 32 * l / (206e9 / 2.6 * kPi * std::pow(d, 4)); };
  const range::Stage& stage = drive_->build.last();
  EXPECT_NEAR(1 / t.shaft_stiffness,
              bar(shaft.seat_diameter, shaft.span + shaft.overhang) + bar(shaft.diameter, shaft.length / 2) +
                  bar(stage.input_shaft_diameter, stage.input_span) / (31.0 * 31.0),
              1e-9 / t.shaft_stiffness);
}

TEST(Intermittent, ThePeakOfTheCycleIsJudged) {
  enquiry::Requirement requirement = stated(2000, 47 * kRpm);
  const Evaluation always = evaluate(drive_of(requirement, "ring-265", 31), {});
  requirement.intermittent = {1800.0, 1800.0};
  const drive::Drive drive = drive_of(requirement, "ring-265", 31);
  const Evaluation e = evaluate(drive, {});
  ASSERT_TRUE(always.warm && e.warm && e.cycle);
  EXPECT_GT(e.cycle->oil_peak, e.warm->oil_temperature);
  EXPECT_LT(e.cycle->oil_peak, always.warm->oil_temperature);
  EXPECT_EQ(e.oil_temperature, e.cycle->oil_peak);
  EXPECT_EQ(heat_checks(drive, e).front().figure, e.cycle->oil_peak);
  // The losses between whole kelvins are close enough: the cycle's own heat balance, run step by step without them.
  const auto exact = heat::periodic_duty(
      drive::housing_of(drive, requirement.ambient_high, {}),
      std::vector<heat::DutyPhase>{{1800, requirement.air_speed}, {1800, drive::air_at_rest(drive)}},
      [&](std::size_t phase, double oil) { return phase == 0 ? drive::running_loss(drive, oil, {}) : 0.0; });
  ASSERT_TRUE(exact.has_value());
  EXPECT_NEAR(e.cycle->oil_peak, exact->oil_peak, 0.01);
  // A cycle short against the unit's own time: nearly the steady state of the mean, but for the fan that stands.
  requirement.intermittent = {5.0, 5.0};
  const drive::Drive quick = drive_of(requirement, "ring-265", 31);
  const Evaluation q = evaluate(quick, {});
  ASSERT_TRUE(q.cycle.has_value());
  EXPECT_LT(q.cycle->oil_peak - q.cycle->oil_trough, 1);
  const Finding heat = finding(prove(drive, {0}), "heat");
  EXPECT_TRUE(std::any_of(heat.charts.begin(), heat.charts.end(), [](const Chart& c) { return c.id == "duty_cycle"; }));
}

TEST(Judge, FollowsChecksAndTheirRanges) {
  EXPECT_EQ(judge({}), Verdict::cannot_be_judged);
  Check check{"x", 0.8, 1.0, Quantity::number, true, {}, {}};
  EXPECT_EQ(judge({check}), Verdict::holds);
  check.high = 1.1;
  EXPECT_EQ(judge({check}), Verdict::holds_if);
  check.figure = 1.2;
  EXPECT_EQ(judge({check}), Verdict::does_not_hold);
  Check least{"y", 1.2, 1.0, Quantity::number, false, 0.9, 1.5};
  EXPECT_EQ(judge({least}), Verdict::holds_if);
  EXPECT_NEAR(least.margin(), 0.2, 1e-12);
  Check warm{"t", 340, 363, Quantity::temperature, true, {}, {}, 313};
  EXPECT_NEAR(warm.margin(), 23.0 / 50, 1e-12);
}

TEST(LatinHypercube, TakesEveryShareOfEveryUnknownOnce) {
  const std::vector<drive::Unknown> unknowns(drive::unknowns().begin(), drive::unknowns().end());
  const int count = 40;
  const auto samples = latin_hypercube(unknowns, count, 7);
  for (const drive::Unknown& unknown : unknowns) {
    std::set<int> shares;
    for (const drive::Coefficients& sample : samples) {
      const double value = sample.*unknown.member;
      EXPECT_GE(value, unknown.range.low) << unknown.id;
      EXPECT_LE(value, unknown.range.high) << unknown.id;
      for (int i = 0; i < count; ++i)
        if (value >= value_at(unknown, static_cast<double>(i) / count) &&
            value < value_at(unknown, static_cast<double>(i + 1) / count))
          shares.insert(i);
    }
    EXPECT_EQ(shares.size(), static_cast<std::size_t>(count)) << unknown.id;
  }
}

}  // namespace
}  // namespace lobewise::evidence
