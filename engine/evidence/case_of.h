#pragma once
// The case from what the enquiry says: two options, the same duty, and every gap filled by a stated assumption.

#include <optional>
#include <string>
#include <vector>

#include "engine/case/business_case.h"
#include "engine/evidence/beside.h"

namespace lobewise::evidence {

/// What the candidate is set against.
enum class Against {
  present,      ///< the unit that stands there stays
  replacement,  ///< a new unit of its kind is bought
};

struct CaseOf {
  cost::CaseInput input;
  std::vector<Assumption> assumptions;
  std::vector<std::string> not_counted;  ///< left at zero because nobody said it
  std::string currency;                  ///< word behind amounts, safe inside a sentence; may be empty
};

/// What is missing for any case; empty when there is enough: the incumbent's kind, money at all, a price of energy, a
/// motor, prices in one currency.
[[nodiscard]] std::vector<std::string> missing_for_case(const drive::Drive& drive);

/// Losses of the candidate as the case takes them, over `samples` of what is not known exactly, at its oil temperature
/// on this duty.
[[nodiscard]] cost::DriveLosses candidate_losses(const drive::Drive& drive, const Evaluation& nominal, int samples);

/// Electric energy of a year on the duty, at likely figures: what a list ranks by and what the case begins with.
struct YearlyEnergy {
  double keep = 0, candidate = 0;  ///< [J]
};
/// Preconditions: the kind of the present unit is known, the drive has a motor.
[[nodiscard]] YearlyEnergy energy_of(const drive::Drive& drive, const incumbent::GearUnit& unit,
                                     const cost::DriveLosses& candidate);

/// Precondition: missing_for_case is empty. Against a replacement also needs its price; nothing without it.
/// Stoppages: counted by the plant where it said so; otherwise both options get the same open figures
/// (cost::usual_modes), the present one at its age. A new unit of the present kind has no history yet.
[[nodiscard]] std::optional<CaseOf> case_of(const drive::Drive& drive, const incumbent::GearUnit& unit,
                                            const cost::DriveLosses& candidate, Against against);

/// The case with a spare of the present unit on the shelf and without one, where nobody said which.
struct SpareAnswer {
  double with = 0, without = 0;  ///< present value of the change
  std::optional<double> payback_with, payback_without;
  int years = 0;
  /// Whether the change pays with one answer and not with the other.
  [[nodiscard]] bool turns() const { return (with > 0) != (without > 0); }
};
/// Nothing where it is said, or where it changes nothing. Preconditions as case_of.
[[nodiscard]] std::optional<SpareAnswer> spare_answer(const drive::Drive& drive, const incumbent::GearUnit& unit,
                                                      const cost::DriveLosses& candidate, Against against);

/// Cost of the candidate against the present unit at likely figures, one check; nothing where there is no case.
[[nodiscard]] std::optional<Check> likely_cost(const drive::Drive& drive, const Evaluation& nominal);

/// Which comparison decides: a new one of its kind when the present one cannot stay.
[[nodiscard]] Against deciding(const enquiry::Requirement& requirement);

/// Everything that is said of one case.
struct CaseStudy {
  Against against = Against::present;
  CaseOf setup;
  cost::CaseResult result;
  cost::Simulation spread;
  std::vector<cost::Sensitivity> sensitivities;  ///< largest first
  std::vector<cost::BreakEven> break_evens;
  /// Present value with one of the new units bought for the shelf; nothing when one is in the case already.
  std::optional<double> with_spare;
  std::optional<SpareAnswer> spare;  ///< of the present unit, where nobody said whether there is one
  /// Nothing is said of a payback before a spare that turns the answer is asked for.
  [[nodiscard]] bool hangs_on_spare() const { return spare && spare->turns(); }

  /// `{} credits`: an amount in a sentence.
  [[nodiscard]] std::string amount() const { return setup.currency.empty() ? "{}" : "{} " + setup.currency; }
};
/// Errors: those of the case.
[[nodiscard]] Result<CaseStudy> study(CaseOf setup, Against against, int samples);

/// Present value of the savings over the years with 5, 50 and 95 %; what matters most.
[[nodiscard]] Chart cash_flow_chart(const CaseStudy& study);
[[nodiscard]] Chart sensitivity_chart(const CaseStudy& study);
[[nodiscard]] Chart cost_parts_chart(const CaseStudy& study);

/// One honest sentence: what it saves or costs, when it pays back and how sure that is.
[[nodiscard]] Text case_sentence(const CaseStudy& study);

}  // namespace lobewise::evidence
