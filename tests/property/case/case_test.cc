// Truths that hold for every case.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "engine/case/business_case.h"
#include "engine/case/weibull.h"

namespace lobewise::cost {
namespace {

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

constexpr double kHour = 3600;

CaseInput any_case() {
  CaseInput in;
  for (Option* o : {&in.keep, &in.candidate}) {
    o->name = o == &in.keep ? "keep" : "candidate";
    o->price = stated(within(0, 9000));
    o->losses = {stated(within(0, 400)), stated(within(0, 0.3))};
    o->motor = {15e3, stated(within(0.8, 0.95)), usual_fixed_loss_share()};
    o->stoppages.modes = {{"part", stated(within(0.7, 4)), stated(within(5e3, 2e5) * kHour),
                           stated(within(0, 40) * kHour), stated(within(0, 3000))}};
    o->stoppages.age = within(0, 5e4) * kHour;
    o->stoppages.spare_wait = stated(within(0, 1e6));
  }
  in.years = *rc::gen::inRange(1, 20);
  in.discount_rate = stated(within(0, 0.2));
  in.running_time = stated(within(100, 8700) * kHour);
  in.duty = {{1, within(0, 12e3)}};
  in.energy_price = stated(within(0, 0.5) / 3.6e6);
  in.stop_cost = stated(within(0, 2000));
  return in;
}

double npv(const CaseInput& in) { return evaluate(in).value().net_present_value; }

RC_GTEST_PROP(CaseProperty, AStoppageThatCostsNothingAddsNothing, ()) {
  CaseInput in = any_case();
  in.stop_cost = stated(0);
  for (Option* o : {&in.keep, &in.candidate}) {
    o->stoppages.modes[0].repair_cost = stated(0);
  }
  const double with = npv(in);
  in.keep.stoppages.modes.clear();
  in.candidate.stoppages.modes.clear();
  RC_ASSERT(npv(in) == with);
}

RC_GTEST_PROP(CaseProperty, DiscountingIsMonotone, ()) {
  // What is spent later weighs less the higher the rate.
  CaseInput in = any_case();
  const double low = evaluate(in).value().keep.present.total();
  in.discount_rate = stated(in.discount_rate.nominal + within(0, 0.2));
  RC_ASSERT(evaluate(in).value().keep.present.total() <= low * (1 + 1e-12));
}

RC_GTEST_PROP(CaseProperty, DearerCandidatePaysLess, ()) {
  CaseInput in = any_case();
  const double before = npv(in);
  const double more = within(0, 5000);
  in.candidate.price = stated(in.candidate.price.nominal + more);
  RC_ASSERT(std::abs(npv(in) - (before - more)) < 1e-6);
}

RC_GTEST_PROP(CaseProperty, SwappingTheOptionsTurnsTheSign, ()) {
  CaseInput in = any_case();
  const double before = npv(in);
  std::swap(in.keep, in.candidate);
  RC_ASSERT(std::abs(npv(in) + before) < 1e-6 * (1 + std::abs(before)));
}

RC_GTEST_PROP(CaseProperty, FailuresNeverDecreaseOverTime, ()) {
  const Weibull w = {within(0.6, 5), within(0.05, 30)};
  double last = 0;
  for (const double m : cumulative_failures(w, within(0, 20), 1, 15)) {
    RC_ASSERT(m >= last - 1e-9);
    last = m;
  }
}

RC_GTEST_PROP(CaseProperty, LongerLifeNeverMeansMoreFailures, ()) {
  const double shape = within(0.8, 4);
  const double scale = within(0.2, 20);
  const double less = cumulative_failures({shape, scale * within(1, 3)}, 0, 1, 10).back();
  const double more = cumulative_failures({shape, scale}, 0, 1, 10).back();
  RC_ASSERT(less <= more * 1.01);  // the grid of the count follows the mean life: 1 % between two grids
}

RC_GTEST_PROP(CaseProperty, QuantileIsMonotoneAndBounded, ()) {
  const double low = within(1, 10);
  const double nominal = low + within(0, 10);
  const double high = nominal + within(0.1, 50);
  for (const bool logarithmic : {false, true}) {
    const Range r = {low, nominal, high, logarithmic, "test"};
    double last = low * (1 - 1e-12);
    for (int i = 0; i <= 100; ++i) {
      const double x = quantile(r, i / 100.0);
      RC_ASSERT(x >= last * (1 - 1e-12));
      RC_ASSERT(x <= high * (1 + 1e-12));
      last = x;
    }
  }
}

}  // namespace
}  // namespace lobewise::cost
