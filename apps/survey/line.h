#pragma once
// A line of the list: cells -> enquiry, and the answer of the engine -> a record for the result.

#include <functional>

#include "apps/survey/mapping.h"

namespace lobewise::survey {

/// A cell that could not be taken as it stands.
struct Problem {
  std::string column;  ///< letters
  std::string heading;
  std::string cell;     ///< its text
  std::string message;  ///< what is wrong
  std::string done;     ///< what was done about it
};

/// The cell a field of the enquiry came from.
struct Source {
  std::size_t place = 0;
  std::string heading, cell;
  bool essential = false;
};

struct Line {
  long row = 0;
  std::string tag, title, area, note;
  std::string kind;   ///< of the machine, key of the enquiry
  std::string basis;  ///< how the load is known
  nlohmann::json enquiry;
  std::map<std::string, Source> sources;  ///< by path of the enquiry
  std::vector<Problem> problems;
  std::vector<std::string> notes;  ///< what was taken or left aside, besides the engine's assumptions
  std::string obstacle;            ///< why it cannot be proved; empty when it can be tried

  std::optional<double> rated_power, gear_torque, stoppage, stoppages, stoppage_cost;  ///< SI
  std::optional<double> train_efficiency;                                              ///< said
  std::string gear;                                                                    ///< words for its kind
  bool refused = false;                                                                ///< people ride, or may
  std::string lifts;  ///< words that make it a lifting job for goods
};

/// Words a plant writes for `nothing here`.
[[nodiscard]] bool says_nothing(std::string_view cell);

/// Builds the enquiry of a row. Never fails: what cannot be read is a problem, and an obstacle when it is essential.
[[nodiscard]] Line read_line(const Row& row, const Mapping& mapping, const Fields& fields);

using Prover = std::function<Result<nlohmann::json>(const nlohmann::json& enquiry)>;

/// Proves a line and ranks it; the record is what the result is written from (docs/survey.md).
[[nodiscard]] nlohmann::json answer_line(Line line, const Mapping& mapping, const Prover& prove);

/// The enquiry of a line as YAML, fit for every other command.
[[nodiscard]] std::string enquiry_yaml(const Line& line);

}  // namespace lobewise::survey
