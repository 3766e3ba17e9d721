#pragma once
// Warming up, quick enough to be repeated for every sample of what is not known exactly.
#include <array>
#include <cstddef>
#include <vector>

#include "engine/base/function_ref.h"
#include "engine/heat/housing.h"

namespace lobewise::heat {

/// Loss over the oil temperature, read at a few temperatures and interpolated in its logarithm: thick oil loses more by
/// about the same factor every few kelvins.
class LossCurve {
 public:
  /// @param loss  [K] -> [W]
  /// @param from, to  temperatures that it is asked for [K]; beyond them the last piece goes on
  LossCurve(FunctionRef<double(double)> loss, double from, double to);
  [[nodiscard]] double operator()(double temperature) const;

 private:
  static constexpr std::size_t kNodes = 6;
  double from_, step_;
  std::array<double, kNodes> logarithm_{};
};

struct WarmUpPoint {
  double time = 0;     ///< [s]
  double oil = 0;      ///< and what it washes [K]
  double housing = 0;  ///< [K]
};

/// As `warm_up`, both nodes from the surroundings until they settle: implicit Euler in steps of a kelvin or two, the
/// housing's heat to its surroundings taken as linear. The largest difference of the nodes comes out at most 5 % too
/// large and 2 % too small.
/// Precondition: capacities > 0. Checked by: tests/unit/heat/transient_test.cc.
[[nodiscard]] std::vector<WarmUpPoint> quick_warm_up(const Housing& housing, const LossCurve& loss);

}  // namespace lobewise::heat
