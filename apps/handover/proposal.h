#pragma once
// The proposal: what was asked, what is offered, how that is proved, what is not known, and the complete working.

#include <map>
#include <string>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// @param pages  page of each section by its id, for the contents; empty when not known yet
[[nodiscard]] std::string proposal(const Source& source, const std::map<std::string, int>& pages);

/// The appendix of the proposal: working of every finding, candidates, sources.
[[nodiscard]] std::string appendix(const Source& source);

// ---- Parts that several sections share ----

/// Charts of a finding or another result side by side, or empty.
[[nodiscard]] std::string charts_of(const Source& source, const Json& result);
[[nodiscard]] std::string working_table(const Source& source, const Json& working);
[[nodiscard]] std::string assumption_table(const Source& source, const Json& assumptions);

}  // namespace lobewise::handover
