// The charts of a finding show what the finding computes: each passes through the figures it stands beside.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "engine/base/constants.h"
#include "engine/drive/cold.h"
#include "engine/evidence/lubricant_charts.h"
#include "engine/evidence/motor_charts.h"
#include "engine/evidence/speed_charts.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

const Chart& chart(const std::vector<Chart>& charts, const std::string& id) {
  for (const Chart& c : charts)
    if (c.id == id) return c;
  throw std::runtime_error("no chart " + id);
}
/// The series whose name begins so.
const Series& series(const Chart& chart, const std::string& name) {
  for (const Series& s : chart.series)
    if (s.name.rfind(name, 0) == 0) return s;
  throw std::runtime_error("no series " + name + " in " + chart.id);
}
/// Figure of a series at a place where it has a point.
double at(const Series& series, double x) {
  for (std::size_t i = 0; i < series.x.size(); ++i)
    if (std::abs(series.x[i] - x) <= 1e-9 * std::abs(x)) return series.y[i];
  ADD_FAILURE() << series.name << " has no point at " << x;
  return NAN;
}
double most(const Series& series) { return *std::max_element(series.y.begin(), series.y.end()); }

enquiry::Requirement full_requirement() {
  enquiry::Requirement requirement = stated(900, 47 * kRpm);
  requirement.radial_force = 5000;
  requirement.ambient_low = kZeroCelsius - 10;
  requirement.ambient_high = kZeroCelsius + 40;
  requirement.incumbent = enquiry::Incumbent{};
  requirement.incumbent->kind = incumbent::UnitKind::worm;
  requirement.incumbent->dimensions = incumbent::Dimensions{};
  requirement.incumbent->dimensions->shaft_height = 0.28;
  requirement.economics = enquiry::Economics{};
  requirement.economics->energy_price = Span{4e-8, 5e-8, 6e-8};
  return requirement;
}

class Charts : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    drive_ = new drive::Drive(drive_of(full_requirement(), "ring-224", 31));
    nominal_ = new Evaluation(evaluate(*drive_, {}));
    evidence_ = new Evidence(prove(*drive_, {60}));
  }
  static void TearDownTestSuite() {
    delete evidence_;
    delete nominal_;
    delete drive_;
  }
  static drive::Drive* drive_;
  static Evaluation* nominal_;
  static Evidence* evidence_;
};
drive::Drive* Charts::drive_ = nullptr;
Evaluation* Charts::nominal_ = nullptr;
Evidence* Charts::evidence_ = nullptr;

std::size_t places_of(const std::string& name) {
  std::size_t count = 0;
  for (std::size_t i = name.find("{}"); i != std::string::npos; i = name.find("{}", i + 1)) ++count;
  return count;
}

TEST_F(Charts, EveryFindingHasOne) {
  EXPECT_EQ(evidence_->findings.size(), questions().size());
  for (const Finding& f : evidence_->findings)
    // Where it may stand is a matter of words: there is no figure to draw.
    EXPECT_EQ(f.charts.empty(), f.id == "place") << f.id;
}

TEST_F(Charts, AreWholeAndDrawable) {
  std::set<std::string> ids;
  for (const Finding& f : evidence_->findings)
    for (const Chart& c : f.charts) {
      EXPECT_TRUE(ids.insert(c.id).second) << c.id;
      EXPECT_FALSE(c.title.empty() || c.x_label.empty() || c.y_label.empty()) << c.id;
      EXPECT_EQ(c.title.find("bar)"), std::string::npos) << c.title;
      ASSERT_FALSE(c.series.empty()) << c.id;
      bool pairs = false;
      for (const Series& s : c.series) {
        EXPECT_EQ(places_of(s.name), s.values.size()) << c.id << ": " << s.name;
        EXPECT_FALSE(s.name.empty()) << c.id;
        ASSERT_EQ(s.x.size(), s.y.size()) << c.id;
        ASSERT_FALSE(s.x.empty()) << c.id << ": " << s.name;
        for (std::size_t i = 0; i < s.x.size(); ++i) {
          EXPECT_TRUE(std::isfinite(s.x[i]) && std::isfinite(s.y[i])) << c.id << ": " << s.name;
          EXPECT_TRUE(!c.log_x || s.x[i] > 0) << c.id;
          EXPECT_TRUE(!c.log_y || s.y[i] > 0) << c.id;
        }
        if (!c.bars || s.dashed) continue;
        EXPECT_LE(s.x.size(), 2U) << c.id;
        pairs = pairs || s.x.size() == 2;
      }
      EXPECT_EQ(c.pair.size(), pairs ? 2U : 0U) << c.id;
      for (const std::string& name : c.pair) EXPECT_FALSE(name.empty()) << c.id;
    }
}

