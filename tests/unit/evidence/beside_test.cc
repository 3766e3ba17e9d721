// fit and cost: what they say when nothing is known, and when much is; cases that the geared unit wins.
#include <gtest/gtest.h>

#include <algorithm>
#include <tuple>

#include "engine/base/constants.h"
#include "engine/evidence/case_of.h"
#include "engine/incumbent/unit_estimates.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;
constexpr double kHour = 3600;
constexpr double kKilowattHour = 3.6e6;

Span exactly(double value) { return {value, value, value}; }

/// An invented worm unit in the glass-recycling plant.
enquiry::Incumbent worm() {
  enquiry::Incumbent in;
  in.kind = incumbent::UnitKind::worm;
  in.ratio = 30;
  in.motor_power = 11e3;
  in.running_time = 30000 * kHour;
  return in;
}

enquiry::Economics money() {
  enquiry::Economics m;
  m.years = 10;
  m.discount_rate = exactly(0.08);
  m.energy_price = Span{0.14 / kKilowattHour, 0.18 / kKilowattHour, 0.24 / kKilowattHour};
  m.stop_cost = exactly(300);
  m.stops_per_year = Span{0.5, 1, 2};
  m.repair_time = exactly(8 * kHour);
  m.repair_cost = exactly(500);
  m.candidate_spare = true;
  return m;
}

drive::Drive with(const std::optional<enquiry::Incumbent>& incumbent,
                  const std::optional<enquiry::Economics>& economics) {
  enquiry::Requirement requirement = stated(1200, 47 * kRpm);
  requirement.incumbent = incumbent;
  requirement.economics = economics;
  return drive_of(requirement, "ring-265", 31);
}

CaseStudy studied(const drive::Drive& drive, Against against = Against::present) {
  const Evaluation e = evaluate(drive, {});
  const auto unit = unit_beside(*drive.requirement.incumbent, duty_of(drive, e));
  EXPECT_TRUE(unit.ok());
  const std::optional<CaseOf> setup = case_of(drive, *unit, candidate_losses(drive, e, 20), against);
  EXPECT_TRUE(setup.has_value());
  const Result<CaseStudy> out = study(*setup, against, 200);
  EXPECT_TRUE(out.ok());
  return *out;
}

TEST(Beside, NothingKnownNothingJudged) {
  const Evidence evidence = prove(with({}, {}), {0});
  for (const char* id : {"fit", "cost"}) {
    const Finding& f = finding(evidence, id);
    EXPECT_EQ(f.verdict, Verdict::cannot_be_judged) << id;
    EXPECT_FALSE(f.missing.empty()) << id;
    EXPECT_FALSE(f.answer.empty()) << id;
    EXPECT_TRUE(f.checks.empty()) << id;
  }
}

TEST(Beside, TheKindAloneIsNotEnoughForMoney) {
  const Finding cost = finding(prove(with(worm(), {}), {0}), "cost");
  EXPECT_EQ(cost.verdict, Verdict::cannot_be_judged);
  enquiry::Economics without_price = money();
  without_price.energy_price.reset();
  const Finding again = finding(prove(with(worm(), without_price), {0}), "cost");
  ASSERT_EQ(again.missing.size(), 1U);
  EXPECT_EQ(again.missing[0], "the price of electric energy");
}

TEST(Beside, AnotherCurrencyNeedsAQuote) {
  enquiry::Economics foreign = money();
  foreign.currency = "XYZ";
  EXPECT_EQ(missing_for_case(with(worm(), foreign)).size(), 1U);
  foreign.candidate_price = exactly(1500);
  EXPECT_TRUE(missing_for_case(with(worm(), foreign)).empty());
}

TEST(Beside, ThePlantsCountDecides) {
  const drive::Drive drive = with(worm(), money());
  const Finding cost = finding(prove(drive, {0}), "cost");
  ASSERT_GE(cost.checks.size(), 2U);
  const Check& total = cost.checks[0];
  const CaseStudy s = studied(drive);
  EXPECT_NEAR(total.limit - total.figure, s.result.net_present_value, 1e-6 * total.limit);
  EXPECT_LE(*total.low, total.figure);
  EXPECT_GE(*total.high, total.figure);
  EXPECT_EQ(cost.charts.size(), 3U);
  EXPECT_NEAR(s.result.keep.stoppages, 10, 1e-9);
  ASSERT_FALSE(cost.cautions.empty());
  EXPECT_NE(cost.cautions[0].text.find("estimate"), std::string::npos);
}

