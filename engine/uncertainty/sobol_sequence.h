#pragma once
// Scrambled Sobol' points: samples that fill a cube more evenly than random ones, the same everywhere for one seed.
//
// Sobol' (1967) with direction numbers of Joe and Kuo (SIAM J. Sci. Comput. 30, 2008) in the first 21 dimensions (from
// memory; tests check that every pair of the first ones is a net). Beyond, the next primitive polynomials with starting
// numbers of our own: each dimension alone is as even, pairs less. Nested uniform scrambling of Owen (1995): every
// digit is turned by a hash of the digits before it, so that a mean over points is unbiased and different seeds are
// independent replicates of it.

#include <cstdint>
#include <vector>

namespace lobewise::uncertainty {

/// Number that depends on all bits of both (splitmix64 of Steele, Lea and Flood, OOPSLA 2014, from memory).
[[nodiscard]] std::uint64_t mixed(std::uint64_t seed, std::uint64_t number);

class SobolSequence {
 public:
  static constexpr int kMostDimensions = 101;

  /// @param scramble  0: the sequence itself (its first point is the origin); else the seed of the scrambling
  /// Precondition: 1 <= dimensions <= kMostDimensions.
  SobolSequence(int dimensions, std::uint64_t scramble);

  /// Coordinate of a point, in (0, 1) when scrambled. Precondition: dimension in range.
  [[nodiscard]] double at(std::uint32_t point, int dimension) const;
  [[nodiscard]] int dimensions() const { return static_cast<int>(directions_.size()); }

 private:
  static constexpr int kBits = 32;
  std::vector<std::vector<std::uint32_t>> directions_;  ///< by dimension and bit of the point's number
  std::uint64_t scramble_;
};

}  // namespace lobewise::uncertainty
