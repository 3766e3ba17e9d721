#include "engine/judge/best_drive.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace lobewise::judge {
namespace {

/// Margins that rigid discs gave and that were not enough with discs that bend, by finding: a build that has no more
/// there is not tried.
using Needed = std::map<std::string, double>;

bool worth_trying(const sizing::Candidate& candidate, const Needed& needed) {
  return std::all_of(candidate.margins.begin(), candidate.margins.end(), [&](const sizing::Margin& margin) {
    const auto found = needed.find(margin.id);
    return found == needed.end() || !margin.of_build || margin.of_build->margin > found->second;
  });
}

void learn(const sizing::Candidate& rigid, const sizing::Candidate& bent, Needed& needed) {
  if (!bent.failure) return;
  const char* id = bent.failure->question->id;
  for (const sizing::Margin& margin : rigid.margins)
    if (margin.id == id && margin.of_build)
      needed[id] = std::max(needed.emplace(id, margin.of_build->margin).first->second, margin.of_build->margin);
}

}  // namespace

Result<drive::Drive> best_drive(const enquiry::Requirement& requirement, const range::Range& range,
                                const ProofTables& tables, Choice& choice) {
  const sizing::Sources sources{tables.rigid, tables.bending};
  sizing::Search search(requirement, range, sources);
  constexpr int kMostTried = 4;
  std::optional<sizing::Candidate> first;
  Needed needed;
  for (int tried = 0; tried < kMostTried;) {
    const sizing::Candidate* candidate = search.next();
    if (candidate == nullptr || (first && !candidate->serves())) break;
    if (first && !worth_trying(*candidate, needed)) continue;
    ++tried;
    sizing::Candidate bent = *candidate;
    sizing::look(requirement, tables.proof, bent);
    if (bent.fell_out.empty() && bent.serves()) {
      choice.why = candidate->why;
      if (first) {
        choice.why.pattern += fmt::format(
            " {} costs less and would serve with rigid discs, but not with discs that bend.", first->build.name());
      }
      return drive::assemble(requirement, candidate->build, tables.proof);
    }
    if (!first) first = bent;
    if (!candidate->serves()) break;  // nothing serves: the closest one is shown with what fails
    learn(*candidate, bent, needed);
  }
  choice.none = search.why_none();
  if (!first) return model_error("build", "", render(choice.none, UnitSystem::si));
  choice.may_bend = !tables.bending && sizing::mendable(*first);
  if (choice.none.empty()) {
    const Text reason = sizing::why_not(*first);
    choice.none = {fmt::format("With discs that bend no build of those that come near serves. The closest is {}, which "
                               "fails at {}.",
                               first->build.name(), reason.pattern),
                   reason.values};
  }
  return drive::assemble(requirement, first->build, tables.proof);
}

}  // namespace lobewise::judge
