// The case on an invented drive: sums, what is stated, sentences, the same answer for the same seed.
#include "engine/case/business_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/base/formula/record.h"
#include "engine/case/parameters.h"

namespace lobewise::cost {
namespace {

constexpr double kHour = 3600;

/// An invented conveyor drive of 11 kW in a glass-recycling plant.
CaseInput example() {
  CaseInput in;
  Option& keep = in.keep;
  keep.name = "present worm unit";
  keep.losses = {range(150, 250, 400, "test"), range(0.12, 0.16, 0.22, "test")};
  keep.motor = {11e3, stated(0.898), usual_fixed_loss_share()};
  keep.lubricant_cost = stated(60);
  keep.upkeep_time = stated(8 * kHour);
  keep.stoppages.stated = StatedStoppages{range(0.5, 1, 2, "test"), range(4 * kHour, 8 * kHour, 16 * kHour, "test"),
                                          range(500, 1200, 2500, "test")};
  Option& candidate = in.candidate;
  candidate.name = "candidate";
  candidate.price = stated(4800);
  candidate.installation = range(800, 1200, 2000, "test");
  candidate.adapters = range(300, 600, 1000, "test");
  candidate.losses = {range(100, 150, 250, "test"), range(0.04, 0.07, 0.12, "test")};
  candidate.motor = keep.motor;
  candidate.lubricant_cost = stated(40);
  candidate.upkeep_time = stated(4 * kHour);
  candidate.stoppages.modes = usual_modes(4800, false);
  candidate.stoppages.spare_wait = range(5 * 86400.0, 14 * 86400.0, 42 * 86400.0, "test");
  candidate.stoppages.spare_on_shelf = true;
  in.years = 10;
  in.discount_rate = range(0.05, 0.08, 0.12, "test");
  in.running_time = range(4500 * kHour, 5000 * kHour, 5500 * kHour, "test");
  in.duty = {{0.6, 7e3}, {0.4, 4e3}};
  in.energy_price = range(0.14 / 3.6e6, 0.18 / 3.6e6, 0.24 / 3.6e6, "test");
  in.grid_carbon = *grid_carbon("DEU");
  in.stop_cost = range(100, 300, 900, "test");
  in.labour_rate = stated(55);
  return in;
}

TEST(Case, PresentValueIsTheDifferenceOfBothCosts) {
  const CaseResult r = evaluate(example()).value();
  EXPECT_NEAR(r.net_present_value, r.keep.present.total() - r.candidate.present.total(), 1e-9 * r.keep.present.total());
  EXPECT_EQ(r.savings.size(), 11U);
  EXPECT_NEAR(r.savings[0], -(4800 + 1200 + 600), 1e-9);
  EXPECT_NEAR(net_present_value(*r.return_rate.rate, r.savings), 0, 1e-6);
  EXPECT_GT(*r.discounted_payback, *r.payback);
}

TEST(Case, EnergyByHand) {
  const CaseInput in = example();
  // 7 kW at the output: shaft 7000 * 1.16 + 250 = 8370 W, load 0.76091, rated loss 11e3 (1/0.898 - 1) = 1249.443 W,
  // motor loss 1249.443 (0.35 + 0.65 * 0.76091^2) = 907.528 W.
  EXPECT_NEAR(electric_power(in.keep.losses, in.keep.motor, 7e3), 8370 + 907.528, 0.01);
  const double low = electric_power(in.keep.losses, in.keep.motor, 4e3);
  EXPECT_NEAR(evaluate(in).value().keep.energy, (0.6 * 9277.528 + 0.4 * low) * 5000 * kHour, 1e6);
}

// Three years at 10 % by hand: 1/1.1 + 1/1.21 + 1/1.331 = 2.48685199; what grows or falls a year does so from the
// second on.
TEST(Case, EveryPartOfThreeYearsByHand) {
  CaseInput in = example();
  in.years = 3;
  in.discount_rate = stated(0.1);
  in.energy_price = stated(5e-8);
  in.energy_price_growth = stated(0.05);
  in.grid_carbon = stated(1e-7);
  in.grid_decline = stated(0.04);
  in.carbon_price = stated(0.1);
  in.keep.price = stated(3000);
  in.keep.motor_price = stated(500);
  in.keep.installation = stated(70);
  in.keep.adapters = stated(9);
  in.keep.spare_price = stated(2000);
  in.keep.disposal = stated(-133.1);
  const CaseResult all = evaluate(in).value();
  const OptionResult& keep = all.keep;
  constexpr double kSum = 2.4868519909842;
  EXPECT_NEAR(keep.present.purchase, 5579, 1e-9);
  EXPECT_NEAR(keep.present.energy, keep.energy * 5e-8 * (1 / 1.1 + 1.05 / 1.21 + 1.1025 / 1.331), 1e-6);
  EXPECT_NEAR(keep.carbon, keep.energy * 1e-7 * (1 + 0.96 + 0.9216), 1e-6);
  EXPECT_NEAR(keep.present.carbon, keep.energy * 1e-7 * 0.1 * (1 / 1.1 + 0.96 / 1.21 + 0.9216 / 1.331), 1e-6);
  EXPECT_NEAR(keep.present.upkeep, (60 + 8 * 55) * kSum, 1e-6);
  EXPECT_NEAR(keep.present.repairs, 1200 * kSum, 1e-6);
  EXPECT_NEAR(keep.present.standstill, 8 * 300 * kSum, 1e-6);
  EXPECT_NEAR(keep.present.disposal, -100, 1e-9);
  ASSERT_EQ(keep.flows.size(), 4U);
  EXPECT_NEAR(keep.flows[0], 5579, 1e-9);
  EXPECT_NEAR(keep.flows[2], keep.energy * (5e-8 * 1.05 + 1e-7 * 0.1 * 0.96) + 500 + 1200 + 2400, 1e-6);
  EXPECT_NEAR(keep.flows[3] - keep.flows[2], keep.energy * (5e-8 * 1.05 * 0.05 - 1e-7 * 0.1 * 0.96 * 0.04) - 133.1,
              1e-6);
}

// The new unit costs more than a like one in about two draws of three; in the others nothing is put in and there is no
// rate of return. Those stand below all that have one, and are told by an end that is missing.
TEST(Case, DrawsWithoutAReturnStandBelowTheOthers) {
  CaseInput in = example();
  in.keep.price = stated(6550);
  const Simulation s = simulate(in, 400, 3).value();
  EXPECT_FALSE(s.return_rate.low.has_value());
  ASSERT_TRUE(s.return_rate.median && s.return_rate.high);
  EXPECT_LT(*s.return_rate.median, *s.return_rate.high);
}

TEST(Case, WhatTheCustomerStatesReplacesTheModel) {
  CaseInput in = example();
  in.keep.stoppages.modes = usual_modes(3000, true);  // ignored beside a stated count
  const CaseResult r = evaluate(in).value();
  EXPECT_NEAR(r.keep.stoppages, 10, 1e-12);
  EXPECT_NEAR(r.keep.lost_time, 10 * 8 * kHour, 1e-6);
}

TEST(Case, AnAgedWearingPartFailsSooner) {
  CaseInput in = example();
  in.keep.stoppages.stated.reset();
  in.keep.stoppages.modes = {{"gears", stated(2), stated(75000 * kHour), stated(16 * kHour), stated(2000)}};
  const double fresh = evaluate(in).value().keep.stoppages;
  in.keep.stoppages.age = 60000 * kHour;
  EXPECT_GT(evaluate(in).value().keep.stoppages, fresh);
}

TEST(Case, AMissingSpareCostsTheRunningHoursOfTheWait) {
  CaseInput in = example();
  const double with = evaluate(in).value().candidate.lost_time;
  in.candidate.stoppages.spare_on_shelf = false;
  const CaseResult r = evaluate(in).value();
  const double wait = 14 * 86400.0 * 5000 * kHour / kYear;
  EXPECT_NEAR(r.candidate.lost_time, with + r.candidate.stoppages * wait, 1e-6 * with);
}

TEST(Case, WhereNothingIsPutInThereIsNoReturn) {
  // The candidate is cheaper to buy and dearer to run: the balancing rate would be the price of borrowing.
  CaseInput in = example();
  in.keep.price = stated(9000);
  in.candidate.losses = {stated(900), stated(0.3)};
  in.keep.stoppages.stated = StatedStoppages{stated(0), stated(0), stated(0)};
  const CaseResult r = evaluate(in).value();
  ASSERT_GT(r.savings.front(), 0);
  ASSERT_LT(r.savings.back(), 0);
  EXPECT_FALSE(r.return_rate.rate.has_value());
  EXPECT_FALSE(simulate(in, 50, 1).value().return_rate.high.has_value());
}

TEST(Case, BandsOfTheYearsEndAtThePresentValue) {
  const Simulation s = simulate(example(), 300, 5).value();
  ASSERT_EQ(s.present_by_year.size(), 11U);
  EXPECT_NEAR(s.present_by_year.back().low, s.npv_low, 1e-6 * std::abs(s.npv_low) + 1e-6);
  EXPECT_NEAR(s.present_by_year.back().high, s.npv_high, 1e-6 * std::abs(s.npv_high));
  ASSERT_TRUE(s.payback.low && s.payback.median);
  EXPECT_LE(*s.payback.low, *s.payback.median);
  ASSERT_TRUE(s.return_rate.median.has_value());
}

TEST(Case, SameSeedSameAnswer) {
  const Simulation a = simulate(example(), 500, 7).value();
  const Simulation b = simulate(example(), 500, 7).value();
  EXPECT_EQ(a.npv_quantiles, b.npv_quantiles);
  EXPECT_NE(a.npv_quantiles, simulate(example(), 500, 8).value().npv_quantiles);
  EXPECT_LT(a.npv_low, a.npv_median);
  EXPECT_LT(a.npv_median, a.npv_high);
}

TEST(Case, NothingUncertainNothingSpread) {
  CaseInput in = example();
  for (const Parameter& p : parameters(in)) {
    for (Range* r : p.ranges) {
      *r = stated(r->nominal);
    }
  }
  const Simulation s = simulate(in, 20, 1).value();
  const double nominal = evaluate(in).value().net_present_value;
  EXPECT_DOUBLE_EQ(s.npv_low, nominal);
  EXPECT_DOUBLE_EQ(s.npv_high, nominal);
  EXPECT_TRUE(sensitivities(in).value().empty());
}

TEST(Case, WhatMattersMostComesFirst) {
  const std::vector<Sensitivity> s = sensitivities(example()).value();
  ASSERT_GT(s.size(), 5U);
  for (std::size_t i = 1; i < s.size(); ++i) {
    EXPECT_GE(s[i - 1].swing(), s[i].swing());
  }
}

TEST(Case, BreakEvenTurnsTheCase) {
  const CaseInput in = example();
  const std::vector<BreakEven> turns = break_evens(in, "credits").value();
  for (const BreakEven& b : turns) {
    ASSERT_FALSE(b.sentence.empty()) << b.path;
    if (b.path != "stop_cost" || !b.value) {
      continue;
    }
    CaseInput moved = in;
    moved.stop_cost = stated(*b.value);
    EXPECT_NEAR(evaluate(moved).value().net_present_value, 0, 1e-3);
    EXPECT_TRUE(b.pays_above);
    EXPECT_EQ(b.sentence.pattern, "Pays only if an hour of standstill costs more than {} credits.");
    EXPECT_EQ(b.pays_now, evaluate(in).value().net_present_value > 0);
  }
}

TEST(Case, NoStoppageNoLossThenItDoesNotPay) {
  // A helical unit that runs well, with a better efficiency and its price long paid: the candidate must not look good.
  CaseInput in = example();
  in.keep.stoppages.stated = StatedStoppages{stated(0), stated(0), stated(0)};
  in.keep.losses = {stated(100), stated(0.03)};
  const CaseResult r = evaluate(in).value();
  EXPECT_LT(r.net_present_value, 0);
  EXPECT_FALSE(r.payback.has_value());
  EXPECT_FALSE(r.return_rate.rate.has_value());
  const std::vector<BreakEven> turns = break_evens(in, "credits").value();
  for (const BreakEven& b : turns) {
    if (b.path == "candidate.price") {
      EXPECT_FALSE(b.value.has_value());
      EXPECT_EQ(b.sentence.pattern, "It does not pay even as a gift: running it costs more.");
    }
  }
}

TEST(Case, ErrorsNameThePathAllAtOnce) {
  CaseInput in = example();
  in.discount_rate = range(0.1, 0.05, 0.2, "test");
  in.stop_cost = stated(-5);
  in.duty[0].time_share = 0.9;
  in.years = 0;
  const Result<CaseResult> r = evaluate(in);
  ASSERT_FALSE(r.ok());
  ASSERT_EQ(r.errors().size(), 4U);
  EXPECT_EQ(r.errors()[0].path, "discount_rate");
  EXPECT_EQ(r.errors()[1].path, "stop_cost");
}

TEST(Case, SharedRowsMoveTogether) {
  CaseInput in = example();
  in.keep.stoppages.stated.reset();
  in.keep.stoppages.modes = usual_modes(3000, false);
  int shared = 0;
  for (const Parameter& p : parameters(in)) {
    shared += p.ranges.size() == 2 ? 1 : 0;
  }
  // Shape, life, repair time of bearings, seals, teeth or lobes; efficiency and fixed share of the one motor.
  EXPECT_EQ(shared, 11);
}

TEST(Case, WithoutAHistoryBothStopAlike) {
  CaseInput in = example();
  in.keep.stoppages = in.candidate.stoppages;
  const CaseResult r = evaluate(in).value();
  EXPECT_DOUBLE_EQ(r.keep.stoppages, r.candidate.stoppages);
  EXPECT_DOUBLE_EQ(r.keep.present.standstill, r.candidate.present.standstill);
}

double step(const Working& working, const char* symbol) {
  const auto found = std::find_if(working.begin(), working.end(), [&](const auto& s) { return s.symbol == symbol; });
  if (found != working.end()) return found->value;
  ADD_FAILURE() << "no step " << symbol;
  return 0;
}

void expect_followed(const CaseInput& in) {
  const CaseResult r = evaluate(in).value();
  const Working w = case_working(in, r);
  for (const WorkingStep& s : w) EXPECT_EQ(formula::fault_of(s), "") << s.symbol;
  const auto option = [&](const OptionResult& result, const std::string& tag) {
    const auto same = [&](const std::string& symbol, double figure) {
      EXPECT_NEAR(step(w, (symbol + tag).c_str()), figure, 1e-9 * std::abs(figure)) << symbol << tag;
    };
    same("W_", result.energy);
    same("n_", result.stoppages);
    same("C_pu", result.present.purchase);
    same("C_en", result.present.energy);
    same("C_up", result.present.upkeep);
    same("C_re", result.present.repairs);
    same("C_st", result.present.standstill);
    same("C_di", result.present.disposal);
    same("C_", result.present.total());
  };
  option(r.keep, "k");
  option(r.candidate, "n");
  EXPECT_NEAR(step(w, "NPV"), r.net_present_value, 1e-9 * r.keep.present.total());
  if (r.payback && *r.payback > 0) {
    EXPECT_NEAR(step(w, "y_p"), *r.payback, 1e-12);
  }
  for (const WorkingStep& s : w) {
    if (s.kind == StepKind::solved) {
      EXPECT_LE(std::abs(s.tree->value), s.tolerance) << s.symbol;
    }
  }
}

// Each part of the money is the one that the case counts; the working is its own arithmetic on lists.
TEST(CaseWorking, GivesTheFiguresOfTheCase) {
  CaseInput in = example();
  expect_followed(in);
  in.carbon_price = stated(0.09);
  in.candidate.disposal = stated(-200);
  in.candidate.spare_price = stated(4000);
  in.candidate.stoppages.spare_on_shelf = false;
  in.keep.stoppages = in.candidate.stoppages;
  in.keep.stoppages.age = 40000 * kHour;
  expect_followed(in);
  in.keep.stoppages.modes.clear();
  in.years = 1;
  expect_followed(in);
}

// The closed forms beside the renewals hold what was counted between them, worn in or new, few or many lives long.
TEST(CaseWorking, RenewalsStandBetweenTheirBounds) {
  CaseInput in = example();
  in.keep.stoppages = in.candidate.stoppages;
  for (const double shape : {0.7, 1.0, 2.5})
    for (const double age : {0.0, 20000.0, 200000.0})
      for (const double scale : {3000.0, 40000.0, 400000.0}) {
        in.keep.stoppages.age = age * kHour;
        in.keep.stoppages.modes = {{"part", stated(shape), stated(scale * kHour), stated(0), stated(0)}};
        const Working w = case_working(in, evaluate(in).value());
        const double count = step(w, "M_1k");
        EXPECT_GE(count, step(w, "F_1k") * (1 - 1e-6)) << shape << ' ' << age << ' ' << scale;
        EXPECT_LE(count, step(w, "B_1k") * (1 + 1e-2)) << shape << ' ' << age << ' ' << scale;
      }
}

TEST(Data, TablesCarryTheirSource) {
  const auto carbon = grid_carbon("FRA");
  ASSERT_TRUE(carbon.has_value());
  EXPECT_NEAR(carbon->nominal * 3.6e9, 56.039, 0.0005);  // g/kWh, Our World in Data 2023
  EXPECT_NE(carbon->source.find("Our World in Data"), std::string::npos);
  EXPECT_FALSE(grid_carbon("Nowhere").has_value());
  const auto prices = energy_prices("USA");
  ASSERT_GE(prices.size(), 2U);
  EXPECT_FALSE(prices.front().currency.empty());
  const auto w = weibull_ranges("gear (set)");
  ASSERT_TRUE(w.has_value());
  EXPECT_NEAR(w->scale.nominal / kHour, 75000, 1e-9);
  EXPECT_NE(w->scale.source.find("from memory"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::cost