TEST_F(Charts, SpeedsOfTheRatiosAreTheMotorsSpeedOverThem) {
  const Chart& speeds = chart(finding(*evidence_, "ratio").charts, "speed_of_ratios");
  std::size_t bars = 0, this_one = 0;
  for (const Series& s : speeds.series) {
    if (s.dashed) continue;
    ++bars;
    EXPECT_NEAR(s.y[0], drive_->motor->rated_speed / std::stod(s.name), 1e-9 * s.y[0]) << s.name;
    if (s.name.find("this build") == std::string::npos) continue;
    ++this_one;
    EXPECT_EQ(s.y[0], drive_->output_speed);
  }
  EXPECT_GT(bars, 4U);
  EXPECT_EQ(this_one, 1U);
  const double asked = drive_->requirement.speed;
  EXPECT_DOUBLE_EQ(series(speeds, "slowest").y[0], asked * (1 - drive_->requirement.speed_tolerance));
  EXPECT_DOUBLE_EQ(series(speeds, "fastest").y[0], asked * (1 + drive_->requirement.speed_tolerance));
}

TEST_F(Charts, SpeedOverLoadLiesOnTheMotorsCurve) {
  const Chart& speeds = chart(finding(*evidence_, "ratio").charts, "speed_over_load");
  const auto curve = drive::motor_curve_of(*drive_, {});
  ASSERT_TRUE(curve.ok());
  const Series& s = speeds.series.front();
  const double ratio = drive_->build.ratio();
  for (std::size_t i = 1; i < s.x.size(); ++i) EXPECT_LT(s.y[i], s.y[i - 1]);
  for (std::size_t i = 0; i < s.x.size(); ++i) EXPECT_GT(curve->torque(s.y[i] * ratio) * ratio, s.x[i]) << "losses";
  // At full load the motor gives the power that the proof counts at its shaft.
  const double torque = drive_->requirement.torque;
  EXPECT_NEAR(curve->torque(at(s, torque) * ratio), nominal_->full.input_power() / drive_->input_speed,
              1e-9 * torque / ratio);
  EXPECT_EQ(series(speeds, "as the proof takes it").y[0], drive_->output_speed);
}

TEST_F(Charts, ForceOnALobeKeepsTheMeanOfTheCycle) {
  const Chart& forces = chart(finding(*evidence_, "sharing").charts, "lobe_force");
  const Series &mean = forces.series[0], &largest = forces.series[1], &least = forces.series[2];
  const drive::StageTable& table = *drive_->tables.back();
  const double torque = drive_->requirement.torque * table.hardest_disc();
  const drive::StageTable::Between around = table.between(torque);
  const auto average = [](const std::vector<double>& v) {
    return std::accumulate(v.begin(), v.end(), 0.0) / static_cast<double>(v.size());
  };
  const double expected =
      (1 - around.share) * average(around.below->forces.flank) + around.share * average(around.above->forces.flank);
  EXPECT_NEAR(average(mean.y), expected, 1e-9 * expected);
  // The curve ends at the force that is proved, here to the last digit: both solved torques press hardest at one place.
  const double proved = table.at(torque, &drive::MeshLevel::lobe_force);
  EXPECT_NEAR(most(largest), proved, 1e-9 * proved);
  EXPECT_EQ(most(forces.series[3]), proved);
  EXPECT_EQ(mean.y.size(), static_cast<std::size_t>(drive_->build.last().geometry.rollers()));
  for (std::size_t i = 0; i < mean.y.size(); ++i) {
    EXPECT_LE(least.y[i], mean.y[i] * (1 + 1e-12));
    EXPECT_GE(largest.y[i], mean.y[i] * (1 - 1e-12));
  }
}

