#pragma once
// Sections of the proposal that only an enquiry with a drive in service has: the comparison, and the case.

#include <string>

#include "apps/handover/source.h"

namespace lobewise::handover {

/// What is better, in a word; the side that wins is named, not coloured.
[[nodiscard]] std::string better_word(const std::string& better);
/// Both on the same duty: words, axes, dimensions side by side, troubles. Precondition: `compare` of the source is no
/// null. Markup without the heading.
[[nodiscard]] std::string comparison(const Source& source);
/// Each case with its ranges, turning points and charts. Empty when the comparison holds no case.
[[nodiscard]] std::string business_case(const Source& source);
/// How the unit in service and the cases were computed, for the appendix.
[[nodiscard]] std::string comparison_working(const Source& source);

}  // namespace lobewise::handover
