#pragma once
// How the figures of `shock` were found, step by step.
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// Appends the chain, the peaks of jam and start, every event with its torque at the input, the torque at which each
/// part begins to keep marks, and what comes often.
void write_shock_working(const Context& context, Working& working);

/// Appends the torque that a part bears at a static safety, at the output shaft [N m].
void write_limit(const drive::Drive& drive, const drive::PeakCase& peak, const drive::PathPart& part, bool routine,
                 Working& working);

}  // namespace lobewise::evidence
