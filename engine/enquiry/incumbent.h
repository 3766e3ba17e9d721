#pragma once
// The drive that stands at the machine: what a visitor can read, measure and be told. Everything may be left out.

#include <optional>
#include <string>
#include <vector>

#include "engine/contact/lubricant.h"
#include "engine/incumbent/compare.h"
#include "engine/incumbent/fit.h"
#include "engine/model/describe.h"

namespace lobewise::enquiry {

/// A trouble that was seen.
struct TroubleSeen {
  incumbent::Trouble what = incumbent::Trouble::noise;
  std::optional<double> per_year;  ///< how often
  std::string note;
};

struct Incumbent {
  std::optional<incumbent::UnitKind> kind;
  std::string note;
  std::optional<double> ratio;         ///< whole unit, belt included
  std::optional<double> rated_power;   ///< nameplate [W]
  std::optional<double> rated_torque;  ///< nameplate, at the output [N m]
  std::optional<double> input_speed;   ///< nameplate [rad/s]
  std::optional<double> output_speed;  ///< nameplate [rad/s]
  std::optional<int> stages;           ///< gear stages, belt not counted
  std::optional<double> belt_ratio, belt_pulley;
  std::optional<bool> through_hardened;    ///< soft gears
  std::optional<double> oil_viscosity_40;  ///< grade: kinematic viscosity at 40 degC [m2/s]
  std::optional<double> mass;              ///< nameplate, without motor [kg]
  std::optional<bool> runs_now;            ///< starts and carries the machine at this full load today; taken so
  std::optional<double> running_time;      ///< served so far [s]
  std::optional<double> age;               ///< since it was put in [s]
  std::optional<double> efficiency;        ///< stated by somebody, at full load
  std::optional<double> motor_power;       ///< of the motor on it [W]
  std::optional<double> motor_efficiency;  ///< its nameplate
  std::optional<double> oil_temperature;   ///< measured [K]
  std::vector<TroubleSeen> troubles;
  std::string trouble;  ///< in words
  std::optional<incumbent::Dimensions> dimensions;
};

/// As the incumbent's model takes it. Ratio from the nameplate speeds where it is not stated; viscosity at 60 degC from
/// the grade with the index of mineral oil. Precondition: `kind` is known.
[[nodiscard]] incumbent::UnitInService unit_in_service(const Incumbent& incumbent);

}  // namespace lobewise::enquiry