TEST_F(Charts, ViscosityAtFortyDegreesIsTheGrade) {
  const Chart& nu = chart(finding(*evidence_, "lubrication").charts, "viscosity_over_temperature");
  EXPECT_TRUE(nu.log_y);
  const Series& oil = nu.series.front();
  EXPECT_NEAR(at(oil, kZeroCelsius + 40), drive_->oil.fill.viscosity_40, 1e-9 * drive_->oil.fill.viscosity_40);
  for (std::size_t i = 1; i < oil.y.size(); ++i) EXPECT_LT(oil.y[i], oil.y[i - 1]);
}

TEST_F(Charts, ViscosityOverWhatIsAskedIsTheCheck) {
  const Finding& lubrication = finding(*evidence_, "lubrication");
  const Chart& nu = chart(lubrication.charts, "viscosity_over_temperature");
  const Series& running = series(nu, "running");
  EXPECT_EQ(running.x[0], nominal_->oil_temperature);
  EXPECT_EQ(running.y[0], drive_->oil.nu(nominal_->oil_temperature, 1));
  const Check& kappa = lubrication.checks.front();
  const double asked = series(nu, "asked for by the input bearing").y[0];
  EXPECT_NEAR(running.y[0] / asked, kappa.figure, 1e-9 * kappa.figure);
  EXPECT_NEAR(series(nu, "least for it").y[0], kappa.limit * asked, 1e-12 * asked);
  EXPECT_EQ(series(nu, "cold start").x[0], drive_->requirement.ambient_low);
  EXPECT_EQ(series(nu, "warmest surroundings").x[0], drive_->requirement.ambient_high);
  EXPECT_EQ(series(nu, "limit").x[0], drive::lubricant_limit(drive_->oil));
}

TEST_F(Charts, TheRangeOfTheOilsTemperatureIsThatOfTheHeat) {
  const Check& oil = finding(*evidence_, "heat").checks.front();
  ASSERT_TRUE(oil.low && oil.high);
  for (const Chart& c : finding(*evidence_, "lubrication").charts) {
    const Series& range = series(c, "may be");
    EXPECT_TRUE(range.band);
    EXPECT_EQ(range.x.front(), *oil.low);
    EXPECT_EQ(range.x.back(), *oil.high);
    EXPECT_EQ(range.values[0].si, *oil.low);
    EXPECT_EQ(range.values[1].si, *oil.high);
  }
  for (const Chart& c : lubricant_charts(*drive_, *nominal_))  // without samples nothing is known of it
    EXPECT_THROW(series(c, "may be"), std::runtime_error);
}

TEST_F(Charts, ARangeBeyondTheCurveIsCutToIt) {
  std::vector<Chart> charts = lubricant_charts(*drive_, *nominal_);
  mark_temperature_range(*drive_, kZeroCelsius + 60, kZeroCelsius + 200, charts);
  for (const Chart& c : charts) {
    EXPECT_EQ(c.series.back().x.back(), c.series.front().x.back());
    EXPECT_EQ(c.series.back().values[1].si, kZeroCelsius + 200) << "the name says where it ends";
  }
  charts = lubricant_charts(*drive_, *nominal_);
  mark_temperature_range(*drive_, kZeroCelsius + 190, kZeroCelsius + 200, charts);
  for (const Chart& c : charts) EXPECT_FALSE(c.series.back().band);
}

TEST_F(Charts, RenewalHalvesEveryTenKelvins) {
  const Chart& renewal = chart(finding(*evidence_, "lubrication").charts, "renewal_over_temperature");
  const Series& rule = renewal.series.front();
  const double cool = at(rule, kZeroCelsius + 70);
  EXPECT_EQ(cool, renewal_when_cool(drive_->oil));
  EXPECT_EQ(at(rule, kZeroCelsius + 50), cool);
  EXPECT_NEAR(at(rule, kZeroCelsius + 80), cool / 2, 1e-9 * cool);
  EXPECT_NEAR(at(rule, kZeroCelsius + 90), cool / 4, 1e-9 * cool);
  for (const WorkingStep& step : finding(*evidence_, "lubrication").working)
    if (step.symbol == "t_change") {
      EXPECT_EQ(series(renewal, "running").y[0], step.value);
    }
}

