#pragma once
// Samples of everything that is not known exactly.

#include <cstdint>
#include <vector>

#include "engine/drive/lives.h"

namespace lobewise::evidence {

/// Small generator whose numbers are the same everywhere (splitmix64; Steele, Lea, Flood 2014, from memory).
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::uint64_t next();
  double uniform();  ///< in [0, 1)

 private:
  std::uint64_t state_;
};

/// The unknowns of a drive: those of every drive and the torque of this machine.
[[nodiscard]] std::vector<drive::Unknown> unknowns_of(const drive::Drive& drive);

/// Value of an unknown at quantile q: a triangle around the nominal value (of logarithms where the unknown says so).
[[nodiscard]] double value_at(const drive::Unknown& unknown, double quantile);

/// Latin hypercube: each unknown takes each of `count` equal shares of its distribution exactly once.
[[nodiscard]] std::vector<drive::Coefficients> latin_hypercube(const std::vector<drive::Unknown>& unknowns, int count,
                                                               std::uint64_t seed);

}  // namespace lobewise::evidence
