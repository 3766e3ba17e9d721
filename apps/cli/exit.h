#pragma once
// How a command ends. Exit codes, also in README.md.

#include <map>
#include <string>

#include "apps/cli/terminal.h"
#include "engine/base/result.h"

namespace lobewise::cli {

constexpr int kAnswered = 0;
constexpr int kInputError = 2;
constexpr int kDataError = 3;
constexpr int kModelError = 4;
constexpr int kNothingServes = 5;
constexpr int kUsage = 64;
constexpr int kInternalError = 70;
constexpr int kCancelled = 130;

[[nodiscard]] int code_of(const Errors& errors);
/// Writes errors to standard error, and as JSON to standard output when asked for; gives the exit code.
/// @param lines  field path -> line of the file
int refuse(Errors errors, const std::string& file, bool json, const std::map<std::string, int>& lines = {});
/// Dress for a stream: colour when a terminal watches and NO_COLOR is not set.
[[nodiscard]] Style style_for(int descriptor, const std::string& units);

}  // namespace lobewise::cli
