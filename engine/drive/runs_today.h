#pragma once
// What stands there works: a drive that runs today shows what its machine asks at most, whatever had to be assumed of
// it.

#include <optional>

#include "engine/base/working.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::drive {

struct RunsToday {
  double motor_power = 0;   ///< nameplate [W]
  double motor_speed = 0;   ///< [rad/s]
  double motor_torque = 0;  ///< least on its way up, started as the supply says [N m]
  double passes = 1;        ///< what its reducer passes on at most while it starts
  double torque = 0;        ///< most that the machine can ask for hours, at the output shaft [N m]
};

/// Power that a motor gives for hours before its overload relay ends it, share of its rating. Source: IEC 60947-4-1
/// (from memory): trips at 1.2 times its setting, not at 1.05.
inline constexpr double kRelayTrips = 1.2;
/// What a worm unit passes on at most, at rest and running, and what any other gear unit does. Common practice, no
/// source.
inline constexpr double kWormPassesAtRest = 0.75, kWormPasses = 0.92, kGearsPass = 0.98;

/// The motor on the drive in service (else the power on that drive's nameplate, else the motor that is given), its
/// speed, and what it proves. Nothing without a drive in service or without any power.
[[nodiscard]] std::optional<RunsToday> runs_today(const enquiry::Requirement& requirement);

/// Lowers what was assumed, not said, of torques to what the drive of today proves: the start with the usual spare, and
/// the upper end of the torque at full load. Running torque is never lowered.
/// @param start  largest torque at the output shaft that a start can ask [N m]
void bound(enquiry::Requirement& requirement, const RunsToday& today, double start);

}  // namespace lobewise::drive
