#pragma once
// Why one build was chosen before others, in words. Not for use outside sizing.

#include "engine/sizing/candidate.h"

namespace lobewise::sizing {

/// Why a candidate that serves was chosen.
/// @param others  looked at or not, in any order; those that fail and cost less are named
[[nodiscard]] Text why_chosen(const Candidate& chosen, const std::vector<const Candidate*>& others);

}  // namespace lobewise::sizing
