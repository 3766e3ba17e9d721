#pragma once
// What a number of trials says about a share.

namespace lobewise::uncertainty {

struct ShareInterval {
  double low = 0, high = 1;
};

/// Two-sided interval of the share of a large whole that fails, from k failures of n trials, with at least the stated
/// confidence: limits at which k failures or fewer, and k or more, have the probability (1 - confidence)/2. Clopper and
/// Pearson (Biometrika 26, 1934) by the quantiles of the beta distribution. 0 <= k <= n, n > 0, 0 < confidence < 1.
[[nodiscard]] ShareInterval share_interval(int failures, int trials, double confidence);
/// One-sided: the share is at most this.
[[nodiscard]] double share_at_most(int failures, int trials, double confidence);

/// Trials of which the largest (two_sided: smallest and largest) encloses a share of all with the stated confidence,
/// whatever their distribution (Wilks, Ann. Math. Stat. 12, 1941). 0 < share, confidence < 1.
[[nodiscard]] int wilks_trials(double share, double confidence, bool two_sided);

}  // namespace lobewise::uncertainty
