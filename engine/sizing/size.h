#pragma once
// Every build of a range against one enquiry: which serve, which is best, and why the others fell out.

#include <string>
#include <vector>

#include "engine/evidence/prove.h"

namespace lobewise::sizing {

struct Margin {
  std::string id;  ///< of the finding
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  std::optional<double> margin;  ///< the worst check's
};

struct Candidate {
  drive::Build build;
  int poles = 4;           ///< of the motor it would get
  double ratio_error = 0;  ///< speed off the speed asked for, with sign
  std::vector<Margin> margins;
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  Text fell_out;  ///< why it was not looked at closer; empty when it was
};

struct Sizing {
  std::vector<Candidate> candidates;  ///< best first, then those that fell out
  int chosen = -1;                    ///< index of the best that serves, -1: none
  Text why_none;
};

/// Whether a build serves: no finding fails, apart from `sharing` and `efficiency`, which are measured against rules of
/// the trade and not against strength.
[[nodiscard]] bool serves(const std::vector<evidence::QuickFinding>& findings);

/// Looks at every build: first whether its ratio can give the speed and whether it can carry the torque at all, then
/// every check at nominal values. Best: serves, then a four-pole motor before
/// others (they are larger and dearer for the same power; prices here are without motor), then the lower price. The
/// range must outlive the result.
/// @param tables  where mesh tables come from; keep them to prove the chosen build at once
[[nodiscard]] Sizing size(const enquiry::Requirement& requirement, const range::Range& range,
                          const drive::TableSource& tables);

}  // namespace lobewise::sizing
