#pragma once
// The lowest temperature at which a lubricant still flows to where it is needed.

#include "engine/base/working.h"
#include "engine/range/range.h"

namespace lobewise::drive {

/// An oil is chosen so that its pour point lies this far below the coldest start [K].
/// Source: ANSI/AGMA 9005 (from memory: at least 5 K).
inline constexpr double kAbovePourPoint = 5;

struct PourPoint {
  Coefficient at;       ///< pour point; of a grease its lower temperature of use [K]
  bool stated = false;  ///< by the range; otherwise what is usual for the kind and grade
  double lowest = 0;    ///< coldest surroundings to start in: `at`, of an oil kAbovePourPoint above it [K]
};

/// As the range states it, else by base oil and viscosity: straight over the logarithm of the grade between the rows of
/// data/lubricants.csv, the first and the last row held beyond them.
[[nodiscard]] PourPoint pour_point(const range::Lubricant& fill);

}  // namespace lobewise::drive
