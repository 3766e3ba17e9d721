#pragma once
// Every question about one build on this machine, answered.

#include <string>
#include <vector>

#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

struct Evidence {
  std::vector<Finding> findings;
  std::vector<Influence> influences;  ///< on the worst margin of all findings, largest first
};

struct ProveOptions {
  int samples = 200;  ///< of everything uncertain, Latin hypercube with a fixed seed; 0: nominal values only
  /// Follow start, jam, events and temperature in time, for charts and notes. Verdicts do not depend on it: they come
  /// from closed forms and the settled state. A long list of drives leaves it out.
  bool in_time = true;
};

[[nodiscard]] Evidence prove(const drive::Drive& drive, const ProveOptions& options);

/// Checks only, without words, charts or ranges: for looking at many builds.
struct QuickFinding {
  const Question* question = nullptr;
  std::vector<Check> checks;
  Verdict verdict = Verdict::cannot_be_judged;
  Verdict of_build = Verdict::cannot_be_judged;  ///< of the checks that another build could mend (Check::of_order)
};
[[nodiscard]] std::vector<QuickFinding> quick_look(const drive::Drive& drive);
/// The service factor asked for, which costs an evaluation of its own. Precondition: one is asked for.
[[nodiscard]] QuickFinding quick_service(const drive::Drive& drive, const Evaluation& nominal);

}  // namespace lobewise::evidence
