#include "engine/evidence/finding.h"

#include <algorithm>

#include "engine/model/describe.h"

namespace lobewise::evidence {

const Check* worst(const Finding& finding) { return worst(finding.checks); }

const Check* worst(const std::vector<Check>& checks) {
  const auto weightier = [](const Check& a, const Check& b) {
    const bool a_fails = a.margin() < 0, b_fails = b.margin() < 0;
    if (a_fails != b_fails) return a_fails;
    if (a_fails && a.basis != b.basis) return a.basis < b.basis;
    return a.margin() < b.margin();
  };
  const auto found = std::min_element(checks.begin(), checks.end(), weightier);
  return found == checks.end() ? nullptr : &*found;
}

Verdict judge(const std::vector<Check>& checks) {
  if (checks.empty()) return Verdict::cannot_be_judged;
  bool doubtful = false;
  for (const Check& check : checks) {
    if (check.margin() < 0) {
      if (check.basis == Basis::promise) return Verdict::does_not_hold;
      doubtful = true;
    }
    const std::optional<double>& bad_end = check.at_most ? check.high : check.low;
    if (check.basis != Basis::yardstick && bad_end && (check.at_most ? *bad_end > check.limit : *bad_end < check.limit))
      doubtful = true;
  }
  return doubtful ? Verdict::holds_if : Verdict::holds;
}

}  // namespace lobewise::evidence

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<evidence::Verdict>() {
  static const std::vector<Choice> choices{{"holds", "holds"},
                                           {"holds_if", "holds if"},
                                           {"does_not_hold", "does not hold"},
                                           {"cannot_be_judged", "cannot be judged"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<evidence::Basis>() {
  static const std::vector<Choice> choices{
      {"promise", "promise"}, {"assumed", "assumed"}, {"yardstick", "rule of the trade"}};
  return choices;
}

}  // namespace lobewise::model
