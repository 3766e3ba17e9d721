#pragma once
// The drive in service beside the candidate: both on the same duty, in the same air and on the same base, as far as
// anything is known of what stands there.

#include <optional>
#include <string>
#include <vector>

#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"
#include "engine/incumbent/compare.h"
#include "engine/incumbent/fit.h"

namespace lobewise::evidence {

/// The duty as the geared unit's model takes it: torque and speed at full load, the parts of the running time, the air
/// around, the life asked for, the motor's speed as its nameplate or the motor's says, else the typical one of a motor
/// of that power.
[[nodiscard]] incumbent::UnitDuty duty_of(const enquiry::Requirement& requirement);
/// … with the worst momentary torque of start and jam as this machine with this motor makes it.
[[nodiscard]] incumbent::UnitDuty duty_of(const drive::Drive& drive, const Evaluation& nominal);

/// The geared unit on this duty; a stated efficiency and a measured temperature replace the estimates.
/// Precondition: the kind is known. Errors: those of incumbent::gear_unit, with their path in the enquiry.
[[nodiscard]] Result<incumbent::GearUnit> unit_beside(const enquiry::Incumbent& incumbent,
                                                      const incumbent::UnitDuty& duty);

/// As above on the duty of a drive. Of a cycloidal unit what nobody states of losses, temperature, mass and size is
/// that of the candidate, with the spread of make and wear: the same kind by the same model, so that no difference
/// comes from two models. Precondition: the kind is known.
[[nodiscard]] Result<incumbent::GearUnit> unit_beside(const drive::Drive& drive, const Evaluation& nominal);

/// The candidate on this duty, 5 and 95 % over `samples` of what is not known exactly. The life is that of 99
/// % (a_1 of ISO 281), as gear teeth are rated.
[[nodiscard]] incumbent::CandidateFigures candidate_figures(const drive::Drive& drive, const Evaluation& nominal,
                                                            int samples);
/// Prices and delivery as quoted; the range's price when nothing is quoted.
[[nodiscard]] incumbent::OfferFigures offer_of(const enquiry::Requirement& requirement);

/// Efficiency of the candidate at a part of the full load, same speed, at an oil temperature.
[[nodiscard]] double efficiency_at(const drive::Drive& drive, const Evaluation& e, double load_share,
                                   double oil_temperature);

/// What is needed before anything can be set beside the candidate; empty when there is enough.
[[nodiscard]] std::vector<std::string> missing_of_incumbent(const enquiry::Requirement& requirement);

/// Old and new dimensions side by side.
struct FitBeside {
  incumbent::Dimensions before, after;
  incumbent::Room room;
  incumbent::Fit fit;
  Coefficient length, mass;          ///< of the candidate with its motor, whose size is estimated
  std::vector<std::string> unknown;  ///< what to read before the rest can be judged
};
[[nodiscard]] FitBeside fit_beside(const drive::Drive& drive);

/// Who is better at what, in plain sentences that leave out no side, and where the figures contradict what was seen.
[[nodiscard]] std::vector<Text> fair_words(const std::vector<incumbent::Axis>& axes, const incumbent::GearUnit& unit,
                                           const incumbent::UnitDuty& duty, const enquiry::Incumbent& seen);

/// Efficiency over load of both, candidate at its own oil temperature.
[[nodiscard]] Chart efficiency_beside(const drive::Drive& drive, const Evaluation& nominal,
                                      const incumbent::GearUnit& unit);

}  // namespace lobewise::evidence
