#pragma once
// What the commands of the main job share: an enquiry, a range, a build, a load log; the engine's door.

#include <CLI/CLI.hpp>
#include <functional>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "apps/cli/load_log.h"
#include "apps/cli/read_file.h"
#include "apps/cli/terminal.h"
#include "engine/api/registry.h"
#include "engine/api/table_shelf.h"

namespace lobewise::cli {

struct JobOptions {
  std::string file;        ///< enquiry
  std::string range_file;  ///< empty: the demo range
  std::string units;       ///< empty: the enquiry's own
  bool json = false;
  LogFile log;
  std::string frame, first_frame;
  int lobes = 0, first_lobes = 0;
  std::optional<int> samples;  ///< of what is uncertain
  std::optional<int> made;     ///< units as made, under load
};

/// The mesh tables of this process, with the user's own from before.
[[nodiscard]] const std::shared_ptr<api::TableShelf>& shelf();
/// One session for the one job of this process.
[[nodiscard]] const api::Session& session();

void add_units_and_json(CLI::App& command, JobOptions& options);
/// Enquiry, range, load log, units.
void add_enquiry(CLI::App& command, JobOptions& options);
void add_build(CLI::App& command, JobOptions& options);

/// Reads the enquiry and, when given, puts the duty of a load log into it; ends with the exit code when it cannot.
[[nodiscard]] std::optional<Document> read_enquiry(const JobOptions& options, int& code);
/// The build named by options, null when none is.
[[nodiscard]] nlohmann::json build_of(const JobOptions& options);
[[nodiscard]] Style style_of(const JobOptions& options, const nlohmann::json& result);
int refuse(Errors errors, const JobOptions& options, const std::map<std::string, int>& lines = {});
void print(const nlohmann::json& result);

/// The same with and without --json: whatever the verdicts are, a build was offered, or named, or none serves.
[[nodiscard]] int code_of_answer(const nlohmann::json& result);

/// Reads the enquiry and, when given, the range; runs a call of the main job; hands the result to `show`.
/// @returns the exit code
int main_job(const char* call, const JobOptions& options,
             const std::function<int(const nlohmann::json& result, const Style& style)>& show);

}  // namespace lobewise::cli
