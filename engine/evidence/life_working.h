#pragma once
// Steps behind the lives of parts and the share of whole units that reach a life.

#include "engine/base/working.h"
#include "engine/evidence/evaluation.h"

namespace lobewise::evidence {

/// Load, basic life, viscosity ratio, life factor and modified life of one part.
void record_life_of(const drive::Drive& drive, const Evaluation& e, const drive::PartLife& part, Working& working);

/// Loads of the output bearings under the radial force at full load [N].
void record_output_loads(const drive::Drive& drive, const drive::OutputLoads& loads, double radial, double position,
                         Working& working);

/// Share of units of every kind of part, and of whole units, that reach the life asked for.
void record_reliability(const drive::Lives& lives, Working& working);

}  // namespace lobewise::evidence
