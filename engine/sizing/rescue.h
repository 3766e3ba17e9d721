#pragma once
// What can still be offered, or at least said, when no build serves as asked. Not for use outside sizing.

#include "engine/sizing/size.h"

namespace lobewise::sizing {

struct Rescue {
  std::optional<Candidate> chosen;
  std::vector<Candidate> nearest;  ///< slower and faster build, see Sizing::nearest
  Text why_none;                   ///< empty when something was chosen
};

/// @param failed     looked at, none of them serves; best first
/// @param off_speed  fell out by their speed alone
[[nodiscard]] Rescue rescue(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources,
                            const std::vector<Candidate>& failed, std::vector<Candidate> off_speed);

}  // namespace lobewise::sizing
