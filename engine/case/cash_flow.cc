#include "engine/case/cash_flow.h"

#include <cmath>

#include "engine/base/root.h"

namespace lobewise::cost {

double net_present_value(double rate, std::span<const double> flows) {
  // Horner from the last year backwards.
  const double discount = 1 / (1 + rate);
  double value = 0;
  for (std::size_t t = flows.size(); t-- > 0;) {
    value = value * discount + flows[t];
  }
  return value;
}

ReturnRate internal_rate_of_return(std::span<const double> flows) {
  ReturnRate result;
  int changes = 0;
  double last = 0;
  for (const double flow : flows) {
    if (flow != 0) {
      changes += last != 0 && (flow > 0) != (last > 0) ? 1 : 0;
      last = flow;
    }
  }
  if (changes == 0) {
    return result;
  }
  result.ambiguous = changes > 1;
  const auto root_between = [&](double low, double high, double value_low, double value_high) {
    const auto value = [&](double rate) { return net_present_value(rate, flows); };
    return bracketed_root(value, low, high, value_low, value_high, 1e-12);
  };
  constexpr double kLowest = -0.99;
  constexpr double kHighest = 100;
  if (changes == 1) {  // one root at most (Descartes' rule of signs)
    const double at_low = net_present_value(kLowest, flows), at_high = net_present_value(kHighest, flows);
    if ((at_low > 0) != (at_high > 0)) result.rate = root_between(kLowest, kHighest, at_low, at_high);
    return result;
  }
  // The grid is even in ln(1 + rate), so that it is fine where rates are small.
  constexpr int kSteps = 2000;
  const double start = std::log(1 + kLowest);
  const double width = std::log(1 + kHighest) - start;
  const auto rate_at = [&](double step) { return std::exp(start + width * step / kSteps) - 1; };
  double low = rate_at(0);
  double value_low = net_present_value(low, flows);
  for (int step = 1; step <= kSteps; ++step) {
    const double high = rate_at(step);
    const double value_high = net_present_value(high, flows);
    if ((value_low > 0) != (value_high > 0)) {
      const double root = root_between(low, high, value_low, value_high);
      if (!result.rate || std::abs(root) < std::abs(*result.rate)) {
        result.rate = root;
      }
    }
    low = high;
    value_low = value_high;
  }
  return result;
}

std::optional<double> payback(double rate, std::span<const double> flows) {
  std::optional<double> turned;
  double sum = 0;
  double factor = 1;
  for (std::size_t t = 0; t < flows.size(); ++t) {
    const double flow = flows[t] * factor;
    if (sum < 0 && sum + flow >= 0) {
      turned = static_cast<double>(t) - 1 + -sum / flow;
    } else if (t == 0 && flow >= 0) {
      turned = 0;
    }
    sum += flow;
    if (sum < 0) {
      turned.reset();
    }
    factor /= 1 + rate;
  }
  return turned;
}

}  // namespace lobewise::cost
