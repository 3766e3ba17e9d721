#pragma once
// Every event against every part of the torque path: who gives way first, and what comes too often.

#include <optional>
#include <string>
#include <vector>

#include "engine/drive/torque_path.h"

namespace lobewise::drive {

/// The hardest event for one part, of those that are no assumption of ours.
struct PartPeak {
  std::size_t part = 0, event = 0;  ///< in the lists of the peak case
  double use = 0;                   ///< torque over what the part bears in such an event
};

/// What holds only if something taken is so: an assumed event against the part that gives way first in it, or an event
/// that lifts the unit because the pull of the link points away from the base.
struct AssumedPeak {
  std::size_t event = 0, part = 0;
  double limit = 0;     ///< torque that the part bears then [N m]
  bool lifted = false;  ///< by the pull
};

/// A torque that goes from one value to another and back, so many times in the asked life.
struct Pulse {
  double peak = 0, before = 0;  ///< [N m]
  double count = 0;
  std::optional<std::size_t> event;  ///< it belongs to; none: a cycle of a log
};

[[nodiscard]] std::string label(const Pulse& pulse, const std::vector<Event>& events, const Drive& drive);

/// All pulses on one part.
struct PulseUse {
  Part part = Part::pins;
  std::size_t stage = 0;
  double exponent = 0;        ///< k of the Woehler line
  double use = 0;             ///< of what it bears in the asked life
  std::size_t hardest = 0;    ///< pulse with the largest share of the damage
  std::vector<double> sizes;  ///< of every pulse: stress of pins [Pa], pressure of a key [Pa], amplitude of the moments
                              ///< in a shaft [N m]
  double equivalent = 0;      ///< the size that does the same 10^6 times
  double mean = 0;            ///< largest mean of the moments in a shaft [N m]
};

struct PeakCase {
  Transmission passed;
  std::vector<Event> events;
  std::vector<PathPart> parts;
  std::vector<PartPeak> promised;    ///< one a part, in the order of parts
  std::vector<AssumedPeak> assumed;  ///< one an assumed event, and one for bolts that a pull may lift
  std::vector<Pulse> pulses;         ///< that count for fatigue
  std::vector<PulseUse> fatigue;     ///< empty when nothing is planned that counts
  std::size_t weakest = 0;           ///< part that marks first

  /// Torque at which the weakest link begins to keep marks [N m].
  [[nodiscard]] double marks() const { return parts[weakest].marks; }
};
/// @param cold  as of `events_of`
[[nodiscard]] PeakCase peak_case(const Drive& drive, const Peaks& peaks, const RunningLosses& full,
                                 const Coefficients& c, const ColdStart* cold = nullptr);

/// Amplitude and mean of the moments in a section of the output shaft by a pulse, sqrt(4 (K_f M)^2 + 3 (K_fs T)^2)
/// [N m]. The pull of the link bends with the torque; half a turn later the working pull bends the other way.
struct ShaftPulse {
  double K_f = 0, K_fs = 0;        ///< notch factors of the section
  double amplitude = 0, mean = 0;  ///< [N m]
};
[[nodiscard]] ShaftPulse shaft_pulse(const Drive& drive, Part section, const Pulse& pulse, double working);
/// Diameter that carries the pulses there [m].
[[nodiscard]] double pulse_diameter(const Drive& drive, Part section);
/// Share of all peaks that counts for one output pin, and the exponent of its line.
[[nodiscard]] double pin_exponent();
[[nodiscard]] double key_exponent();

/// Torque that a part bears in an event [N m].
[[nodiscard]] double borne(const PathPart& part, const Event& event);

}  // namespace lobewise::drive