TEST(Beside, AStoppageThatCostsNothingAddsNothing) {
  enquiry::Economics free = money();
  free.stop_cost = exactly(0);
  free.repair_cost = exactly(0);
  const CaseStudy many = studied(with(worm(), free));
  free.stops_per_year = exactly(0);
  const CaseStudy none = studied(with(worm(), free));
  EXPECT_DOUBLE_EQ(many.result.net_present_value, none.result.net_present_value);
  EXPECT_EQ(many.result.keep.present.standstill, 0);
}

TEST(Beside, NothingSaidOfStoppagesBothStopAlike) {
  enquiry::Economics m = money();
  // A standstill or a repair that is said is that of the present unit.
  m.stops_per_year.reset();
  m.repair_time.reset();
  m.repair_cost.reset();
  enquiry::Incumbent fresh = worm();
  fresh.running_time = 0;
  const CaseStudy s = studied(with(fresh, m));
  EXPECT_NEAR(s.result.keep.stoppages, s.result.candidate.stoppages, 1e-9);
  EXPECT_NEAR(s.result.keep.present.standstill, s.result.candidate.present.standstill, 1e-6);
}

// Of both shares the model's own stays: idle to load, teeth to bearings; only their sum is the plate's. By hand: what
// does not depend on load and what does add up to P_2 (1/eta - 1).
TEST(Beside, AStatedEfficiencyKeepsHowTheLossesAreShared) {
  const incumbent::UnitDuty duty = duty_of(with(worm(), {}).requirement);
  for (const incumbent::UnitKind kind : {incumbent::UnitKind::worm, incumbent::UnitKind::bevel_helical}) {
    enquiry::Incumbent in = worm();
    in.kind = kind;
    const incumbent::GearUnit model = unit_beside(in, duty).value();
    in.efficiency = 0.8;
    const incumbent::GearUnit unit = unit_beside(in, duty).value();
    const double loss = unit.output_power * 0.25;  // 1/0.8 - 1
    EXPECT_NEAR(incumbent::loss_power_at(unit, 1), loss, 1e-9 * loss);
    EXPECT_NEAR(incumbent::loss_power_at(unit, 0) / loss,
                incumbent::loss_power_at(model, 0) / incumbent::loss_power_at(model, 1), 1e-9);
    EXPECT_NEAR(unit.losses.teeth.nominal / unit.losses.bearings.nominal,
                model.losses.teeth.nominal / model.losses.bearings.nominal, 1e-9);
    // The shares alone give the efficiency back.
    incumbent::GearUnit again = unit;
    incumbent::total_losses(again, duty);
    EXPECT_NEAR(again.efficiency.nominal, 0.8, 1e-12);
    EXPECT_NEAR(again.efficiency.low, again.efficiency.high, 1e-12);
  }
}

// The present unit meets what the candidate meets: the same blocks, rests, place and hours; a motor's speed that nobody
// said is that of its poles.
TEST(Beside, ThePresentUnitIsOnTheSameDuty) {
  enquiry::Requirement r = stated(1200, 47 * kRpm);
  r.duty = {{0.4, 1200, 47 * kRpm}, {0.6, 500, 30 * kRpm}};
  r.intermittent = {300, 700};
  r.ambient_high = 313;
  r.air_speed = 0.7;
  r.altitude = 900;
  r.sun = true;
  r.service_factor = 1.6;
  const incumbent::UnitDuty duty = duty_of(r);
  EXPECT_EQ(duty.output_torque, 1200);
  EXPECT_EQ(duty.output_speed, 47 * kRpm);
  EXPECT_NEAR(duty.running_share, 0.3, 1e-12);
  EXPECT_EQ(duty.ambient, 313);
  EXPECT_EQ(duty.around.air_speed, 0.7);
  EXPECT_EQ(duty.around.altitude, 900);
  EXPECT_TRUE(duty.around.sun);
  EXPECT_EQ(duty.service_factor, 1.6);
  EXPECT_EQ(duty.service_time, r.life);
  ASSERT_EQ(duty.parts.size(), 2U);
  EXPECT_EQ(duty.parts[1].time_share, 0.6);
  EXPECT_EQ(duty.parts[1].torque, 500);
  EXPECT_EQ(duty.parts[1].speed, 30 * kRpm);
  // Four poles turn a little below 1500 1/min at 50 Hz, six below 1000, four at 60 Hz below 1800.
  const auto speed = [&](double frequency, int poles) {
    r.frequency = frequency;
    r.poles = poles;
    return duty_of(r).input_speed / kRpm;
  };
  for (const auto& [frequency, poles, synchronous] :
       {std::tuple{50.0, 4, 1500.0}, {50.0, 6, 1000.0}, {60.0, 4, 1800.0}}) {
    EXPECT_LT(speed(frequency, poles), synchronous);
    EXPECT_GT(speed(frequency, poles), 0.93 * synchronous);
  }
  // It may stand half of the time: the oil of a unit that rests is cooler.
  enquiry::Incumbent in = worm();
  r.duty = {{1, 1200, 47 * kRpm}};
  const double warm = unit_beside(in, duty_of(r)).value().oil_temperature.nominal;
  r.intermittent = {100, 900};
  EXPECT_LT(unit_beside(in, duty_of(r)).value().oil_temperature.nominal, warm);
}

