#pragma once
// One currency in one document: the range's prices in the currency of the enquiry.

#include <optional>

#include "engine/enquiry/requirement.h"
#include "engine/range/range.h"

namespace lobewise::api {

/// The range with its prices in the currency the enquiry counts in, by `economics.exchange_rate`; nothing where both
/// count in one already. Errors: two currencies and no rate, a rate where there are not two.
[[nodiscard]] Result<std::optional<range::Range>> in_currency_of(const enquiry::Requirement& requirement,
                                                                 const range::Range& range);

}  // namespace lobewise::api
