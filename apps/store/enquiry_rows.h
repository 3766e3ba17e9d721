#pragma once
// Pieces of work with enquiries that several parts of the store share.

#include "apps/store/connection.h"
#include "apps/store/records.h"

namespace lobewise::store {

/// Problems: not_found.
[[nodiscard]] Head require_head(Connection& connection, std::int64_t number);
/// The next free number.
[[nodiscard]] std::int64_t next_number(Connection& connection);

}  // namespace lobewise::store
