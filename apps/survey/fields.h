#pragma once
// What a column of a plant's list can say, and the words plants use for it.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise::survey {

enum class Kind { text, quantity, choice, flag };

struct Field {
  std::string id;     ///< as in mapping files
  std::string label;  ///< plain words
  std::string path;   ///< in the enquiry; empty for what only the list itself uses
  Kind kind = Kind::text;
  Quantity quantity = Quantity::number;
  std::string unit;                 ///< taken when the list names none
  std::vector<std::string> names;   ///< headings, normalised (see `words_of`)
  std::vector<std::string> values;  ///< of a choice: keys of the enquiry
  std::vector<std::string> labels;  ///< of a choice: words for people
  bool essential = false;           ///< a drive is not proved on a guess when this cell is there but cannot be read
};

/// Every field, from the schema of the enquiry and from what only a list says. Beside them any path of the enquiry may
/// be named in a mapping file.
class Fields {
 public:
  explicit Fields(const nlohmann::json& enquiry_schema);
  [[nodiscard]] const std::vector<Field>& all() const { return fields_; }
  /// By id, or by path of the enquiry; null when there is none.
  [[nodiscard]] const Field* find(std::string_view id) const;
  /// Kinds of driven machine: key -> words.
  [[nodiscard]] const std::vector<std::pair<std::string, std::string>>& machines() const { return machines_; }
  /// The kind a cell names, e.g. `Gurtförderer` -> belt_conveyor; nothing when it names none.
  [[nodiscard]] std::optional<std::string> machine_of(std::string_view text) const;

 private:
  std::vector<Field> fields_;
  std::vector<std::pair<std::string, std::string>> machines_;
};

/// Lower case without accents, punctuation as single blanks: `Leistung P_n (kW)` -> `leistung p n kw`.
[[nodiscard]] std::string words_of(std::string_view text);
/// Kind of gear unit a cell names, key of `incumbent.kind`, in the common languages; nothing when it names none.
[[nodiscard]] std::optional<std::string> gear_of(std::string_view text);
/// Key of a choice or a yes/no a cell stands for; nothing when it is none.
[[nodiscard]] std::optional<std::string> choice_of(const Field& field, std::string_view text);
[[nodiscard]] std::optional<bool> flag_of(std::string_view text);

}  // namespace lobewise::survey
