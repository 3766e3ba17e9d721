#include "engine/tolerance/iso_286.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace lobewise::tolerance {
namespace {

/// Limits of the steps [mm]; the mean of the first is taken from 1 mm on.
constexpr std::array<double, 22> kSteps{1,   3,   6,   10,  18,  30,   50,   80,   120,  180,  250,
                                        315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150};
/// Above this the standard's unit is I = 0.004 D + 2.1 [mm].
constexpr double kLargeSizes = 500;
constexpr std::array<double, 4> kMultiples{7, 10, 16, 25};
constexpr int kFirstGrade = 5;

}  // namespace

Result<double> grade_tolerance(double diameter, int grade) {
  Errors errors;
  const double mm = diameter * 1e3;
  if (!(mm > 0 && mm <= kSteps.back() * (1 + 1e-12)))
    errors.push_back(
        input_error("diameter", fmt::format("{:.6g} mm", mm), "must be above 0 and at most 3150 mm (ISO 286-1)."));
  const int row = grade - kFirstGrade;
  if (row < 0 || row >= static_cast<int>(kMultiples.size()))
    errors.push_back(input_error("grade", fmt::format("{}", grade), "must be 5, 6, 7 or 8."));
  if (!errors.empty()) return errors;
  std::size_t step = 1;
  constexpr double kSame = 1e-12;  // a size on a limit, in other units
  while (step + 1 < kSteps.size() && mm > kSteps[step] * (1 + kSame)) ++step;
  const double mean = std::sqrt(kSteps[step - 1] * kSteps[step]);
  const double unit = (mean > kLargeSizes ? 0.004 * mean + 2.1 : 0.45 * std::cbrt(mean) + 0.001 * mean) * 1e-6;
  return kMultiples[static_cast<std::size_t>(row)] * unit;
}

}  // namespace lobewise::tolerance
