#include "engine/uncertainty/distributions.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::uncertainty {
namespace {

/// Continued fraction of I_x(a, b), by Lentz's method. Converges fast for x < (a + 1) / (a + b + 2).
double beta_fraction(double a, double b, double x) {
  constexpr double kTiny = 1e-300, kEnough = 1e-15;
  constexpr int kMostTerms = 10000;
  double c = 1, d = 1 - (a + b) * x / (a + 1);
  if (std::abs(d) < kTiny) d = kTiny;
  d = 1 / d;
  double value = d;
  for (int m = 1; m < kMostTerms; ++m) {
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    double change = 1;
    for (const double term : {even, odd}) {
      d = 1 + term * d;
      c = 1 + term / c;
      if (std::abs(d) < kTiny) d = kTiny;
      if (std::abs(c) < kTiny) c = kTiny;
      d = 1 / d;
      change = c * d;
      value *= change;
    }
    if (std::abs(change - 1) < kEnough) break;
  }
  return value;
}

double normal_share(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

}  // namespace

double incomplete_beta(double a, double b, double x) {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const double front =
      std::exp(std::lgamma(a + b) - std::lgamma(a) - std::lgamma(b) + a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(a, b, x) / a;
  return 1 - front * beta_fraction(b, a, 1 - x) / b;
}

double beta_quantile(double a, double b, double share) {
  double low = 0, high = 1;
  for (int step = 0; step < 200 && high - low > 1e-16 * high; ++step) {
    const double middle = low + (high - low) / 2;
    (incomplete_beta(a, b, middle) < share ? low : high) = middle;
  }
  return low + (high - low) / 2;
}

double normal_quantile(double p) {
  if (p > 0.5) return -normal_quantile(1 - p);
  // Start within 5e-4 (Abramowitz and Stegun 26.2.23, from memory), then Newton with the second order (Halley).
  const double t = std::sqrt(-2 * std::log(p));
  double z = -(t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))));
  for (int step = 0; step < 3; ++step) {
    const double density = std::exp(-z * z / 2) / std::sqrt(2 * kPi);
    const double newton = (normal_share(z) - p) / density;
    z -= newton / (1 + newton * z / 2);
  }
  return z;
}

double student_share(double t, double degrees) {
  const double tail = 0.5 * incomplete_beta(degrees / 2, 0.5, degrees / (degrees + t * t));
  return t > 0 ? 1 - tail : tail;
}

double student_quantile(double p, double degrees) {
  if (p > 0.5) return -student_quantile(1 - p, degrees);
  if (p == 0.5) return 0;
  const double log_scale = std::lgamma((degrees + 1) / 2) - std::lgamma(degrees / 2) - 0.5 * std::log(degrees * kPi);
  double low = -1, high = 0;
  while (student_share(low, degrees) > p) {
    high = low;
    low *= 2;
  }
  double t = std::clamp(normal_quantile(p), low, high);
  for (int step = 0; step < 100; ++step) {
    const double excess = student_share(t, degrees) - p;
    (excess > 0 ? high : low) = t;
    const double density = std::exp(log_scale - (degrees + 1) / 2 * std::log1p(t * t / degrees));
    double next = t - excess / density;
    if (!(next > low && next < high)) next = low + (high - low) / 2;
    const double moved = std::abs(next - t);
    t = next;
    if (moved <= 1e-14 * std::abs(t)) break;
  }
  return t;
}

double value_at(const Distribution& d, double p) {
  switch (d.kind) {
    case Distribution::Kind::normal:
      return d.mean + d.deviation * normal_quantile(p);
    case Distribution::Kind::student:
      return d.mean + d.deviation * student_quantile(p, d.degrees);
    case Distribution::Kind::rectangular:
      break;
  }
  return d.low + (d.high - d.low) * p;
}

double estimate(const Distribution& d) {
  return d.kind == Distribution::Kind::rectangular ? d.low + (d.high - d.low) / 2 : d.mean;
}

double standard_uncertainty(const Distribution& d) {
  return d.kind == Distribution::Kind::rectangular ? (d.high - d.low) / std::sqrt(12.0) : d.deviation;
}

}  // namespace lobewise::uncertainty
