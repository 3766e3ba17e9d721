#pragma once
// Pieces of work with enquiries that several parts of the store share.

#include "apps/store/connection.h"
#include "apps/store/draft_check.h"
#include "apps/store/records.h"

namespace lobewise::store {

/// Problems: not_found.
[[nodiscard]] Head require_head(Connection& connection, std::int64_t number);
/// Title, customer and what is searched, from the latest revision and all notes.
[[nodiscard]] Summary summary(Connection& connection, const std::string& id);
/// Writes the summary to the enquiry's line.
void refresh(Connection& connection, const std::string& id);
/// The next free number.
[[nodiscard]] std::int64_t next_number(Connection& connection);
/// @param info  number, time and person
void insert_revision(Connection& connection, const std::string& id, const RevisionInfo& info, const Draft& draft);
void insert_step(Connection& connection, const std::string& id, std::int64_t number, const Step& step);

}  // namespace lobewise::store