drive::Drive started(enquiry::Starting way) {
  enquiry::Requirement requirement = full_requirement();
  requirement.starting = way;
  return drive_of(requirement, "ring-224", 31);
}
std::vector<Chart> motor_charts_of(const drive::Drive& drive) {
  return finding(prove(drive, {.samples = 0}), "motor").charts;
}

TEST_F(Charts, MotorPassesThroughItsPoints) {
  const Chart& torque = chart(finding(*evidence_, "motor").charts, "motor_torque");
  const drive::Motor& motor = *drive_->motor;
  const auto curve = drive::motor_curve_of(*drive_, {});
  ASSERT_TRUE(curve.ok());
  const double today = drive::Coefficients{}.motor_torque_factor;
  for (const auto& [name, factor] : {std::pair{"motor of today", today}, {"least of its standard", 1.0}}) {
    const Series& s = series(torque, name);
    EXPECT_NEAR(at(s, 0.0), factor * motor.locked_rotor * motor.rated_torque, 1e-9 * motor.rated_torque) << name;
    EXPECT_NEAR(at(s, motor.rated_speed), motor.rated_torque, 1e-9 * motor.rated_torque) << name;
    EXPECT_NEAR(most(s), factor * motor.breakdown * motor.rated_torque, 1e-9 * motor.rated_torque) << name;
    EXPECT_NEAR(s.y.back(), 0, 1e-9 * motor.rated_torque) << name;
  }
  EXPECT_NEAR(at(series(torque, "motor of today"), curve->breakdown_speed()),
              today * motor.breakdown * motor.rated_torque, 1e-9 * motor.rated_torque);
  EXPECT_NEAR(at(series(torque, "motor of today"), curve->pull_up_speed()), today * motor.pull_up * motor.rated_torque,
              1e-9 * motor.rated_torque);
}

TEST_F(Charts, TheMachineAtTheMotorShaftIsItsPower) {
  const Finding& motor = finding(*evidence_, "motor");
  const Chart& torque = chart(motor.charts, "motor_torque");
  const Series& full = series(torque, "full load");
  EXPECT_NEAR(full.x[0] * full.y[0], motor.checks[0].figure, 1e-9 * motor.checks[0].figure);
  EXPECT_EQ(series(torque, "machine at full load").y[0], full.y[0]);
  // What is asked for at rest is what breaks machine and reducer away, with the usual spare.
  const drive::Rest rest =
      drive::at_rest(*drive_, drive_->requirement.demand.starting_torque.value, drive::kNormalTemperature, {});
  EXPECT_NEAR(series(torque, "asked for at rest").y[0], drive::kSpareStartTorque * rest.torque, 1e-9 * rest.torque);
}

TEST_F(Charts, AColdStartMeetsItsCheckOnTheColdestDay) {
  const Finding& motor = finding(*evidence_, "motor");
  const Chart& cold = chart(motor.charts, "cold_start");
  const Series &asked = series(cold, "machine and oil ask"), &given = series(cold, "the motor gives there");
  const Series& day = series(cold, "coldest day");
  EXPECT_NEAR(at(asked, day.x[0]), day.y[0], 1e-9 * day.y[0]);
  EXPECT_NEAR(at(given, day.x[0]) / day.y[0], motor.checks[2].figure, 1e-9);
  EXPECT_TRUE(std::is_sorted(asked.y.rbegin(), asked.y.rend()));  // colder asks more
}

