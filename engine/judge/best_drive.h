#pragma once
// The drive that is proved when an enquiry names none.

#include "engine/sizing/size.h"

namespace lobewise::judge {

/// Where the tables of a proof come from.
struct ProofTables {
  drive::TableSource rigid;  ///< for looking at many builds
  drive::TableSource proof;  ///< for the proof itself, usually with discs that bend
  /// Discs that bend, tried before a build is refused on rigid ones; may be empty.
  drive::TableSource bending;
};

/// Why a drive was taken, in words.
struct Choice {
  Text why;   ///< why it was chosen before others; empty when the enquiry names the build
  Text none;  ///< why none serves; empty while one does
  /// None serves, but what is shown fails by so little that discs that bend, which were not tried, may carry it.
  bool may_bend = false;
};

/// Sizing calls a build the best by rigid discs; the proof decides. Takes the first candidate that serves both ways;
/// when none does, the best one, to be shown with what fails.
/// Errors: no build has the ratio and the size (path `build`).
[[nodiscard]] Result<drive::Drive> best_drive(const enquiry::Requirement& requirement, const range::Range& range,
                                              const ProofTables& tables, Choice& choice);

}  // namespace lobewise::judge
