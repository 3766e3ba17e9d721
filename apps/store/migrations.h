#pragma once
// The tables of a store and how an older store becomes a newer one.

#include <string>
#include <vector>

#include "apps/store/connection.h"

namespace lobewise::store {

inline constexpr std::int64_t kFormat = 2;

struct Table {
  const char* name;
  std::vector<const char*> key;
  std::vector<const char*> columns;  ///< all of them
};
/// What a backup holds, a table after those it refers to. Sessions and attempts to sign in are of the moment.
[[nodiscard]] const std::vector<Table>& tables();

/// 0 when there is no store yet. Problems: foreign, newer.
[[nodiscard]] std::int64_t format_of(Connection& connection);
/// Brings an empty or older store to `format`; one transaction.
void migrate(Connection& connection, std::int64_t format = kFormat);

}  // namespace lobewise::store