TEST_F(Charts, TheStartReachesItsSpeedWhereItIsMarked) {
  const Finding& motor = finding(*evidence_, "motor");
  const Chart& start = chart(motor.charts, "run_up");
  const Series &curve = series(start, "motor, seen"), &mark = series(start, "at its speed");
  EXPECT_NEAR(mark.y[0], motion::kStartedShare * drive_->motor->rated_speed / drive_->build.ratio(), 1e-9);
  const std::size_t after =
      static_cast<std::size_t>(std::lower_bound(curve.x.begin(), curve.x.end(), mark.x[0]) - curve.x.begin());
  ASSERT_GT(after, 0U);
  ASSERT_LT(after, curve.x.size());
  EXPECT_GE(curve.y[after], mark.y[0]);
  EXPECT_LE(curve.y[after - 1], mark.y[0]);
}

TEST(MotorChart, StarGivesAThirdUpToTheChange) {
  const drive::Drive drive = started(enquiry::Starting::star_delta);
  const Chart torque = chart(motor_charts_of(drive), "motor_torque");
  const Series &delta = series(torque, "motor of today in delta"), &star = series(torque, "in star");
  EXPECT_NEAR(star.y.front(), delta.y.front() / 3, 1e-9 * delta.y.front());
  EXPECT_NEAR(star.x.back(), motion::kStarDeltaSwitch.nominal * drive.motor->synchronous_speed, 1e-9 * star.x.back());
}

TEST(MotorChart, AVoltageRampBeginsLowAndEndsFull) {
  const drive::Drive drive = started(enquiry::Starting::soft_starter);
  const Chart torque = chart(motor_charts_of(drive), "motor_torque");
  const Series &full = series(torque, "motor of today at full voltage"), &low = series(torque, "where the ramp begins");
  const double voltage = drive::starting_method(enquiry::Starting::soft_starter).initial_voltage;
  EXPECT_NEAR(low.y.front(), voltage * voltage * full.y.front(), 1e-9 * full.y.front());
  const Series& path = series(torque, "as the start goes");
  EXPECT_NEAR(path.y.front(), low.y.front(), 1e-9 * low.y.front());
  EXPECT_LE(most(path), most(full) * (1 + 1e-9));
}

TEST(MotorChart, AnInverterHoldsTheTorqueBelowItsLimit) {
  const drive::Drive drive = started(enquiry::Starting::inverter);
  const Chart torque = chart(motor_charts_of(drive), "motor_torque");
  const double limit = motion::kInverterTorqueLimit.nominal * drive.motor->rated_torque;
  EXPECT_NEAR(most(series(torque, "on the inverter")), limit, 1e-9 * limit);
  EXPECT_LE(most(series(torque, "as the start goes")), limit * (1 + 1e-9));
  EXPECT_THROW(series(torque, "least of its standard"), std::runtime_error) << "no start at full voltage there";
}

TEST(MotorChart, WithoutAMotorTheFindingSaysWhy) {
  enquiry::Requirement requirement = full_requirement();
  requirement.motor_power = 9e6;
  const drive::Drive drive = drive_of(requirement, "ring-224", 31);
  ASSERT_FALSE(drive.motor.has_value());
  const Evidence evidence = prove(drive, {.samples = 0});
  for (const Finding& f : evidence.findings)
    if (f.charts.empty() && f.id != "place") {  // words, which hang on no motor
      EXPECT_EQ(f.verdict, Verdict::cannot_be_judged) << f.id;
      EXPECT_FALSE(f.missing.empty()) << f.id;
    }
  EXPECT_TRUE(finding(evidence, "motor").charts.empty());
  EXPECT_EQ(finding(evidence, "ratio").charts.size(), 1U);
}

TEST(SpeedChart, TwoStagesAreNamedByBoth) {
  const auto build = drive::find_build(range::demo_range(), {"ring-530", 17, "", 9});
  ASSERT_TRUE(build.ok());
  const auto drive = drive::assemble(stated(9000, 12 * kRpm), *build, rigid_table);
  ASSERT_TRUE(drive.ok());
  const Chart speeds = speed_charts(*drive, evaluate(*drive, {})).front();
  std::size_t bars = 0;
  for (const Series& s : speeds.series) {
    if (s.dashed) continue;
    ++bars;
    EXPECT_NE(s.name.find(" × "), std::string::npos) << s.name;
  }
  EXPECT_GT(bars, 1U);
  EXPECT_LE(bars, 9U);
}

}  // namespace
}  // namespace lobewise::evidence
