#pragma once
// How long the machine runs at what, how often it starts, and what happens now and then.

#include "engine/demand/demand.h"
#include "engine/demand/rainflow.h"
#include "engine/model/describe.h"

namespace lobewise::demand {

/// A day in words, for when nobody has figures.
enum class Pattern { steady, varying, batch, stop_and_go, overloads };

struct DutyBlock {
  double time_share = 0;  ///< of the running time 0 … 1
  double torque = 1;      ///< share of the running torque, negative when the load drives -10 … 10
  double speed = 1;       ///< share of the speed 0 … 3
};

struct ShockEvent {
  std::string what;
  double torque = 1;    ///< times the running torque 0 … 100
  double per_year = 0;  ///< 0 … 1e8
  bool logged = false;  ///< counted in a load log, whose torque cycles hold it already
};

/// Torque cycles of one size, counted in a log.
struct TorqueCycle {
  double range = 0;     ///< highest minus lowest torque over the running torque 0 … 20
  double mean = 0;      ///< half of highest plus lowest over the running torque -10 … 10
  double per_hour = 0;  ///< of running 0 … 1e6
};

struct Duty {
  std::optional<double> hours_per_day;       ///< [s] 60 … 86400, default 16 h
  std::optional<double> days_per_year;       ///< 1 … 366, default 250
  std::optional<double> starts_per_hour;     ///< [1/h] 0 … 3600, default by pattern
  std::optional<double> reversals_per_hour;  ///< under load [1/h] 0 … 3600, default none
  std::optional<Pattern> pattern;            ///< used when there are no blocks; default steady
  std::vector<DutyBlock> blocks;             ///< shares add up to 1
  std::vector<ShockEvent> shocks;
  std::vector<TorqueCycle> torque_cycles;  ///< of a log, starts and reversals among them; rule over those of starts
};

/// Torque and speed held for a share of the running time.
struct SpectrumBin {
  double torque = 0;  ///< [N m], negative when the load drives
  double speed = 0;   ///< [rad/s] >= 0
  double share = 0;   ///< of the running time
};

struct SpectrumShock {
  std::string what;
  double torque = 0;  ///< [N m]
  double per_year = 0;
  bool logged = false;  ///< counted in a load log
};

struct DutySpectrum {
  std::vector<SpectrumBin> bins;  ///< for bearings
  std::vector<Cycle> cycles;      ///< torque cycles, count per hour of running, for shafts and pins [N m]
  bool cycles_logged = false;     ///< counted in a log, else those of starts and reversals
  std::vector<SpectrumShock> shocks;
  double running_time = 0;                             ///< a year [s]
  double hours_per_day = 0;                            ///< [s]
  double starts_per_hour = 0, reversals_per_hour = 0;  ///< [1/h]
  std::vector<Assumption> assumptions;
  std::vector<Question> questions;
};

/// The usual distribution behind a pattern. Common practice, no source.
struct TypicalDay {
  std::vector<DutyBlock> blocks;
  double starts_per_hour = 0;
  const char* text;
};
[[nodiscard]] const TypicalDay& typical_day(Pattern pattern);

/// Spectrum of a demand. Each start is a cycle 0 … starting torque … 0, each reversal a cycle between plus and minus
/// the starting torque, each change of block is left to a log, whose torque cycles rule over all of these. Errors:
/// fields out of range, shares that do not add up to 1 within 0.1 percent.
[[nodiscard]] Result<DutySpectrum> spectrum_of(const Duty& duty, const Demand& demand);

/// (sum q n |T|^p / sum q n)^(1/p): the steady torque that wears rolling contacts as the spectrum does [N m]; p = 10/3
/// for line contact, 3 for point contact. Precondition: some bin turns. Source: Palmgren-Miner with ISO 281 exponent;
/// exact while the life modification is the same in every bin.
[[nodiscard]] double equivalent_torque(const std::vector<SpectrumBin>& bins, double exponent);
/// sum q n, time-mean speed [rad/s].
[[nodiscard]] double mean_speed(const std::vector<SpectrumBin>& bins);
/// Largest torque of bins, cycles and shocks, without sign [N m].
[[nodiscard]] double peak_torque(const DutySpectrum& spectrum);

}  // namespace lobewise::demand

namespace lobewise::model {
template <>
const std::vector<Choice>& choices_of<demand::Pattern>();
template <>
const RecordType& describe<demand::DutyBlock>();
template <>
const RecordType& describe<demand::ShockEvent>();
template <>
const RecordType& describe<demand::TorqueCycle>();
template <>
const RecordType& describe<demand::Duty>();
}  // namespace lobewise::model
