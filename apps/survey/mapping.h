#pragma once
// Which column of a list says what, in which unit: proposed from the headings, kept as YAML, given back by people.

#include <map>

#include "apps/survey/fields.h"
#include "apps/survey/ranking_scale.h"
#include "apps/survey/table.h"

namespace lobewise::survey {

struct Column {
  std::string heading;
  std::size_t place = 0;  ///< in the list, from 0
  std::string field;      ///< id of a field, empty: not used
  std::string unit;       ///< of bare numbers, empty for words and plain numbers
  std::string remark;     ///< why it is so: `unit not stated, taken`
};

struct Mapping {
  std::string sheet;
  long header_row = 1;
  long units_row = 0;          ///< a row of units under the headings, 0: none
  bool decimal_comma = false;  ///< `1.450,5` is a thousand and more
  bool decimal_point = false;  ///< known to be a point: `1,450` is a thousand and more; neither: such a cell is refused
  std::vector<Column> columns;
  std::map<std::string, std::string> defaults;  ///< field -> value where the list says nothing
  judge::RankingScale ranking;
};

/// Rows a proposal looks at.
inline constexpr std::size_t kSampleRows = 60;

/// Guesses header row, units, decimal mark and fields.
/// Errors: no row looks like headings of a list of drives.
[[nodiscard]] Result<Mapping> propose(const std::vector<Row>& sample, const Fields& fields, const std::string& sheet);

/// As a commented YAML file.
[[nodiscard]] std::string mapping_yaml(const Mapping& mapping, const Fields& fields);
/// From YAML that was read into JSON with every scalar as text. Errors: unknown fields or units, each with its path.
[[nodiscard]] Result<Mapping> read_mapping(const nlohmann::json& json, const Fields& fields);
/// Finds the mapping's columns in the headings of a list again, in whatever order they come, and adds those the mapping
/// does not know as unused. Errors: a column that is used is missing.
[[nodiscard]] Errors fit(Mapping& mapping, const Row& headings);

/// Heading and unit as one reads it: `Torque [Nm]`, `I/A`, `Power kW`; the whole heading comes first.
struct Reading {
  std::string name;  ///< normalised
  std::string unit;  ///< a unit of some quantity, or empty
};
[[nodiscard]] std::vector<Reading> readings_of(std::string_view heading);

}  // namespace lobewise::survey
