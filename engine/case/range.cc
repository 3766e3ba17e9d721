#include "engine/case/range.h"

#include <cmath>
#include <utility>

namespace lobewise::cost {

Range stated(double value) { return {value, value, value, false, "stated"}; }

Range range(double low, double nominal, double high, std::string source) {
  return {low, nominal, high, false, std::move(source)};
}

Range log_range(double low, double nominal, double high, std::string source) {
  return {low, nominal, high, true, std::move(source)};
}

double quantile(const Range& r, double u) {
  if (r.exact()) {
    return r.nominal;
  }
  const double low = r.logarithmic ? std::log(r.low) : r.low;
  const double mode = r.logarithmic ? std::log(r.nominal) : r.nominal;
  const double high = r.logarithmic ? std::log(r.high) : r.high;
  const double width = high - low;
  const double rising = (mode - low) / width;
  const double x =
      u < rising ? low + std::sqrt(u * width * (mode - low)) : high - std::sqrt((1 - u) * width * (high - mode));
  return r.logarithmic ? std::exp(x) : x;
}

std::uint64_t Generator::next() {
  state_ += 0x9e3779b97f4a7c15ULL;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

double Generator::uniform() { return static_cast<double>(next() >> 11) * 0x1.0p-53; }

}  // namespace lobewise::cost
