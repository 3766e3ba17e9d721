#pragma once
// Figures and sentences as they leave: in SI, and written for readers of either system of units.

#include <string>
#include <string_view>
#include <vector>

#include "engine/base/text.h"
#include "engine/result/field.h"

namespace lobewise::result {

struct Amount {
  double value = 0;
  std::vector<double> list = {};  ///< of a list of values, which then stand in place of the one
  std::string quantity, si, us;

  /// @param units  `si` or `us`
  [[nodiscard]] const std::string& in(std::string_view units) const { return units == "us" ? us : si; }
  bool operator==(const Amount&) const = default;
};
[[nodiscard]] Amount amount(double si, Quantity quantity);
/// The words name the first few.
[[nodiscard]] Amount amount(const std::vector<double>& si, Quantity quantity);

struct Sentence {
  std::string si, us;
  [[nodiscard]] const std::string& in(std::string_view units) const { return units == "us" ? us : si; }
};
[[nodiscard]] Sentence sentence(const Text& text);
[[nodiscard]] std::vector<Sentence> sentences(const std::vector<Text>& texts);
/// Nothing for an empty text.
[[nodiscard]] std::optional<Sentence> if_any(const Text& text);

}  // namespace lobewise::result
