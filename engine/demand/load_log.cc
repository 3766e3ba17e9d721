#include "engine/demand/load_log.h"

#include <fmt/format.h>

#include <cmath>

namespace lobewise::demand {
namespace {

constexpr Nameplate kNoMotor{1, 1, 1, 0.8, 0.9};  // stands in where the signal is torque and neither conversion is used
constexpr double kHour = 3600;
constexpr double kLevelsPerReference = 100;  // level width at first: a hundredth of the reference torque
constexpr double kShockOver = 0.9;           // an excursion ends below this share of the lowest shock level

double no_load(const LogSetup& setup) {
  if (setup.no_load_share) return *setup.no_load_share;
  return no_load_current_share(setup.motor.value_or(kNoMotor).power_factor).nominal;
}

double rest_level(const LogSetup& setup) {
  constexpr double kShare = 0.02;
  if (setup.rest_level) return *setup.rest_level;
  if (setup.signal == Signal::torque) return kShare * setup.reference_torque;
  return kShare * (setup.signal == Signal::current ? setup.motor->current : setup.motor->power);
}

/// A recorder's fault, not a load: no drive outlives a thousandth of it. Sums and differences of more could overflow.
/// Judgement, no source.
constexpr double kMostOverReference = 1e6;

}  // namespace

Result<LoadLog> LoadLog::open(const LogSetup& setup) {
  Errors errors;
  const auto need = [&](bool fine, const char* path, double value, const char* sentence) {
    if (!fine) errors.push_back(input_error(path, format_number(value, 6), sentence));
  };
  need(setup.speed > 0 && std::isfinite(setup.speed), "log.speed", setup.speed,
       "The speed of the driven shaft must be greater than zero.");
  need(setup.reference_torque > 0 && std::isfinite(setup.reference_torque), "log.reference_torque",
       setup.reference_torque, "The running torque must be greater than zero.");
  if (setup.train_efficiency)
    need(*setup.train_efficiency >= 0.2 && *setup.train_efficiency <= 1, "log.train_efficiency",
         *setup.train_efficiency, "Efficiency of the train lies between 20 % and 100 %.");
  if (setup.no_load_share)
    need(*setup.no_load_share >= 0 && *setup.no_load_share <= 0.95, "log.no_load_share", *setup.no_load_share,
         "No-load over rated current lies between 0 and 0.95.");
  if (setup.longest_gap)
    need(*setup.longest_gap > 0, "log.longest_gap", *setup.longest_gap, "The longest gap must be greater than zero.");
  if (setup.rest_level)
    need(*setup.rest_level >= 0, "log.rest_level", *setup.rest_level, "The rest level must be zero or more.");
  if (setup.signal != Signal::torque) {
    if (!setup.motor) {
      errors.push_back(input_error("log.motor", "",
                                   "Current and power need the motor's nameplate: power, speed and, for a current, "
                                   "rated current and power factor; for power, efficiency."));
    } else {
      const Nameplate& m = *setup.motor;
      need(m.power > 0, "log.motor.power", m.power, "Rated power must be greater than zero.");
      need(m.speed > 0, "log.motor.speed", m.speed, "Rated speed must be greater than zero.");
      if (setup.signal == Signal::current) {
        need(m.current > 0, "log.motor.current", m.current, "Rated current must be greater than zero.");
        need(m.power_factor >= 0.3 && m.power_factor <= 0.97, "log.motor.power_factor", m.power_factor,
             "Power factor lies between 0.3 and 0.97.");
      } else {
        need(m.efficiency >= 0.3 && m.efficiency <= 0.99, "log.motor.efficiency", m.efficiency,
             "Motor efficiency lies between 30 % and 99 %.");
      }
    }
  }
  if (!errors.empty()) return errors;
  return LoadLog(setup);
}

LoadLog::LoadLog(const LogSetup& setup)
    : signal_(setup.signal),
      from_current_(setup.motor.value_or(kNoMotor), no_load(setup)),
      from_power_(setup.motor.value_or(kNoMotor), kFixedLossShare.nominal),
      speed_(setup.speed),
      reference_(setup.reference_torque),
      rest_level_(rest_level(setup)),
      longest_gap_(setup.longest_gap.value_or(60)),
      levels_(setup.reference_torque / kLevelsPerReference),
      rainflow_(setup.reference_torque / kLevelsPerReference),
      cycles_(setup.reference_torque / kLevelsPerReference) {
  if (signal_ == Signal::torque) return;
  constexpr Coefficient kTrain{0.90, 0.75, 0.96, "common practice, no source"};
  const double efficiency = setup.train_efficiency.value_or(kTrain.nominal);
  train_ = setup.motor->speed / setup.speed * efficiency;
  if (!setup.train_efficiency)
    assumptions_.push_back({"log.train_efficiency", "Efficiency of the present train not said, taken.", kTrain.nominal,
                            kTrain.low, kTrain.high, Quantity::share, kTrain.source});
  if (signal_ == Signal::current && !setup.no_load_share) {
    const Coefficient share = no_load_current_share(setup.motor->power_factor);
    assumptions_.push_back({"log.no_load_share", "No-load current not said, taken from the power factor.",
                            share.nominal, share.low, share.high, Quantity::share, share.source});
  }
  if (signal_ == Signal::power)
    assumptions_.push_back({"log.fixed_losses", "Share of the motor's losses that does not depend on load, taken.",
                            kFixedLossShare.nominal, kFixedLossShare.low, kFixedLossShare.high, Quantity::share,
                            kFixedLossShare.source});
}

double LoadLog::torque_of(double value) const {
  switch (signal_) {
    case Signal::torque:
      return value;
    case Signal::current:
      return train_ * from_current_(value);
    case Signal::power:
      return train_ * from_power_(value);
  }
  return 0;
}

void LoadLog::watch_shock(double torque) {
  const double height = std::fabs(torque) / reference_;
  if (height >= kShockLevels.front() || (excursion_ > 0 && height >= kShockOver * kShockLevels.front())) {
    excursion_ = std::fmax(excursion_, height);
    return;
  }
  if (excursion_ == 0) return;
  std::size_t level = kShockLevels.size() - 1;
  while (kShockLevels[level] > excursion_) --level;
  ++shocks_[level];
  shock_peaks_[level] = std::fmax(shock_peaks_[level], excursion_);
  excursion_ = 0;
}

void LoadLog::push(double time, double value) {
  const bool running = std::fabs(value) > rest_level_;
  const double torque = running ? torque_of(value) : 0;
  if (!std::isfinite(time) || !std::isfinite(value) || !(std::fabs(torque) <= kMostOverReference * reference_)) {
    ++counts_.unreadable;
    return;
  }
  if (any_) {
    const double duration = time - last_time_;
    if (!(duration > 0)) {
      ++counts_.out_of_order;
      return;
    }
    if (duration > longest_gap_) {
      ++counts_.gaps;
    } else if (running_) {
      counts_.running += duration;
      levels_.push(last_torque_, speed_, duration);
    } else {
      counts_.resting += duration;
    }
  }
  if (running) {
    if (any_ && !running_) ++counts_.starts;
    const double sign = torque > 0 ? 1 : torque < 0 ? -1 : sign_;
    if (sign_ * sign < 0) ++counts_.reversals;
    sign_ = sign;
  }
  counts_.highest = any_ ? std::fmax(counts_.highest, torque) : torque;
  counts_.lowest = any_ ? std::fmin(counts_.lowest, torque) : torque;
  rainflow_.push(torque, [this](const Cycle& cycle) { cycles_.push(cycle); });
  watch_shock(torque);
  ++counts_.rows;
  any_ = true;
  running_ = running;
  last_time_ = time;
  last_torque_ = torque;
}

Result<DutySpectrum> LoadLog::spectrum(double hours_per_day, double running_time) const {
  if (!(counts_.running > 0))
    return model_error("log", "", "The drive never ran in this log: check the column, its unit and the rest level.");
  DutySpectrum out;
  out.hours_per_day = hours_per_day;
  out.running_time = running_time;
  for (const Level& level : levels_.levels())
    out.bins.push_back({level.torque(), level.speed(), level.time / counts_.running});
  const double hours = counts_.running / kHour;
  out.starts_per_hour = static_cast<double>(counts_.starts) / hours;
  out.reversals_per_hour = static_cast<double>(counts_.reversals) / hours;
  CycleTable cycles = cycles_;
  Rainflow rest = rainflow_;
  rest.finish([&](const Cycle& cycle) { cycles.push(cycle); });
  out.cycles = cycles.cycles();
  out.cycles_logged = true;
  for (Cycle& cycle : out.cycles) cycle.count /= hours;
  LoadLog closed = *this;
  closed.watch_shock(0);
  for (std::size_t i = 0; i < kShockLevels.size(); ++i)
    if (closed.shocks_[i] > 0)
      out.shocks.push_back({fmt::format("peaks above {} times the running torque", kShockLevels[i]),
                            closed.shock_peaks_[i] * reference_,
                            static_cast<double>(closed.shocks_[i]) / counts_.running * running_time, true});
  out.assumptions = assumptions_;
  if (counts_.running < 8 * kHour)
    out.questions.push_back(
        {"log", "The log covers less than a shift: was this a usual day, and was the worst hour in it?", 0.3});
  if (signal_ != Signal::torque)
    out.questions.push_back({"log",
                             "Motor signals smooth out shocks, and the motor's own inertia takes part of each: has "
                             "anything broken or jammed?",
                             0.3});
  return out;
}

}  // namespace lobewise::demand
