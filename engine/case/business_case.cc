#include "engine/case/business_case.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/case/parameters.h"
#include "engine/case/yearly.h"

namespace lobewise::cost {
namespace {

struct YearCounts {
  double events = 0;
  double lost_time = 0;
  double repair_cost = 0;
};

/// Expected stoppages of each year of running.
std::vector<YearCounts> stoppages_by_year(const Stoppages& s, double running_time, int years) {
  std::vector<YearCounts> counts(static_cast<std::size_t>(years));
  if (s.stated) {
    const double events = s.stated->per_year.nominal;
    std::fill(counts.begin(), counts.end(),
              YearCounts{events, events * s.stated->repair_time.nominal, events * s.stated->repair_cost.nominal});
    return counts;
  }
  // While a part is awaited only the hours count in which the machine would have run.
  const double wait = s.spare_on_shelf ? 0 : awaited(s.spare_wait.nominal, running_time);
  for (const FailureMode& mode : s.modes) {
    const std::vector<double> failures = failures_by_year(mode, s.age, running_time, years);
    for (std::size_t year = 0; year < counts.size(); ++year) {
      const double events = failures[year];
      counts[year].events += events;
      counts[year].lost_time += events * (mode.repair_time.nominal + wait);
      counts[year].repair_cost += events * mode.repair_cost.nominal;
    }
  }
  return counts;
}

OptionResult evaluate_option(const CaseInput& in, const Option& o) {
  OptionResult r;
  const double rate = in.discount_rate.nominal;
  r.present.purchase =
      o.price.nominal + o.motor_price.nominal + o.installation.nominal + o.adapters.nominal + o.spare_price.nominal;
  r.flows.push_back(r.present.purchase);
  r.energy = mean_electric_power(o.losses, o.motor, in.duty) * in.running_time.nominal;
  const double upkeep = upkeep_cost(o.lubricant_cost.nominal, o.upkeep_time.nominal, in.labour_rate.nominal);
  const std::vector<YearCounts> stoppages = stoppages_by_year(o.stoppages, in.running_time.nominal, in.years);
  for (int year = 1; year <= in.years; ++year) {
    const double y = year, today = discount(rate, y);
    const double energy = energy_cost(r.energy, in.energy_price.nominal, in.energy_price_growth.nominal, y);
    const double co2 = carbon_mass(r.energy, in.grid_carbon.nominal, in.grid_decline.nominal, y);
    const double carbon = co2 * in.carbon_price.nominal;
    const YearCounts& stops = stoppages[static_cast<std::size_t>(year - 1)];
    const double standstill = standstill_cost(stops.lost_time, in.stop_cost.nominal);
    const double disposal = year == in.years ? o.disposal.nominal : 0;
    r.carbon += co2;
    r.stoppages += stops.events;
    r.lost_time += stops.lost_time;
    r.present.energy += energy * today;
    r.present.carbon += carbon * today;
    r.present.upkeep += upkeep * today;
    r.present.repairs += stops.repair_cost * today;
    r.present.standstill += standstill * today;
    r.present.disposal += disposal * today;
    r.flows.push_back(energy + carbon + upkeep + stops.repair_cost + standstill + disposal);
  }
  return r;
}

CaseResult evaluate_checked(const CaseInput& in) {
  CaseResult r;
  r.keep = evaluate_option(in, in.keep);
  r.candidate = evaluate_option(in, in.candidate);
  for (std::size_t i = 0; i < r.keep.flows.size(); ++i) {
    r.savings.push_back(r.keep.flows[i] - r.candidate.flows[i]);
  }
  r.net_present_value = net_present_value(in.discount_rate.nominal, r.savings);
  return r;
}

/// A rate that balances flows which begin with a gain is the price of borrowing, no return.
ReturnRate return_of(const std::vector<double>& savings) {
  return savings.front() < 0 ? internal_rate_of_return(savings) : ReturnRate{};
}

double npv(const CaseInput& in) { return evaluate_checked(in).net_present_value; }

Errors check(CaseInput in) {
  Errors errors;
  for (const Parameter& p : parameters(in)) {
    for (const Range* range : p.ranges) {
      const std::string text =
          std::to_string(range->low) + " … " + std::to_string(range->nominal) + " … " + std::to_string(range->high);
      if (!(range->low <= range->nominal && range->nominal <= range->high && std::isfinite(range->low) &&
            std::isfinite(range->high))) {
        errors.push_back(input_error(p.path, text, "Low, nominal and high must be numbers in this order."));
      } else if (range->low < p.least || (range->low == p.least && p.above_least) || range->high > p.most ||
                 (range->logarithmic && range->low <= 0)) {
        errors.push_back(input_error(p.path, text, p.allowed));
      }
    }
  }
  if (in.years < 1 || in.years > 40) {
    errors.push_back(input_error("years", std::to_string(in.years), "The horizon is 1 to 40 years."));
  }
  double share = 0;
  double most = 0;
  for (const Load& load : in.duty) {
    share += load.time_share;
    most = std::max(most, load.output_power);
    if (!(load.time_share >= 0 && load.output_power >= 0)) {
      errors.push_back(
          input_error("duty", std::to_string(load.time_share), "Shares of time and powers are not negative."));
    }
  }
  if (!in.duty.empty() && std::abs(share - 1) > 1e-6) {
    errors.push_back(input_error("duty", std::to_string(share), "The shares of running time add up to 1."));
  }
  for (const Option* o : {&in.keep, &in.candidate}) {
    const std::string name = o == &in.keep ? "keep" : "candidate";
    const std::string path = name + ".motor.rated_power";
    if (!(o->motor.rated_power > 0)) {
      errors.push_back(input_error(path, std::to_string(o->motor.rated_power), "The motor power must be positive."));
    } else if (most > 2 * o->motor.rated_power) {
      errors.push_back(input_error(path, std::to_string(o->motor.rated_power),
                                   "The duty asks for more than twice the motor's rating: one of the two is misread."));
    }
    if (!(o->stoppages.age >= 0)) {
      errors.push_back(
          input_error(name + ".stoppages.age", std::to_string(o->stoppages.age), "The age is not negative."));
    }
  }
  return errors;
}

double sorted_quantile(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const std::size_t index = static_cast<std::size_t>(place);
  if (index + 1 >= sorted.size()) {
    return sorted.back();
  }
  const double rest = place - static_cast<double>(index);
  return sorted[index] * (1 - rest) + sorted[index + 1] * rest;
}

}  // namespace

double Sensitivity::swing() const { return std::abs(npv_at_high - npv_at_low); }

Result<CaseResult> evaluate(const CaseInput& input) {
  if (Errors errors = check(input); !errors.empty()) {
    return errors;
  }
  CaseResult r = evaluate_checked(input);
  r.return_rate = return_of(r.savings);
  r.payback = payback(0, r.savings);
  r.discounted_payback = payback(input.discount_rate.nominal, r.savings);
  return r;
}

Result<Simulation> simulate(const CaseInput& input, int samples, std::uint64_t seed) {
  Errors errors = check(input);
  if (samples < 10 || samples > 100000) {
    errors.push_back(input_error("samples", std::to_string(samples), "Between 10 and 100 000 samples."));
  }
  if (!errors.empty()) {
    return errors;
  }
  CaseInput drawn = input;
  CaseInput centre = input;
  const std::vector<Parameter> targets = parameters(drawn);
  const std::vector<Parameter> sources = parameters(centre);
  Generator generator(seed);
  std::vector<double> values;
  std::vector<double> paybacks;
  std::vector<double> rates;
  std::vector<std::vector<double>> by_year(static_cast<std::size_t>(input.years) + 1);
  int positive = 0;
  for (int sample = 0; sample < samples; ++sample) {
    for (std::size_t i = 0; i < targets.size(); ++i) {
      const double u = generator.uniform();
      for (std::size_t j = 0; j < targets[i].ranges.size(); ++j) {
        targets[i].ranges[j]->nominal = quantile(*sources[i].ranges[j], u);
      }
    }
    const CaseResult r = evaluate_checked(drawn);
    values.push_back(r.net_present_value);
    positive += r.net_present_value > 0 ? 1 : 0;
    if (const std::optional<double> years = payback(0, r.savings)) {
      paybacks.push_back(*years);
    }
    if (const ReturnRate rate = return_of(r.savings); rate.rate) {
      rates.push_back(*rate.rate);
    }
    double present = 0;
    double discount = 1;
    for (std::size_t year = 0; year < by_year.size(); ++year) {
      present += r.savings[year] * discount;
      discount /= 1 + drawn.discount_rate.nominal;
      by_year[year].push_back(present);
    }
  }
  std::sort(values.begin(), values.end());
  std::sort(paybacks.begin(), paybacks.end());
  std::sort(rates.begin(), rates.end());
  Simulation s;
  s.samples = samples;
  s.npv_low = sorted_quantile(values, 0.05);
  s.npv_median = sorted_quantile(values, 0.5);
  s.npv_high = sorted_quantile(values, 0.95);
  s.share_positive = static_cast<double>(positive) / samples;
  for (int percent = 0; percent <= 100; ++percent) {
    s.npv_quantiles.push_back(sorted_quantile(values, percent / 100.0));
  }
  s.share_paying_back = static_cast<double>(paybacks.size()) / samples;
  // Samples without a figure stand before or behind those that have one.
  const auto open_band = [&](const std::vector<double>& sorted, std::size_t missing_before) {
    const auto at = [&](double share) -> std::optional<double> {
      const std::size_t place = static_cast<std::size_t>(share * (samples - 1) + 0.5);
      if (place < missing_before || place - missing_before >= sorted.size()) {
        return std::nullopt;
      }
      return sorted[place - missing_before];
    };
    return OpenBand{at(0.05), at(0.5), at(0.95)};
  };
  s.payback = open_band(paybacks, 0);
  s.return_rate = open_band(rates, static_cast<std::size_t>(samples) - rates.size());
  for (std::vector<double>& year : by_year) {
    std::sort(year.begin(), year.end());
    s.present_by_year.push_back({sorted_quantile(year, 0.05), sorted_quantile(year, 0.5), sorted_quantile(year, 0.95)});
  }
  return s;
}

Result<std::vector<Sensitivity>> sensitivities(const CaseInput& input) {
  if (Errors errors = check(input); !errors.empty()) {
    return errors;
  }
  CaseInput moved = input;
  std::vector<Sensitivity> result;
  for (const Parameter& p : parameters(moved)) {
    const Range& first = *p.ranges.front();
    if (first.exact()) {
      continue;
    }
    Sensitivity s = {p.path, p.label, p.quantity, first.low, first.high, 0, 0};
    const double nominal = first.nominal;
    const auto at = [&](double value) {
      for (Range* range : p.ranges) {
        range->nominal = value;
      }
      return npv(moved);
    };
    s.npv_at_low = at(s.low);
    s.npv_at_high = at(s.high);
    at(nominal);
    result.push_back(s);
  }
  std::stable_sort(result.begin(), result.end(),
                   [](const Sensitivity& a, const Sensitivity& b) { return a.swing() > b.swing(); });
  return result;
}

namespace {

struct Lever {
  const char* path;
  const char* label;
  Quantity quantity;
  double span;  ///< searched from 0 to this
  std::function<void(CaseInput&, double)> set;
  const char* more;    ///< sentence when it pays above the value
  const char* less;    ///< … below it
  const char* always;  ///< … at any value
  const char* never;
  double per = 1;  ///< SI amount that the sentence names: an hour, a kilowatt-hour
};

BreakEven turn(const CaseInput& input, const Lever& lever, bool pays_now, const std::string& currency) {
  BreakEven b;
  b.path = lever.path;
  b.label = lever.label;
  b.quantity = lever.quantity;
  b.pays_now = pays_now;
  CaseInput moved = input;
  const auto pays = [&](double value) {
    lever.set(moved, value);
    return npv(moved) > 0;
  };
  double low = 0;
  double high = lever.span;
  const bool at_low = pays(low);
  const bool at_high = pays(high);
  if (at_low == at_high) {
    b.sentence.pattern = at_low ? lever.always : lever.never;
    return b;
  }
  b.pays_above = at_high;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (pays(middle) == at_low ? low : high) = middle;
  }
  b.value = (low + high) / 2;
  b.sentence = {b.pays_above ? lever.more : lever.less, {{*b.value, lever.quantity}}};
  if (lever.quantity == Quantity::duration || lever.quantity == Quantity::number) return b;
  b.sentence.values = {{*b.value * lever.per, Quantity::money}};
  if (!currency.empty()) b.sentence.pattern.insert(b.sentence.pattern.find("{}") + 2, " " + currency);
  return b;
}

}  // namespace

