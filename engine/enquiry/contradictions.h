#pragma once
// What an enquiry says that cannot all be true, across its records. A machine finds its own contradictions; those with
// the demand known stand in requirement.cc.

#include "engine/enquiry/enquiry.h"

namespace lobewise::enquiry {

/// Contradictions of place, supply, duty, cycle and build, each with both fields named; those of plates stand in
/// present.h. Limits: physics where there is a law, else bounds that no drive passes (common practice, no source,
/// beside each).
[[nodiscard]] Errors record_contradictions(const Enquiry& enquiry);

}  // namespace lobewise::enquiry
