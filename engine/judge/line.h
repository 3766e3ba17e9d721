#pragma once
// What a line of a plant's list comes to, and which of its drives is worth looking at first. Points are added up so
// that anybody can check them line by line; docs/survey.md says why. The scale is our judgement (no source).

#include <optional>
#include <string>
#include <vector>

#include "engine/base/text.h"

namespace lobewise::enquiry {
struct Requirement;
}
namespace lobewise::evidence {
struct Finding;
}

namespace lobewise::judge {

/// What the findings of a build come to.
struct Standing {
  bool serves = true;   ///< no finding about the build says that it does not hold
  int conditions = 0;   ///< findings that hold under a condition; what misses a yardstick of the trade is none
  std::string failing;  ///< ids of all findings that fail, `life, heat`
};
[[nodiscard]] Standing standing_of(const std::vector<evidence::Finding>& findings);

/// The service factor a line is measured against: what the customer asks for, else the middle of the usual practice
/// beside its duty; nothing where there is none.
[[nodiscard]] std::optional<double> service_factor(const enquiry::Requirement& requirement);

/// Each part grows from zero to its points in a straight line and stays there.
struct RankingScale {
  double overload_points = 40;
  double overload_full = 1.5;  ///< load over rating of motor or gear unit that earns all points; 1 earns none
  double stoppage_points = 30;
  double stoppage_full = 40 * 3600.0;  ///< a year [s]
  double energy_points = 20;
  double energy_full = 20e6 * 3600;  ///< saved a year [J]
  double proof_points =
      20;  ///< when no build serves or the line could not be proved; a fifth when one holds under a condition
};

/// What the present drive carries, SI.
struct PresentLoad {
  double torque = 0, speed = 0;            ///< at the driven shaft
  std::optional<double> train_efficiency;  ///< said, or of the unit that is known; else kUsualTrain
  std::optional<double> rated_power;       ///< of its motor; none: unknown, or the load was taken from it
  std::optional<double> rated_torque;      ///< of its gear unit
  double service_factor = 1;
};
/// Load of the motor over its rating, T w/(eta P). Nothing: no rating. Source: derived.
[[nodiscard]] std::optional<double> motor_load(const PresentLoad& load);
/// Torque times service factor over the rating of the gear unit. Nothing: no rating. Source: derived.
[[nodiscard]] std::optional<double> gear_load(const PresentLoad& load);
/// Energy less a year than with the present drive [J].
[[nodiscard]] double energy_saved(double present, double candidate);

/// What is known of a line.
struct LineFacts {
  std::optional<double> motor_load;     ///< load over rating of the present motor
  std::optional<double> gear_load;      ///< torque times service factor over rating of the present gear unit
  std::optional<double> stoppage;       ///< a year [s]
  std::optional<double> stoppages;      ///< times a year
  std::optional<double> stoppage_cost;  ///< money an hour
  std::optional<double> energy_saved;   ///< a year, negative when more would be used [J]
  std::string present_gear;             ///< words
  bool proved = false;                  ///< there is evidence for a build
  bool serves = false;
  int conditions = 0;    ///< findings that hold under a condition
  std::string failing;   ///< ids of findings that fail, in words
  std::string obstacle;  ///< why it could not be proved
  bool refused = false;  ///< no job for anybody here: earns no points
  bool offered = true;   ///< false: not for the place it stands in, until that is described
};

/// The result of a line in a word or two: refused, not proved, not offered, no build serves, serves under conditions,
/// serves.
[[nodiscard]] const char* result_of(const LineFacts& facts);

struct Reason {
  double points = 0;
  Text text;
};

struct Ranked {
  double overload = 0, stoppages = 0, energy = 0, proof = 0;  ///< points
  std::vector<Reason> reasons;                                ///< the weightiest first; empty: nothing stands out
  [[nodiscard]] double total() const { return overload + stoppages + energy + proof; }
};

[[nodiscard]] Ranked rank(const LineFacts& facts, const RankingScale& scale);

/// The reasons in one sentence, each with its points.
[[nodiscard]] std::string why(const Ranked& ranked, UnitSystem system);

}  // namespace lobewise::judge
