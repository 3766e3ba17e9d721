#pragma once
// All figures of a drive for one set of coefficients. Cheap, so that the ranges of what is uncertain can be carried to
// every verdict by repeating it.

#include <optional>
#include <vector>

#include "engine/drive/lives.h"
#include "engine/drive/peak_case.h"
#include "engine/drive/thermal.h"
#include "engine/strength/shaft.h"
#include "engine/strength/shaft_key.h"

namespace lobewise::evidence {

struct Evaluation {
  drive::Coefficients coefficients;
  std::optional<heat::SteadyState> warm;    ///< steady state on the duty at the warmest surroundings; nothing: runaway
  std::optional<heat::PeriodicDuty> cycle;  ///< of an intermittent duty, once it repeats; nothing also on a runaway
  /// Used for life and losses: warmest of `cycle` or `warm`, or the lubricant's limit on a runaway [K].
  double oil_temperature = 0;
  drive::Running moment;      ///< full load
  drive::RunningLosses full;  ///< losses there
  drive::Lives lives;
  drive::Peaks peaks;
  drive::ColdStart cold;  ///< start at the coldest surroundings
  drive::PeakEffect working, at_start, at_jam;
  drive::PeakCase peak;           ///< every event against every part of the torque path
  strength::Reactions reactions;  ///< of the output shaft
  drive::AllowedForce allowed;    ///< radial force at the place of the load
  double shaft_safety = 0;        ///< against fatigue at the outside bearing
  double end_safety = 0;          ///< against fatigue in the keyed shaft end
  strength::KeyStress key;
  double slope = 0;  ///< at the outside bearing [rad]
};

/// @param oil_temperature  held there when given, whatever the losses [K]
[[nodiscard]] Evaluation evaluate(const drive::Drive& drive, const drive::Coefficients& coefficients,
                                  std::optional<double> oil_temperature = std::nullopt);

/// Torque at the input that turns the unloaded unit at full speed with its oil at a temperature [N m].
[[nodiscard]] double no_load_torque(const drive::Drive& drive, const Evaluation& e, double oil_temperature);

}  // namespace lobewise::evidence
