#pragma once
// The head of an enquiry as the command line and the server answer it.

#include <nlohmann/json_fwd.hpp>

#include "apps/store/store.h"

namespace lobewise::store {

/// docs/store.md lists the fields.
[[nodiscard]] nlohmann::json head_json(const Head& head);

}  // namespace lobewise::store
