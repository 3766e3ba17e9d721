#pragma once
// A load log against the enquiry of the drive it was taken on: spectrum, cycles, starts and shocks, and the duty block
// that says the same in an enquiry. Whoever reads the file feeds it chunk by chunk.

#include "engine/api/json_io.h"
#include "engine/api/load_log_text.h"

namespace lobewise::api {

class LogExamination {
 public:
  /// The enquiry gives the running torque and speed, hours and days, and for current or power the nameplate
  /// (machine.measured, else supply.motor_power and supply.motor_speed for power).
  /// @param header, first_row  first two lines of the log; @param columns  names to use, empty: the first that fit
  /// Errors: those of the enquiry, of the header, a nameplate that is missing.
  [[nodiscard]] static Result<LogExamination> open(const Json& enquiry, std::string_view header,
                                                   std::string_view first_row, const LogColumns& columns);

  /// Text after the header line.
  void feed(std::string_view chunk) {
    rows_.feed(chunk, [this](double time, double value) { log_.push(time, value); });
  }
  void finish() {
    rows_.finish([this](double time, double value) { log_.push(time, value); });
  }
  [[nodiscard]] const demand::LogCounts& counts() const { return log_.counts(); }

  /// {counts, spectrum: [{torque, share}], equivalent, cycles: [{range, mean, per_hour}], starts_per_hour, …, shocks,
  /// assumptions, questions, duty}; shape: docs/api.md, `log`. `duty` is a duty block for the enquiry.
  /// Errors: nothing was running; a load that its motor cannot carry for so long.
  [[nodiscard]] Result<Json> result() const;

 private:
  struct Job {
    double torque = 0;         ///< running [N m]
    double hours_per_day = 0;  ///< [s]
    double running_time = 0;   ///< a year [s]
    double rated = 0;          ///< torque that the motor's rating comes to at the output [N m]; 0 where it is not known
    std::string plate;         ///< words for that rating, with the field
  };
  LogExamination(demand::LoadLog log, const LogFormat& format, Job job)
      : log_(std::move(log)), rows_(format), job_(std::move(job)) {}

  demand::LoadLog log_;
  LogRows rows_;
  Job job_;
};

}  // namespace lobewise::api
