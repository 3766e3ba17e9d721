#pragma once
// Of every caution: how grave it is, who acts on it and when. One list, so that documents can put the gravest first and
// no caution stands without somebody who does it.

#include <string_view>

namespace lobewise::demand {

struct CautionDuty {
  std::string_view key;
  int rank = 0;  ///< 1 is the gravest: what can kill stands before what hurts, what hurts before what costs
  const char* who = "";
  const char* when = "";
};

/// Duty of the caution with that key; a key without a row of its own has that of its family (`doubt_fill` that of
/// `doubt_`). Null when there is neither: every caution the engine gives has one (tested). Ranks and duties: common
/// practice, no source.
[[nodiscard]] const CautionDuty* find_duty(std::string_view key);

/// As above; a caution without a row is the plant's to settle before the first start.
[[nodiscard]] const CautionDuty& duty_of_caution(std::string_view key);

}  // namespace lobewise::demand
