#pragma once
// Keep what stands, or put the candidate in its place: what both cost over the years, and how sure that is.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/base/text.h"
#include "engine/base/working.h"
#include "engine/case/cash_flow.h"
#include "engine/case/energy.h"
#include "engine/case/stoppage.h"

namespace lobewise::cost {

/// One way to drive the machine. Money in one currency; unknown money is an exact zero the caller has decided on.
struct Option {
  std::string name;
  // Now.
  Range price;  ///< reducer
  Range motor_price;
  Range installation;  ///< work, crane, alignment
  Range adapters;      ///< plates, couplings, guards
  Range spare_price;   ///< of a spare put on the shelf now, 0 when there is one or none is bought
  // Every year.
  Range lubricant_cost;  ///< material, money per year
  Range upkeep_time;     ///< labour, s per year
  // At the end.
  Range disposal;  ///< cost; scrap or resale value is negative
  DriveLosses losses;
  MotorNameplate motor;
  Stoppages stoppages;
};

struct CaseInput {
  Option keep;  ///< the unit in service, or a new one of its kind
  Option candidate;
  int years = 10;             ///< horizon, 1 … 40
  Range discount_rate;        ///< real, per year
  Range running_time;         ///< per year, s
  std::vector<Load> duty;     ///< shares add up to 1
  Range energy_price;         ///< money per J
  Range energy_price_growth;  ///< real, per year
  Range grid_carbon;          ///< kg CO2 per J
  Range grid_decline;         ///< of the carbon intensity, per year
  Range carbon_price;         ///< money per kg CO2, 0 when the customer pays none
  Range stop_cost;            ///< lost production, money per hour of running time lost
  Range labour_rate;          ///< money per hour
};

/// What an option costs, in money of today.
struct CostParts {
  double purchase = 0;  ///< reducer, motor, installation, adapters, spare
  double energy = 0;
  double carbon = 0;
  double upkeep = 0;  ///< lubricant and labour
  double repairs = 0;
  double standstill = 0;  ///< lost production
  double disposal = 0;

  [[nodiscard]] double total() const { return purchase + energy + carbon + upkeep + repairs + standstill + disposal; }
};

struct OptionResult {
  CostParts present;          ///< present values
  std::vector<double> flows;  ///< cost per year 0 … years, not discounted
  double energy = 0;          ///< first year, J
  double carbon = 0;          ///< over the horizon, kg CO2
  double stoppages = 0;       ///< expected over the horizon
  double lost_time = 0;       ///< running time lost over the horizon, s
};

struct CaseResult {
  OptionResult keep, candidate;
  std::vector<double> savings;               ///< flows of keep minus flows of candidate
  double net_present_value = 0;              ///< of the savings
  ReturnRate return_rate;                    ///< nothing where no money is put in
  std::optional<double> payback;             ///< years, simple
  std::optional<double> discounted_payback;  ///< years
};

/// The case at nominal values. Errors: ranges out of order or sign, years, shares of time, motor too small for the
/// duty.
[[nodiscard]] Result<CaseResult> evaluate(const CaseInput& input);

/// What 5, 50 and 95 % of the samples stay below.
struct Band {
  double low = 0, median = 0, high = 0;
};
/// As Band where a sample may have no figure; such samples stand at the unfavourable end, and an end they reach is
/// empty.
struct OpenBand {
  std::optional<double> low, median, high;
};

/// Spread of the case over all ranges.
struct Simulation {
  int samples = 0;
  double npv_low = 0, npv_median = 0, npv_high = 0;  ///< 5, 50, 95 %
  double share_positive = 0;                         ///< of the samples with a present value above zero
  std::vector<double> npv_quantiles;                 ///< 0, 1 … 100 %
  OpenBand payback;                   ///< simple, years; samples that never pay back stand behind the last one
  OpenBand return_rate;               ///< per year; samples without one stand below the lowest
  double share_paying_back = 0;       ///< within the horizon, simple payback
  std::vector<Band> present_by_year;  ///< present value of the savings up to the end of year 0 … years
};
/// Monte Carlo with independent triangular ranges; figures that both options take from the same row (the same failure
/// mode with the same range) move together. Same seed, same answer. @param samples  10 … 100 000 Errors as evaluate.
[[nodiscard]] Result<Simulation> simulate(const CaseInput& input, int samples, std::uint64_t seed);

/// How far one figure moves the result when it alone goes from low to high.
struct Sensitivity {
  std::string path;
  std::string label;
  Quantity quantity = Quantity::number;
  double low = 0, high = 0;
  double npv_at_low = 0, npv_at_high = 0;

  [[nodiscard]] double swing() const;
};
/// Largest swing first; figures that are exact are left out.
[[nodiscard]] Result<std::vector<Sensitivity>> sensitivities(const CaseInput& input);

/// Where one figure turns the case.
struct BreakEven {
  std::string path;
  std::string label;
  Quantity quantity = Quantity::number;
  std::optional<double> value;  ///< nothing when no value within the searched span turns the case
  bool pays_above = true;       ///< the candidate pays above the value; false: below it
  bool pays_now = false;        ///< at nominal values
  Text sentence;                ///< `Pays only if an hour of standstill costs more than {}.`
};
/// For cost of standstill, energy price, running time, price of the candidate, and how often the present unit stops,
/// each alone, by bisection from 0 to 100 times nominal (or a span that makes sense when nominal is 0).
/// @param currency  word behind amounts, without braces; may be empty
[[nodiscard]] Result<std::vector<BreakEven>> break_evens(const CaseInput& input, const std::string& currency);

/// The derivation a screen can open.
[[nodiscard]] Working case_working(const CaseInput& input, const CaseResult& result);

}  // namespace lobewise::cost
