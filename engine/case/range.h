#pragma once
// A figure that is known as low, nominal, high, and the small generator that draws from it. The standard library's
// distributions differ between implementations; these do not.

#include <cstdint>
#include <string>

namespace lobewise::cost {

/// What is known of a figure. What the customer states is exact and overrides everything.
struct Range {
  double low = 0, nominal = 0, high = 0;  ///< SI; low <= nominal <= high
  bool logarithmic = false;               ///< spread over orders of magnitude; low > 0 then
  std::string source;                     ///< where it comes from; `stated` when the customer said it

  [[nodiscard]] bool exact() const { return low == high; }
};

[[nodiscard]] Range stated(double value);
[[nodiscard]] Range range(double low, double nominal, double high, std::string source);
/// Triangular in the logarithm: for figures known to a factor.
[[nodiscard]] Range log_range(double low, double nominal, double high, std::string source);

/// Value below which a share u of the triangular distribution with mode `nominal` lies (in the logarithm where the
/// range says so). @param u  0 … 1.  Inverse of the distribution function, closed form.
[[nodiscard]] double quantile(const Range& range, double u);

/// SplitMix64 of Steele, Lea and Flood (OOPSLA 2014): small, fast, the same everywhere.
class Generator {
 public:
  explicit Generator(std::uint64_t seed) : state_(seed) {}
  [[nodiscard]] std::uint64_t next();
  /// Uniform in [0, 1) with 53 bits.
  [[nodiscard]] double uniform();

 private:
  std::uint64_t state_;
};

}  // namespace lobewise::cost
