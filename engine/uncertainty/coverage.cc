#include "engine/uncertainty/coverage.h"

#include <cmath>

#include "engine/uncertainty/distributions.h"

namespace lobewise::uncertainty {

ShareInterval share_interval(int failures, int trials, double confidence) {
  const double k = failures, n = trials, tail = (1 - confidence) / 2;
  ShareInterval interval;
  if (failures > 0) interval.low = beta_quantile(k, n - k + 1, tail);
  if (failures < trials) interval.high = beta_quantile(k + 1, n - k, 1 - tail);
  return interval;
}

double share_at_most(int failures, int trials, double confidence) {
  return failures < trials ? beta_quantile(failures + 1.0, static_cast<double>(trials - failures), confidence) : 1;
}

int wilks_trials(double share, double confidence, bool two_sided) {
  int n = two_sided ? 2 : 1;
  const auto missed = [&] {
    const double outside = std::pow(share, n);
    return two_sided ? n * outside / share - (n - 1) * outside : outside;
  };
  while (missed() > 1 - confidence) ++n;
  return n;
}

}  // namespace lobewise::uncertainty
