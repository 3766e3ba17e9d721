#pragma once
// A candidate beside the drive in service and the case for it, as they leave; meanings stand in the descriptions.

#include "engine/incumbent/compare.h"
#include "engine/incumbent/fit.h"
#include "engine/result/proof.h"

namespace lobewise::result {

using incumbent::Better;
using incumbent::FitVerdict;

struct UnitFact {
  std::string label;
  Amount value;
  std::optional<Amount> low, high;
  std::optional<std::string> source;
};
struct UnitStage {
  std::string kind;
  double ratio = 0;
  std::vector<UnitFact> facts;
};
struct Unit {
  std::string kind, name;
  bool geared = false;
  double ratio = 0;
  std::vector<UnitFact> facts;
  std::vector<UnitStage> stages;
  std::vector<Assumption> assumptions;
  std::optional<std::string> trouble;
};

struct Spread {
  Amount nominal, low, high;
};
struct AxisBeside {
  std::string id, question;
  std::optional<Spread> candidate, incumbent;
  Better better = Better::unknown;
  std::string remark;
};

struct FitLine {
  std::string field, label;
  std::optional<Amount> before, after;
  FitVerdict verdict = FitVerdict::unknown;
  std::string work;
};
struct Fit {
  FitVerdict verdict = FitVerdict::unknown;
  std::vector<FitLine> lines;
  std::vector<std::string> missing;
};

struct Trouble {
  std::string what, label, note, looked_at, ask;
  std::optional<bool> explained;
  std::optional<Amount> figure, limit;
  std::optional<double> per_year;
};

struct CaseSide {
  std::string name;
  Amount total, purchase, energy, carbon, upkeep, repairs, standstill, energy_first_year, carbon_mass;
  double stoppages = 0;
  Amount lost_time;
};
struct MoneyBand {
  Amount nominal, low, median, high;
};
/// Absent where a share of the draws has none.
struct OpenBand {
  std::optional<double> nominal, low, median, high;
};
struct BreakEven {
  std::string path, label;
  Sentence sentence;
  bool pays_now = false;
  std::optional<Amount> value;
};
struct Matter {
  std::string path, label;
  Amount low, high, value_at_low, value_at_high;
};
struct Case {
  std::string against, name, currency;
  int years = 0;
  Sentence answer;
  MoneyBand value;
  std::optional<Amount> value_with_spare;
  OpenBand payback, return_rate;
  bool hangs_on_spare = false, return_ambiguous = false;
  double share_paying = 0, share_paying_back = 0;
  CaseSide keep, candidate;
  std::vector<BreakEven> break_evens;
  std::vector<Matter> matters;
  std::vector<Assumption> assumptions;
  std::vector<std::string> not_counted;
  std::vector<Step> working;
  std::vector<Chart> charts;
};

struct Comparison : Asked {
  Build build;
  std::string build_name;
  std::optional<Sentence> why_none;
  std::optional<Unit> incumbent;
  std::vector<AxisBeside> axes;
  Fit fit;
  std::vector<Case> cases;
  std::vector<Trouble> troubles;
  std::vector<Sentence> verdict;
  std::vector<std::string> missing;
  std::vector<Chart> charts;
  std::vector<Step> working;
};

}  // namespace lobewise::result
