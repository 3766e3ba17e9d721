#pragma once
// The driven machine: exactly one of several kinds.

#include <optional>

#include "engine/demand/demand.h"
#include "engine/model/describe.h"

namespace lobewise::enquiry {

/// The demand as somebody stated it.
struct StatedDemand {
  double torque = 0;                      ///< at full load [N m]
  double speed = 0;                       ///< of the driven shaft [rad/s]
  std::optional<double> starting_torque;  ///< [N m]
  std::optional<double> inertia;          ///< at the driven shaft [kg m2]
  std::optional<demand::ShockClass> shock_class;
  std::optional<bool> runs_back;  ///< the load turns the shaft back when nothing holds it
  std::optional<bool> lifts_people;
};

/// The demand as the motor in service shows it.
struct MotorReading {
  double motor_power = 0;                  ///< nameplate [W]
  double motor_speed = 0;                  ///< nameplate [rad/s]
  std::optional<double> rated_current;     ///< nameplate [A]
  std::optional<double> power_factor;      ///< nameplate
  std::optional<double> motor_efficiency;  ///< nameplate
  std::optional<double> measured_current;  ///< [A]
  std::optional<double> measured_power;    ///< electric [W]
  double speed = 0;                        ///< of the driven shaft [rad/s]
  std::optional<double> unit_efficiency;   ///< of the unit between motor and shaft
  std::optional<double> starting_torque;   ///< [N m]
  std::optional<double> inertia;           ///< at the driven shaft [kg m2]
};

struct Machine {
  std::optional<StatedDemand> stated;
  std::optional<MotorReading> motor_reading;
};

/// What the machine asks of its shaft. Errors: paths `machine.<kind>.<field>`.
[[nodiscard]] Result<demand::Demand> demand_of(const Machine& machine);

}  // namespace lobewise::enquiry

namespace lobewise::model {
template <>
const RecordType& describe<enquiry::Machine>();
}  // namespace lobewise::model
