#pragma once
// Everything that may load the torque path harder than running does, as one list. Theory: docs/theory/peaks.md.

#include <string>
#include <vector>

#include "engine/drive/shocks.h"

namespace lobewise::drive {

enum class EventKind {
  start,       ///< in the way asked for
  cold_start,  ///< the first one of a day, after a cold night
  reversal,    ///< from rest, all the play to cross
  shock,       ///< stated, or counted in a log
  load_drop,   ///< the load is gone at full torque
  jam,         ///< within the machine's own angle
  plugging,    ///< the supply is reversed at full speed
};

enum class EventSource {
  computed,  ///< from the machine and the motor
  stated,
  logged,
  assumed,  ///< nobody said that it happens, or how: what follows from it holds only if it does not
};

struct Event {
  EventKind kind = EventKind::start;
  EventSource source = EventSource::computed;
  std::size_t shock = 0;    ///< of the spectrum, for a shock
  double torque = 0;        ///< largest at the output shaft >= 0 [N m]
  double before = 0;        ///< what the shaft carried before, negative when it turns round [N m]
  double motor_torque = 0;  ///< of the motor in that moment, at its own shaft [N m]
  double per_year = 0;
  double count = 0;  ///< in the life asked for
  /// Part of the planned running, or so often that it might be: marks must stay away with the safety of running, and it
  /// counts for fatigue.
  bool routine = false;
  double input = 0;  ///< torque that the input shaft passes on over that of the output shaft
};
/// `the start`, or what was stated, in quotation marks.
[[nodiscard]] std::string label(const Event& event, const Drive& drive);
[[nodiscard]] const char* words(EventSource source);

/// What passes from the output shaft towards the motor, at full load: losses make every torque before the output larger
/// than its ratio says.
struct Transmission {
  std::vector<double> stage;  ///< torque at a stage's own output over that at the output shaft
  double input = 0;           ///< torque of the motor over that at the output shaft
  double own_share = 0;       ///< inertia of the reducer's input parts over all that turns with the motor; 0: no motor
};
[[nodiscard]] Transmission transmission_of(const Drive& drive, const RunningLosses& full, const Coefficients& c);
/// Torque of the input shaft beside the motor in an event [N m].
[[nodiscard]] double input_torque(const Event& event, const Transmission& passed);

/// The list, in a fixed order, so that samples of the same drive can be laid beside each other. A start after a night
/// is at the coldest surroundings.
/// @param passed  of full load
/// @param cold    start at the coldest surroundings; null: found here
/// Errors: none; without a motor there is neither start nor reversal.
[[nodiscard]] std::vector<Event> events_of(const Drive& drive, const Peaks& peaks, const Transmission& passed,
                                           const Coefficients& c, const ColdStart* cold = nullptr);

}  // namespace lobewise::drive