Result<std::vector<BreakEven>> break_evens(const CaseInput& input, const std::string& currency) {
  if (Errors errors = check(input); !errors.empty()) {
    return errors;
  }
  const auto span = [](double nominal, double fallback) { return nominal > 0 ? 100 * nominal : fallback; };
  const double purchase = std::abs(npv(input)) + input.candidate.price.nominal + 1;
  const Lever levers[] = {
      {"stop_cost", "cost of an hour of standstill", Quantity::money_rate, span(input.stop_cost.nominal, purchase),
       [](CaseInput& in, double v) { in.stop_cost.nominal = v; },
       "Pays only if an hour of standstill costs more than {}.",
       "Pays only if an hour of standstill costs less than {}.", "Pays whatever an hour of standstill costs.",
       "No cost of standstill makes it pay by itself.", 3600},
      {"energy_price", "price of electric energy", Quantity::energy_price,
       span(input.energy_price.nominal, 10 / kJoulePerKilowattHour),
       [](CaseInput& in, double v) { in.energy_price.nominal = v; }, "Pays only if a kilowatt-hour costs more than {}.",
       "Pays only if a kilowatt-hour costs less than {}.", "Pays whatever energy costs.",
       "No price of energy makes it pay by itself.", kJoulePerKilowattHour},
      {"running_time", "running time a year", Quantity::duration, kYear,
       [](CaseInput& in, double v) { in.running_time.nominal = v; }, "Pays only if it runs more than {} a year.",
       "Pays only if it runs less than {} a year.", "Pays however long it runs.",
       "No running time makes it pay by itself."},
      {"candidate.price", "price of the candidate", Quantity::money, purchase * 2,
       [](CaseInput& in, double v) { in.candidate.price.nominal = v; }, "Pays only if it costs more than {}.",
       "Pays only if it costs less than {}.", "Pays at any price searched.",
       "It does not pay even as a gift: running it costs more."},
  };
  const bool now = npv(input) > 0;
  std::vector<BreakEven> result;
  for (const Lever& lever : levers) {
    result.push_back(turn(input, lever, now, currency));
  }
  if (input.keep.stoppages.stated) {
    const Lever stops = {"keep.stoppages.per_year",
                         "stoppages of the present drive a year",
                         Quantity::number,
                         span(input.keep.stoppages.stated->per_year.nominal, 100),
                         [](CaseInput& in, double v) { in.keep.stoppages.stated->per_year.nominal = v; },
                         "Pays only if the present drive stops more than {} times a year.",
                         "Pays only if the present drive stops less than {} times a year.",
                         "Pays however seldom the present drive stops.",
                         "No number of stoppages of the present drive makes it pay by itself."};
    result.push_back(turn(input, stops, now, currency));
  }
  return result;
}

}  // namespace lobewise::cost
