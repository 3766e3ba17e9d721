#pragma once
// A load log as text (CSV): header with units, then rows without end. Chunks of any size go in, rows come out; memory
// does not grow with the file. Whoever reads the file shows progress and cancels between chunks.
//
//   auto format = read_log_header(first_line, {});
//   LogRows rows(*format);
//   while (…) rows.feed(chunk, [&](double time, double value) { log.push(time, value); });
//   rows.finish(…);

#include <cstdint>
#include <limits>
#include <string>
#include <string_view>

#include "engine/base/result.h"
#include "engine/demand/load_log.h"

namespace lobewise::api {

struct LogFormat {
  enum class Time { number, clock, date };  ///< plain number with a unit; hh:mm:ss; year-month-day and hh:mm:ss
  char delimiter = ',';
  std::size_t time_column = 0, value_column = 0;
  Time time = Time::number;
  double time_factor = 1;   ///< to seconds
  double value_factor = 1;  ///< to SI
  demand::Signal signal = demand::Signal::torque;
};

/// Names of the columns to use; empty: the first one that fits.
struct LogColumns {
  std::string time, value;
};

/// Reads the first line. Units stand in brackets, after a slash or as the last word: `Torque [N·m]`, `I/A`, `Power kW`.
/// The unit tells torque, current and power apart. A time column without a unit holds clock times or dates, told apart
/// by `first_row`. Errors: no column fits (the columns found are named), a named column is missing, a unit is missing.
[[nodiscard]] Result<LogFormat> read_log_header(std::string_view line, std::string_view first_row,
                                                const LogColumns& columns);

/// Splits chunks into rows. A row that cannot be read is handed on as not-a-number, so that LoadLog counts it.
class LogRows {
 public:
  explicit LogRows(const LogFormat& format) : format_(format) {}

  /// @param sink  sink(time [s], value [SI])
  template <class Sink>
  void feed(std::string_view chunk, Sink&& sink) {
    while (!chunk.empty()) {
      const std::size_t end = chunk.find('\n');
      if (end == std::string_view::npos) {
        keep(chunk);
        return;
      }
      if (carry_.empty() && !too_long_) {
        row(chunk.substr(0, end), sink);
      } else {
        keep(chunk.substr(0, end));
        flush(sink);
      }
      chunk.remove_prefix(end + 1);
    }
  }
  /// The last line, when it has no line end.
  template <class Sink>
  void finish(Sink&& sink) {
    if (!carry_.empty() || too_long_) flush(sink);
  }

 private:
  static constexpr std::size_t kLongestLine = 1 << 16;

  void keep(std::string_view part) {
    too_long_ = too_long_ || carry_.size() + part.size() > kLongestLine;
    if (!too_long_) carry_.append(part);
  }
  template <class Sink>
  void flush(Sink&& sink) {
    if (too_long_)
      sink(std::numeric_limits<double>::quiet_NaN(), 0.0);
    else
      row(carry_, sink);
    carry_.clear();
    too_long_ = false;
  }
  template <class Sink>
  void row(std::string_view line, Sink&& sink) {
    double time = 0, value = 0;
    switch (parse(line, time, value)) {
      case Row::good:
        sink(time, value);
        break;
      case Row::bad:
        sink(std::numeric_limits<double>::quiet_NaN(), 0.0);
        break;
      case Row::empty:
        break;
    }
  }
  enum class Row { good, bad, empty };
  Row parse(std::string_view line, double& time, double& value);

  LogFormat format_;
  std::string carry_;
  bool too_long_ = false;
  double day_ = 0;  // clock times: seconds of the days that have passed
  double last_clock_ = 0;
};

}  // namespace lobewise::api