// Parts wear in the hours they run: ten years at half of the hours of a year are five years of running. An hour meter
// rules over an age.
TEST(Beside, AnAgeInYearsIsCountedInRunningTime) {
  enquiry::Economics m = money();
  m.stops_per_year.reset();
  m.repair_time.reset();
  enquiry::Incumbent aged = worm();
  aged.running_time.reset();
  aged.age = 10 * cost::kYear;
  drive::Drive drive = with(aged, m);
  drive.requirement.running_per_year = 0.5 * cost::kYear;
  const CaseStudy old = studied(drive);
  EXPECT_NEAR(old.setup.input.keep.stoppages.age, 5 * cost::kYear, 1e-6 * cost::kYear);
  drive.requirement.incumbent->age = 0;
  EXPECT_GT(old.result.keep.stoppages, studied(drive).result.keep.stoppages);
  drive.requirement.incumbent->age = 10 * cost::kYear;
  drive.requirement.incumbent->running_time = 30000 * kHour;
  EXPECT_EQ(studied(drive).setup.input.keep.stoppages.age, 30000 * kHour);
}

TEST(Beside, ANewUnitOfTheKindIsTreatedLikeTheCandidate) {
  enquiry::Economics m = money();
  const drive::Drive unquoted = with(worm(), m);
  const auto unit = unit_beside(*unquoted.requirement.incumbent, duty_of(unquoted, evaluate(unquoted, {}))).value();
  EXPECT_FALSE(case_of(unquoted, unit, {cost::stated(0), cost::stated(0)}, Against::replacement).has_value());
  m.replacement_price = exactly(900);
  m.must_be_replaced = true;
  const drive::Drive drive = with(worm(), m);
  EXPECT_EQ(deciding(drive.requirement), Against::replacement);
  const CaseStudy s = studied(drive, Against::replacement);
  EXPECT_EQ(s.setup.input.keep.stoppages.age, 0);
  EXPECT_FALSE(s.setup.input.keep.stoppages.stated.has_value());
  EXPECT_NEAR(s.result.keep.stoppages, s.result.candidate.stoppages, 1e-9);
  // Purchase, installation and a spare on both sides.
  EXPECT_NEAR(s.result.keep.present.purchase, 2 * 900 + s.setup.input.candidate.installation.nominal, 1e-9);
}

TEST(Beside, AHelicalUnitThatRunsWellIsNotWorthReplacing) {
  enquiry::Incumbent helical = worm();
  helical.kind = incumbent::UnitKind::parallel_shaft;
  enquiry::Economics m = money();
  m.stops_per_year = exactly(0);
  const drive::Drive drive = with(helical, m);
  const Finding cost = finding(prove(drive, {0}), "cost");
  EXPECT_EQ(cost.verdict, Verdict::does_not_hold);
  EXPECT_NE(cost.answer.pattern.find("does not pay"), std::string::npos);
  const Evaluation e = evaluate(drive, {});
  const auto unit = unit_beside(*drive.requirement.incumbent, duty_of(drive, e)).value();
  const auto axes = incumbent::compare(unit, {}, candidate_figures(drive, e, 20));
  const auto efficiency =
      std::find_if(axes.begin(), axes.end(), [](const incumbent::Axis& a) { return a.id == "efficiency"; });
  EXPECT_NE(efficiency->better, incumbent::Better::candidate);
}

