#pragma once
// What can still be offered, or at least said, when rigid discs or the speed stand in the way. Not for use outside
// sizing.

#include "engine/sizing/size.h"

namespace lobewise::sizing {

/// Rigid discs refuse what discs that bend would carry: of those that fail by little and would be preferred to `best`
/// the few that come closest are looked at with discs that bend. Gives the preferred one of those that serve, or
/// nothing; nothing also without `sources.bending`.
/// @param failed  looked at with rigid discs
/// @param best    null: none serves
[[nodiscard]] std::optional<Candidate> mend(const enquiry::Requirement& requirement, const Sources& sources,
                                            const std::vector<Candidate>& failed, const Candidate* best);

struct Rescue {
  std::optional<Candidate> chosen;
  std::vector<Candidate> nearest;  ///< slower and faster build, see Sizing::nearest
  Text why_none;                   ///< empty when something was chosen
};

/// @param failed     looked at, none of them serves, not with discs that bend either; best first
/// @param off_speed  fell out by their speed alone
[[nodiscard]] Rescue rescue(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources,
                            const std::vector<Candidate>& failed, std::vector<Candidate> off_speed);

}  // namespace lobewise::sizing
