#pragma once
// Units as they are made, for the calls that answer them.

#include "engine/api/json_io.h"
#include "engine/api/table_shelf.h"
#include "engine/evidence/find_made.h"

namespace lobewise::api {

/// Units under load that a proof solves where the enquiry wishes for a share of units and nothing else is asked: as
/// many as show that share with 95 % confidence when none of them fails, 64 … 512.
[[nodiscard]] int units_to_show(double share);

/// Number of units in a member of a request: 0, or 16 … 2048. Errors: anything else.
[[nodiscard]] Result<int> units_wanted(const Json& input, const char* key, int otherwise);

/// Precondition: units > 0.
[[nodiscard]] Result<evidence::MadeFinding> made_of(const drive::Drive& drive, TableShelf& shelf, int units);

}  // namespace lobewise::api