TEST(Beside, AStatedEfficiencyRules) {
  enquiry::Incumbent in = worm();
  in.efficiency = 0.7;
  in.oil_temperature = kZeroCelsius + 88;
  const drive::Drive drive = with(in, money());
  const incumbent::UnitDuty duty = duty_of(drive, evaluate(drive, {}));
  const incumbent::GearUnit unit = unit_beside(*drive.requirement.incumbent, duty).value();
  EXPECT_NEAR(incumbent::efficiency_at(unit, 1), 0.7, 1e-12);
  EXPECT_GT(incumbent::loss_power_at(unit, 0), 0);
  EXPECT_EQ(unit.oil_temperature.low, kZeroCelsius + 88);
  // Electric energy by hand: full load all the time, motor of 11 kW.
  const CaseStudy s = studied(drive);
  const cost::Option& keep = s.setup.input.keep;
  const double shaft = 1200 * 47 * kRpm / 0.7;
  const double eta = keep.motor.rated_efficiency.nominal;
  const double load = shaft / 11e3;
  const double electric = shaft + 11e3 * (1 / eta - 1) * (0.35 + 0.65 * load * load);
  EXPECT_NEAR(s.result.keep.energy, electric * drive.requirement.running_per_year, 1e-6 * s.result.keep.energy);
}

TEST(Beside, CandidateFiguresLieInTheirRanges) {
  const drive::Drive drive = with(worm(), money());
  const incumbent::CandidateFigures c = candidate_figures(drive, evaluate(drive, {}), 40);
  for (const auto& f : {c.contact_stress, c.peak_contact, c.efficiency, c.oil_temperature, c.loss, c.life, c.price}) {
    ASSERT_TRUE(f.has_value());
    EXPECT_LE(f->low, f->nominal);
    EXPECT_GE(f->high, f->nominal);
  }
  EXPECT_GT(c.peak_ratio->nominal, 1);
  EXPECT_GT(c.pairs->nominal, 2);
  const double power = 1200 * drive.output_speed;
  EXPECT_NEAR(c.loss->nominal, power * (1 / c.efficiency->nominal - 1), 1e-9 * c.loss->nominal);
}

TEST(Beside, TheSameDimensionsFit) {
  enquiry::Incumbent in = worm();
  in.dimensions = incumbent::Dimensions{};
  in.dimensions = fit_beside(with(in, {})).after;
  const Finding fit = finding(prove(with(in, {}), {0}), "fit");
  // The motor is estimated: at its upper end it is longer and heavier than what stands there.
  EXPECT_EQ(fit.verdict, Verdict::holds_if);
  in.dimensions->length = *in.dimensions->length * 1.5;
  in.dimensions->mass = *in.dimensions->mass * 1.5;
  const Finding roomy = finding(prove(with(in, {}), {0}), "fit");
  EXPECT_EQ(roomy.verdict, Verdict::holds);
  EXPECT_TRUE(roomy.missing.empty());
  ASSERT_EQ(roomy.charts.size(), 1U);
}

TEST(Beside, AHigherShaftDoesNotFitUnlessAChainFollows) {
  enquiry::Incumbent in = worm();
  in.dimensions = incumbent::Dimensions{};
  in.dimensions->shaft_height = 0.150;
  drive::Drive drive = with(in, {});
  EXPECT_EQ(finding(prove(drive, {0}), "fit").verdict, Verdict::does_not_hold);
  drive.requirement.by_chain_or_belt = true;
  const Finding fit = finding(prove(drive, {0}), "fit");
  EXPECT_EQ(fit.verdict, Verdict::holds_if);
  EXPECT_FALSE(fit.condition.empty());
  EXPECT_FALSE(fit.missing.empty());
}

TEST(Beside, FitAndCostRuleNoBuildOut) {
  enquiry::Incumbent in = worm();
  in.dimensions = incumbent::Dimensions{};
  in.dimensions->shaft_height = 0.150;
  for (const QuickFinding& quick : quick_look(with(in, money()))) {
    EXPECT_STRNE(quick.question->id, "fit");
    EXPECT_STRNE(quick.question->id, "cost");
  }
}

}  // namespace
}  // namespace lobewise::evidence
