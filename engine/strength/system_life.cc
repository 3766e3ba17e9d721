#include "engine/strength/system_life.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/root.h"

namespace lobewise::strength {

double system_hazard(double time, std::span<const SystemPart> parts) {
  double sum = 0;
  for (const SystemPart& part : parts) {
    const double beyond = time / part.L10 - part.least;
    if (beyond > 0) sum += part.count * std::pow(beyond / (1 - part.least), part.weibull);
  }
  return sum;
}

double system_reliability(double time, std::span<const SystemPart> parts) {
  return std::pow(0.9, system_hazard(time, parts));
}

double life_share(double share, double weibull, double least) {
  return (1 - least) * std::pow(std::log(share) / std::log(0.9), 1 / weibull) + least;
}

double system_life(std::span<const SystemPart> parts, double share) {
  // No system outlasts its shortest part; at that part's own life for the share the hazard has reached its target.
  double longest = std::numeric_limits<double>::infinity();
  for (const SystemPart& part : parts)
    longest = std::min(longest, part.L10 * life_share(share, part.weibull, part.least));
  if (std::isinf(longest)) return longest;
  const double target = std::log(share) / std::log(0.9);
  const auto beyond = [&](double time) { return system_hazard(time, parts) - target; };
  const double at_end = beyond(longest);
  return at_end <= 0 ? longest : bracketed_root(beyond, 0, longest, -target, at_end, 1e-16 * longest);
}

}  // namespace lobewise::strength
