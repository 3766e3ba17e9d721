#pragma once
// Which drive of a list is worth looking at first. Points are added up so that anybody can check them line by line;
// docs/survey.md says why. The scale is our judgement (no source) and is written into every mapping file to be changed.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "engine/base/result.h"

namespace lobewise::survey {

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

/// What is known of a line, for ranking.
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

struct Ranked {
  double overload = 0, stoppages = 0, energy = 0, proof = 0;  ///< points
  std::string why;                                            ///< in words, the weightiest first
  [[nodiscard]] double total() const { return overload + stoppages + energy + proof; }
};

[[nodiscard]] Ranked rank(const LineFacts& facts, const RankingScale& scale);

/// The `ranking:` block of a mapping file.
[[nodiscard]] std::string ranking_yaml(const RankingScale& scale);
[[nodiscard]] Result<RankingScale> read_ranking(const nlohmann::json& json);

}  // namespace lobewise::survey
