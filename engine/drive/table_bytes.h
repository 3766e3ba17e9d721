#pragma once
// A stage table as bytes and back, so that a program can keep what took long to solve.

#include <optional>
#include <string>
#include <string_view>

#include "engine/drive/stage_table.h"

namespace lobewise::drive {

/// Every double as it stands in memory: for the same kind of machine only.
[[nodiscard]] std::string bytes_of(const StageTable& table);
/// The same table to the last bit, or nothing when these are not the bytes of one. Reads bytes that anybody may have
/// changed: nothing outside of them is touched, and no more is allocated than they fill.
[[nodiscard]] std::optional<StageTable> table_of_bytes(std::string_view bytes);

}  // namespace lobewise::drive
