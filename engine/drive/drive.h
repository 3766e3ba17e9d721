#pragma once
// A build on this machine: everything that later questions share, put together once.

#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "engine/drive/build.h"
#include "engine/drive/coefficients.h"
#include "engine/drive/losses_model.h"
#include "engine/drive/motor_choice.h"
#include "engine/drive/runs_today.h"
#include "engine/drive/stage_table.h"
#include "engine/enquiry/requirement.h"
#include "engine/strength/bearing_life.h"

namespace lobewise::drive {

using Tables = std::vector<std::shared_ptr<const StageTable>>;

/// Where stage tables come from; the caller may keep them (they cost most of a proof).
using TableSource = std::function<Result<std::shared_ptr<const StageTable>>(const range::Stage& stage)>;

struct StageBearings {
  strength::RollingBearing eccentric, input;
};

struct Drive {
  enquiry::Requirement requirement;
  Build build;
  Tables tables;                        ///< one per stage
  std::vector<StageBearings> bearings;  ///< one per stage
  strength::RollingBearing output_inside, output_outside;
  Oil oil;
  std::optional<Motor> motor;
  Errors motor_errors;             ///< why there is no motor
  std::optional<RunsToday> today;  ///< what the drive that stands there proves; its assumed torques are bounded by it
  double output_speed = 0;         ///< at full load with this motor and ratio [rad/s]
  double input_speed = 0;          ///< [rad/s]
  double speed_error = 0;          ///< share of the speed asked for
  double radial_force = 0;         ///< on the output shaft [N]
  double radial_position = 0;      ///< from the outside bearing towards the load [m]

  /// Duty block at this build's real speed.
  [[nodiscard]] Running running(const enquiry::Block& block, const Coefficients& c) const;
};

/// Speeds that a build gives with the motor this job would get.
struct Speeds {
  int poles = 4;
  double input = 0;  ///< motor at full load [rad/s]
  double error = 0;  ///< of the output speed, share of the speed asked for
};
/// A motor that stands has its nameplate speed; an inverter turns it towards the speed asked for, within its range.
/// @param rated_speed  of the motor when it is chosen already, else what is typical of its power [rad/s]
[[nodiscard]] Speeds speeds_with(const enquiry::Requirement& requirement, double ratio, int poles,
                                 std::optional<double> rated_speed = std::nullopt);
/// Poles of motors, the usual ones first.
inline constexpr std::array<int, 4> kUsualPoles{4, 6, 2, 8};

/// Torque of every stage when a build delivers `torque`, its losses guessed: at which its discs share [N m].
[[nodiscard]] std::vector<double> torques_at_stages(const Build& build, double torque);

/// The usual fill of the frame, a motor that carries the load and starts it in a hall at kNormalTemperature; a drive
/// that stands there bounds the torques that were assumed. Cold mornings choose nothing: findings judge them.
/// Errors: bearings without capacities, geometry that cannot be solved, oil without a curve.
[[nodiscard]] Result<Drive> assemble(const enquiry::Requirement& requirement, const Build& build,
                                     const TableSource& tables);

}  // namespace lobewise::drive
