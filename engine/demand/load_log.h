#pragma once
// Examination of a recorded load, row by row in constant memory. Whoever reads the file decides about chunks, progress
// and cancelling; the result does not depend on them.

#include <array>
#include <cstdint>

#include "engine/demand/duty.h"
#include "engine/demand/histogram.h"
#include "engine/demand/measured.h"

namespace lobewise::demand {

enum class Signal { torque, current, power };

struct LogSetup {
  Signal signal = Signal::torque;          ///< torque [N m] at the driven shaft, current [A], electric power [W]
  std::optional<Nameplate> motor;          ///< required for current and power
  std::optional<double> no_load_share;     ///< no-load over rated current 0 … 0.95, default by power factor
  std::optional<double> train_efficiency;  ///< motor to driven shaft 0.2 … 1, default 0.9
  double speed = 0;                        ///< of the driven shaft while running [rad/s] > 0
  double reference_torque = 0;             ///< running torque shocks are counted against [N m] > 0
  std::optional<double> rest_level;   ///< signal below which the drive stands, default 2 % of the reference or rating
  std::optional<double> longest_gap;  ///< longer pauses between rows are no record [s], default 60
};

/// Excursions above the reference torque by the height of their peak.
inline constexpr std::array<double, 8> kShockLevels{1.5, 2, 2.5, 3, 4, 5, 7, 10};

struct LogCounts {
  std::int64_t rows = 0;            ///< taken
  std::int64_t unreadable = 0;      ///< not a finite number, or more than a million times the reference
  std::int64_t out_of_order = 0;    ///< time not after the row before
  std::int64_t gaps = 0;            ///< pauses longer than longest_gap
  std::int64_t starts = 0;          ///< rest to running
  std::int64_t reversals = 0;       ///< running with one sign to running with the other
  double running = 0, resting = 0;  ///< [s]
  double highest = 0, lowest = 0;   ///< torque at the driven shaft [N m]
};

class LoadLog {
 public:
  /// Errors: nameplate missing or impossible, speed or reference torque not positive, options out of range.
  [[nodiscard]] static Result<LoadLog> open(const LogSetup& setup);

  /// A row: the value holds from its time [s] to the next row's. Never fails; bad rows are counted and left out.
  void push(double time, double value);

  [[nodiscard]] const LogCounts& counts() const { return counts_; }
  [[nodiscard]] const TimeAtLevel& levels() const { return levels_; }
  /// Spectrum of what was pushed so far, closed as if the log ended here; the log may go on. Rates are per hour of
  /// running, shocks a year by the running time given.
  /// @param hours_per_day [s]; @param running_time a year [s]
  /// Errors: nothing was running.
  [[nodiscard]] Result<DutySpectrum> spectrum(double hours_per_day, double running_time) const;

 private:
  explicit LoadLog(const LogSetup& setup);
  [[nodiscard]] double torque_of(double value) const;
  void watch_shock(double torque);

  Signal signal_;
  TorqueFromCurrent from_current_;
  TorqueFromPower from_power_;
  double train_ = 1, speed_, reference_, rest_level_, longest_gap_;
  std::vector<Assumption> assumptions_;

  LogCounts counts_;
  TimeAtLevel levels_;
  Rainflow rainflow_;
  CycleTable cycles_;
  std::array<std::int64_t, kShockLevels.size()> shocks_{};
  std::array<double, kShockLevels.size()> shock_peaks_{};
  bool any_ = false, running_ = false;
  double last_time_ = 0, last_torque_ = 0;
  double sign_ = 0;       // of the last running torque
  double excursion_ = 0;  // peak of the excursion that goes on, 0 when none
};

}  // namespace lobewise::demand
