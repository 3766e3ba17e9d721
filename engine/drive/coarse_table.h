#pragma once
// Discs that bend, cheaply: for losses.

#include "engine/drive/stage_table.h"

namespace lobewise::drive {

/// As `elastic_stage_table` on a coarse mesh, at eight torques from 20 % to 300 % and five crank angles, disc included:
/// a quarter of the work. Sums of sliding and loads of bearings come within 1 % of the fine mesh (largest over every
/// stage of the demo range); peaks are not for it.
[[nodiscard]] Result<StageTable> coarse_bending_table(const range::Stage& stage, double reference_torque);

}  // namespace lobewise::drive
