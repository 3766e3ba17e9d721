#pragma once
// Files people give us. Suspect all of them: size, depth, number of values and alias bombs are limited.

#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/base/result.h"

namespace lobewise::cli {

/// A YAML or JSON file as JSON; every scalar is text, so that `400` without a unit is seen as written.
struct Document {
  nlohmann::json json;
  std::map<std::string, int> lines;  ///< field path -> line, from 1
};

/// Reads YAML (or JSON, which YAML contains). At most 1 MiB, 32 levels, 20000 values.
/// Errors: not readable, too large, not YAML (with line).
[[nodiscard]] Result<Document> read_document(const std::string& file);
/// The same for text that was read. @param name  of the text, for errors
[[nodiscard]] Result<Document> parse_document(const std::string& text, const std::string& name);

/// Reads strict JSON (ranges, cases, requests). At most 64 MiB.
[[nodiscard]] Result<nlohmann::json> read_json(const std::string& file);

/// Fills in the line of each error from its path, or the nearest parent's.
void add_lines(Errors& errors, const std::map<std::string, int>& lines);

}  // namespace lobewise::cli
