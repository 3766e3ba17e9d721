#include "apps/cli/load_log.h"

#include <fmt/format.h>

#include <fstream>

#include "apps/cli/interrupt.h"
#include "apps/cli/progress.h"
#include "engine/api/log_examination.h"

namespace lobewise::cli {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kLongestHeader = 1U << 16U;

/// A line of at most 64 KiB; false at the end of the file.
bool read_line(std::istream& in, std::string& line) {
  line.clear();
  for (int c = in.get(); c != -1 && c != '\n' && line.size() < kLongestHeader; c = in.get())
    line += static_cast<char>(c);
  return !line.empty() || in.good();
}

}  // namespace

Result<ExaminedLog> examine_log(const Json& enquiry, const LogFile& log) {
  std::ifstream in(log.file, std::ios::binary | std::ios::ate);
  const double size = in ? static_cast<double>(in.tellg()) : 0;
  in.seekg(0);
  std::string header, first;
  if (!in || !read_line(in, header)) return input_error("log", log.file, "this file cannot be read, or is empty");
  const std::streampos rows_begin = in.tellg();
  read_line(in, first);
  in.clear();
  in.seekg(rows_begin);
  Result<api::LogExamination> examination =
      api::LogExamination::open(enquiry, header, first, {log.time_column, log.value_column});
  if (!examination) return examination.errors();
  ExaminedLog out;
  const Interrupt interrupt;
  {
    ProgressLine progress;
    std::string chunk(1U << 18U, '\0');
    double read = static_cast<double>(rows_begin);
    while (!(out.cancelled = Interrupt::asked()) &&
           (in.read(chunk.data(), static_cast<std::streamsize>(chunk.size())), in.gcount() > 0)) {
      examination->feed(std::string_view(chunk).substr(0, static_cast<std::size_t>(in.gcount())));
      read += static_cast<double>(in.gcount());
      progress.show(size > 0 ? read / size : 1, fmt::format("{} rows", examination->counts().rows));
    }
  }
  if (!out.cancelled) examination->finish();
  Result<Json> result = examination->result();
  if (!result) return result.errors();
  out.result = std::move(*result);
  return out;
}

void take_duty(const Json& result, Json& enquiry) {
  Json duty = result["duty"];
  const Json own = enquiry.value("duty", Json::object());
  for (const char* key : {"hours_per_day", "days_per_year"}) {
    duty.erase(key);
    if (own.contains(key)) duty[key] = own[key];
  }
  if (own.contains("shocks"))
    for (const Json& shock : own["shocks"]) duty["shocks"].push_back(shock);
  enquiry["duty"] = std::move(duty);
}

}  // namespace lobewise::cli
