#pragma once
// Allowable output torque of a build at an input speed: every criterion's torque, and which one rules. Steady torque
// without shocks, reversals or overhung load; those are questions of an enquiry. Theory: docs/theory/rating.md.
#include <vector>

#include "engine/base/constants.h"
#include "engine/base/working.h"
#include "engine/drive/drive.h"
#include "engine/heat/housing.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::sizing {

enum class Criterion {
  lobe_pressure,      ///< Hertz pressure of lobe and ring roller, strength::kFatigueLimitPressure
  pin_pressure,       ///< Hertz pressure of output roller and hole, the same limit
  pin_bending,        ///< of the output pin core, kPinBendingLimit
  eccentric_bearing,  ///< basic life of one eccentric bearing
  input_bearing,      ///< basic life of one input bearing
  shaft,              ///< fatigue of the keyed shaft end under steady torque, strength::kShaftSafety
  key,                ///< pressure on the hub's keyway, strength::kKeyPressureSteel
  heat,               ///< oil stays below its limit for ever
};
/// Plain words, as in `eccentric bearing life`.
[[nodiscard]] const char* words(Criterion criterion);

using strength::kPinBendingLimit;

struct RatingConditions {
  double input_speed = 0;                              ///< [rad/s] > 0
  double hours = 10000;                                ///< basic life asked of the bearings [h] > 0
  double ambient = kZeroCelsius + 20;                  ///< [K]
  double air_speed = heat::kAirSpeedMotorFan.nominal;  ///< across the housing [m/s]
};

struct CriterionTorque {
  Criterion criterion = Criterion::lobe_pressure;
  std::size_t stage = 0;  ///< of the build, from the input
  double torque = 0;      ///< at the output shaft [N m]
};

struct Rating {
  double torque = 0;                      ///< allowable, at the output shaft [N m]
  std::vector<CriterionTorque> criteria;  ///< smallest first; the first one rules
  bool too_fast = false;                  ///< input speed above what a stage stands: no torque is allowed
};

using drive::Tables;

/// Mesh tables of a build from `source`.
[[nodiscard]] Result<Tables> rating_tables(const drive::Build& build, const drive::TableSource& source);

/// Rates a build with its usual lubricant (the first one offered).
/// @param tables  one per stage
/// Errors: bearings without capacity, a lubricant without a curve.
[[nodiscard]] Result<Rating> rate(const drive::Build& build, const Tables& tables, const RatingConditions& conditions);

/// The derivation of every criterion at its own torque.
[[nodiscard]] Result<Working> rating_working(const drive::Build& build, const Tables& tables,
                                             const RatingConditions& conditions);

}  // namespace lobewise::sizing
