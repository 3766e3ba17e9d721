#include "engine/demand/practice.h"

#include <algorithm>
#include <cmath>

#include "data/driven_machine_classes.h"
#include "data/service_factor_practice.h"
#include "engine/demand/given.h"

namespace lobewise::demand {
namespace {

constexpr double kHour = 3600;
constexpr double kLineExponent = 10.0 / 3;  // ISO 281, roller bearings
constexpr Coefficient kPeakAllowed{2.0, 1.6, 3.0, "common practice, no source: momentary torque at start over rating"};

using Row = data::ServiceFactorPracticeRow;

double high_of(const Row& row) {
  const auto value = parse_number(row.sf_high, "");
  return value ? *value : row.sf_low.value_or(1);
}

const Row* find(std::string_view section, auto matches) {
  for (const Row& row : data::kServiceFactorPractice)
    if (row.section.starts_with(section) && matches(row)) return &row;
  return nullptr;
}

std::string_view class_word(ShockClass shock) {
  return shock == ShockClass::uniform ? "uniform" : shock == ShockClass::moderate ? "moderate" : "heavy";
}

std::string_view mover_word(PrimeMover mover) {
  return mover == PrimeMover::electric         ? "electric motor / turbine / hydraulic motor"
         : mover == PrimeMover::multi_cylinder ? "multi-cylinder engine"
                                               : "single-cylinder engine";
}

}  // namespace

Result<Practice> practice_factor(const Demand& demand, double hours_per_day, double starts_per_hour,
                                 double reversals_per_hour, PrimeMover prime_mover) {
  Practice practice;
  const double hours = hours_per_day / kHour;
  const auto table = [&](std::string_view band) {
    return find("C enclosed", [&](const Row& r) {
      return r.load_class == class_word(demand.shock_class) && r.hours_per_day == band &&
             r.prime_mover_or_start == mover_word(prime_mover);
    });
  };
  const Row* base = table(hours <= 3 ? "<=3 intermittent" : hours <= 10 ? ">3-10" : ">10-24");
  const Row* reference = table(">3-10");
  if (!base || !reference)
    return Error{ErrorKind::internal, "practice", "", "The service-factor table lacks a row.", 0};
  practice.low = practice.high = *base->sf_low;
  step(practice.working, "f_1", "by load class, hours a day and prime mover", "table",
       {{"h", "running time a day", hours_per_day, Quantity::duration}}, *base->sf_low, Quantity::number,
       "tabular practice of enclosed gear drives, from memory");

  if (!demand.practice_machine.empty()) {
    const auto* row = std::find_if(data::kDrivenMachineClasses.begin(), data::kDrivenMachineClasses.end(),
                                   [&](const auto& r) { return r.driven_machine == demand.practice_machine; });
    if (row == data::kDrivenMachineClasses.end())
      return Error{ErrorKind::internal, "practice", demand.practice_machine,
                   "The table of driven machines lacks a row.", 0};
    if (const auto day = parse_number(row->sf_3to10h, ""); day && row->sf_over10h) {
      // The row gives electric motors and two bands of hours; other prime movers and short days shift it as they shift
      // f_1.
      const Row* electric = find("C enclosed", [&](const Row& r) {
        return r.load_class == base->load_class && r.hours_per_day == (hours > 10 ? ">10-24" : ">3-10") &&
               r.prime_mover_or_start == mover_word(PrimeMover::electric);
      });
      const double own = (hours > 10 ? *row->sf_over10h : *day) + (electric ? *base->sf_low - *electric->sf_low : 0);
      step(practice.working, "f_m", "by the machine's own row", "table", {}, own, Quantity::number,
           "list of driven machines, from memory / common practice");
      practice.low = std::min(practice.low, own);
      practice.high = std::max(practice.high, own);
    }
  }
  const Row* starts = find("D modifier: starts per hour", [&](const Row& r) {
    return r.item == (starts_per_hour <= 10 ? "<=1..10" : starts_per_hour <= 60 ? "10..60" : "60..200");
  });
  if (starts && starts_per_hour > 10) {
    practice.low *= *starts->sf_low;
    practice.high *= high_of(*starts);
    step(practice.working, "f_s", "starts an hour (above 200 no table applies: the duty must be worked out)", "table",
         {{"s", "starts", starts_per_hour, Quantity::per_hour}}, *starts->sf_low, Quantity::number, kCommonPractice);
  }
  const Row* reversing = find("D modifier: reversing", [](const Row&) { return true; });
  if (reversing && reversals_per_hour > 0) {
    practice.low *= *reversing->sf_low;
    practice.high *= high_of(*reversing);
    step(practice.working, "f_r", "reversing under load", "table", {}, *reversing->sf_low, Quantity::number,
         kCommonPractice);
  }
  return practice;
}

Result<CrossCheck> cross_check(const Demand& demand, const DutySpectrum& spectrum, PrimeMover prime_mover) {
  if (!(demand.torque.value > 0))
    return model_error("machine", "", "A service factor says nothing about a machine that is driven by its load.");
  auto practice = practice_factor(demand, spectrum.hours_per_day, spectrum.starts_per_hour, spectrum.reversals_per_hour,
                                  prime_mover);
  if (!practice) return practice.errors();
  CrossCheck check;
  check.practice = std::move(practice).value();
  const double running = demand.torque.value, hours = spectrum.hours_per_day / kHour;
  const double equivalent = mean_speed(spectrum.bins) > 0 ? equivalent_torque(spectrum.bins, kLineExponent) : 0;
  const double time = std::pow(hours / 10, 1 / kLineExponent);
  const double peak = std::max(peak_torque(spectrum), demand.starting_torque.value);
  // Spread of the running torque itself, for figures that are referred to its nominal value.
  const double low = demand.torque.low / running, high = demand.torque.high / running;
  check.life = {equivalent / running * time, equivalent / running * time * low, equivalent / running * time * high};
  check.peak = {peak / running / kPeakAllowed.nominal, peak / running / kPeakAllowed.high,
                peak / running / kPeakAllowed.low};
  check.computed = {std::max(check.life.value, check.peak.value), std::max(check.life.low, check.peak.low),
                    std::max(check.life.high, check.peak.high)};

  using Agreement = CrossCheck::Agreement;
  const double value = check.computed.value;
  constexpr double kSame = 0.05;  // half a step of the tables
  check.agreement = value < check.practice.low - kSame    ? Agreement::practice_asks_more
                    : value > check.practice.high + kSame ? Agreement::duty_asks_more
                                                          : Agreement::agrees;
  auto& why = check.explanation;
  const bool one = check.practice.low == check.practice.high;
  std::vector<Value> figures{{value, Quantity::number}, {check.practice.low, Quantity::number}};
  if (!one) figures.push_back({check.practice.high, Quantity::number});
  why.push_back({one ? "The computed duty asks for {} times the running torque, the tables for {}."
                     : "The computed duty asks for {} times the running torque, the tables for {} to {}.",
                 std::move(figures)});
  if (check.agreement == Agreement::practice_asks_more) {
    if (equivalent < 0.9 * running)
      why.push_back(
          {"The tables know only the heaviest hour: over this day the wear is that of {} of the running torque.",
           {{equivalent / running, Quantity::share}}});
    if (spectrum.shocks.empty() && demand.shock_class != ShockClass::uniform)
      why.push_back(
          {"The tables cover shocks of this class of machine that nobody has counted here: ask for them before "
           "trusting the lower figure.",
           {}});
    if (spectrum.shocks.empty() && demand.shock_class == ShockClass::uniform)
      why.push_back({"The tables' surplus covers what is not known: misuse, poor upkeep, errors of the estimate.", {}});
  }
  if (check.agreement == Agreement::duty_asks_more) {
    if (check.peak.value >= check.life.value)
      why.push_back(
          {"The worst moment decides: {} is {} times the running torque, and a factor of the tables covers about twice "
           "the rating for a moment.",
           {{peak, Quantity::torque}, {peak / running, Quantity::number}}});
    else
      why.push_back({"Wear decides: {} a day at {} of the running torque.",
                     {{spectrum.hours_per_day, Quantity::duration}, {equivalent / running, Quantity::share}}});
    if (demand.starting_torque.value > 2 * running)
      why.push_back({"This machine breaks away at {}, more than tables take for granted.",
                     {{demand.starting_torque.value, Quantity::torque}}});
  }
  if (demand.torque.high > 1.25 * running)
    why.push_back(
        {"The running torque itself may reach {} under the assumptions made: this outweighs the choice of a factor.",
         {{demand.torque.high, Quantity::torque}}});
  if (spectrum.starts_per_hour > 200)
    why.push_back({"Above {} starts an hour no table applies.", {{200, Quantity::per_hour}}});
  return check;
}

}  // namespace lobewise::demand
