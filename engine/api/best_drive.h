#pragma once
// The drive that is proved when an enquiry names none.

#include "engine/sizing/size.h"

namespace lobewise::api {

/// Where the tables of a proof come from.
struct ProofTables {
  drive::TableSource rigid;  ///< for looking at many builds
  drive::TableSource proof;  ///< for the proof itself, usually with discs that bend
  drive::TableSource rough;  ///< to reject by (sizing::Search); may be empty
};

/// Sizing calls a build the best by rigid discs; the proof decides. Takes the first candidate that serves both ways;
/// when none of the first few does, the best one, to be shown with what fails.
/// @param none  why no build serves, in words
/// Errors: no build has the ratio and the size.
[[nodiscard]] Result<drive::Drive> best_drive(const enquiry::Requirement& requirement, const range::Range& range,
                                              const ProofTables& tables, Text& none);

}  // namespace lobewise::api
