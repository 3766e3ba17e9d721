#include "engine/strength/system_life.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace lobewise::strength {
namespace {

// In units of ln(1/0.9).
double hazard(double time, std::span<const SystemPart> parts) {
  double sum = 0;
  for (const SystemPart& part : parts) sum += part.count * std::pow(time / part.L10, part.weibull);
  return sum;
}

}  // namespace

double system_reliability(double time, std::span<const SystemPart> parts) { return std::pow(0.9, hazard(time, parts)); }

double system_life(std::span<const SystemPart> parts) {
  // ln(hazard) over ln(time) is convex and rising, so Newton from above comes down to the root without overshoot.
  double time = std::numeric_limits<double>::infinity();
  for (const SystemPart& part : parts) time = std::min(time, part.L10);
  if (std::isinf(time)) return time;
  for (int i = 0; i < 60; ++i) {
    double sum = 0, rate = 0;
    for (const SystemPart& part : parts) {
      const double h = part.count * std::pow(time / part.L10, part.weibull);
      sum += h;
      rate += h * part.weibull;
    }
    const double step = std::log(sum) * sum / rate;
    time *= std::exp(-step);
    if (std::abs(step) < 1e-15) break;
  }
  return time;
}

}  // namespace lobewise::strength
