#pragma once
// People-lifting is refused whatever machine an enquiry names and whichever of its texts says it.

#include <optional>

#include "engine/enquiry/enquiry.h"

namespace lobewise::enquiry {

/// The refusal when a text of the enquiry says, or leaves open, that people are lifted or carried; nothing otherwise. A
/// lift that may carry anything is no longer open where the machine is a hoist of which no people was answered.
[[nodiscard]] std::optional<Error> people_refused(const Enquiry& enquiry);

/// Whether its texts speak of lifting goods while its machine is no hoist, which would have asked whether anybody
/// rides.
[[nodiscard]] bool lifts_goods_unasked(const Enquiry& enquiry);

}  // namespace lobewise::enquiry
