#pragma once
// made: what one unit out of a hundred does. Costs some hundred solved meshes, so that a proof answers it when it is
// asked for, or when the enquiry wishes for a share of units.

#include "engine/drive/made_units.h"
#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"

namespace lobewise::evidence {

/// Share of units that must hold where nobody wishes for one. Common practice, no source.
inline constexpr double kUsualUnitShare = 0.95;

/// Share over independent scramblings with its 95 % interval: Student's over their means, no narrower than nothing
/// failing allows (Clopper and Pearson).
struct ShareOfUnits {
  double share = 0, low = 0, high = 1;
  std::vector<double> by_scramble;
};
/// @param holds  unit by unit, block by block of one scrambling. Precondition: not empty, full blocks.
[[nodiscard]] ShareOfUnits share_of_units(const std::vector<bool>& holds);

struct MadeFinding {
  Finding finding;
  drive::MadeUnits units;
  std::vector<bool> holds;  ///< of the loaded units
};
/// @param loaded  units to solve under load, 16 … 2048; rounded up to full blocks
/// Errors: those of `drive::made_units`.
[[nodiscard]] Result<MadeFinding> made(const drive::Drive& drive, const contact::ElasticDisc& disc, int loaded);

}  // namespace lobewise::evidence
