#include "engine/evidence/finding.h"

namespace lobewise::evidence {

const Check* worst(const Finding& finding) {
  const Check* found = nullptr;
  for (const Check& check : finding.checks)
    if (found == nullptr || check.margin() < found->margin()) found = &check;
  return found;
}

Verdict judge(const std::vector<Check>& checks) {
  if (checks.empty()) return Verdict::cannot_be_judged;
  bool doubtful = false;
  for (const Check& check : checks) {
    if (check.margin() < 0) return Verdict::does_not_hold;
    const std::optional<double>& bad_end = check.at_most ? check.high : check.low;
    if (bad_end && (check.at_most ? *bad_end > check.limit : *bad_end < check.limit)) doubtful = true;
  }
  return doubtful ? Verdict::holds_if : Verdict::holds;
}

const char* words(Verdict verdict) {
  switch (verdict) {
    case Verdict::holds:
      return "holds";
    case Verdict::holds_if:
      return "holds if";
    case Verdict::does_not_hold:
      return "does not hold";
    case Verdict::cannot_be_judged:
      break;
  }
  return "cannot be judged";
}

}  // namespace lobewise::evidence
