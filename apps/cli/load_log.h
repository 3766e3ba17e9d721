#pragma once
// A load log read from its file, with progress and Ctrl-C: whoever has an enquiry may give its duty by a log.

#include <nlohmann/json.hpp>
#include <string>

#include "engine/base/result.h"

namespace lobewise::cli {

struct LogFile {
  std::string file;
  std::string time_column, value_column;  ///< headings; empty: the first that fit
};

struct ExaminedLog {
  nlohmann::json result;   ///< of api::LogExamination
  bool cancelled = false;  ///< by Ctrl-C; the result is that of the rows read before
};

/// Errors: paths that begin with `log` are about the file, others about the enquiry.
[[nodiscard]] Result<ExaminedLog> examine_log(const nlohmann::json& enquiry, const LogFile& log);

/// Puts the duty of a log into an enquiry. Hours and days stay the enquiry's own, and so do shocks it tells of; blocks,
/// starts, reversals and torque cycles are those of the log.
void take_duty(const nlohmann::json& result, nlohmann::json& enquiry);

}  // namespace lobewise::cli
