#pragma once
// Where the power goes, part by part, as steps that anybody can follow.

#include "engine/evidence/evaluation.h"

namespace lobewise::evidence {

/// Power lost at every place of every stage at full load; the steps whose symbols begin with `P_` add up to all of it.
void write_losses(const drive::Drive& drive, const Evaluation& e, Working& working);

}  // namespace lobewise::evidence
