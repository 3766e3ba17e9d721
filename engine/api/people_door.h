#pragma once
// The refusal of people-lifting for doors that take an enquiry without computing it, such as a store.

#include <optional>

#include "engine/api/json_io.h"
#include "engine/base/result.h"

namespace lobewise::api {

/// The refusal when an enquiry, complete or not, says in any text or in an answer of its machine that people are lifted
/// or carried, or leaves it open of a lift; nothing otherwise. The customer's name is no text about the drive.
[[nodiscard]] std::optional<Error> people_refused(const Json& enquiry);

}  // namespace lobewise::api
