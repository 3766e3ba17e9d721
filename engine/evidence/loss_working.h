#pragma once
// Where the power goes, part by part, as steps that anybody can follow.

#include "engine/evidence/evaluation.h"

namespace lobewise::evidence {

/// Power lost at every place of every stage at full load, and the efficiency that this comes to.
void write_losses(const drive::Drive& drive, const Evaluation& e, Working& working);

}  // namespace lobewise::evidence
