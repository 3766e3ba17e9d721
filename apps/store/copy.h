#pragma once
// Whole stores from one place to another.

#include <string>

#include "apps/store/connection.h"
#include "apps/store/records.h"

namespace lobewise::store {

/// Takes everything out of `to` and puts a copy of `from` in. Both inside a transaction.
void copy_all(Connection& from, Connection& to);
[[nodiscard]] Counts count_all(Connection& connection);
/// Copies the file of an open store of an older format to a name beside it: `FILE.format-1`.
void copy_file_before(Connection& connection, const std::string& file, std::int64_t format);
/// Throws `input` when there is a file of that name.
void require_new_file(const std::string& file);
/// Puts a finished file under its name, on the disk for good.
void publish(const std::string& part, const std::string& file);

}  // namespace lobewise::store
