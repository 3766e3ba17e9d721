#include "engine/contact/contact_law.h"

#include <algorithm>
#include <limits>

namespace lobewise::contact {
namespace {

/// Palmgren's line contact of steel, delta = 3.84e-5 F^0.9 / L^0.8 with mm and N (from memory). With metres:
/// 1e-3 * 3.84e-5 * (1e-3)^0.8 F^0.9 / L^0.8, the last factor from L[mm] = 1e3 L[m].
const double kPalmgren = 3.84e-8 * std::pow(1e-3, 0.8);

/// The log law goes on straight below w = 1.5, see `log_force`.
constexpr double kLeastW = 1.5;
const double kLeastLog = kLeastW - std::log(kLeastW);

}  // namespace

// Log law. With A = m (1-nu^2)/(pi E L), a^2 = s F, s = 4 rho/(pi E* L):
//   delta = A F (C - 2 ln F) + c F,  C = 2 ln(2h) + 2 ln(4 r_b) - nu/(1-nu) - 1 - 2 ln s
// Let F* be where the slope vanishes, 2 ln F* = C + c/A - 2, and x = F/F*:  delta = 2 A F* x (1 - ln x).
// With w = 1 - ln x:  w - ln w = 1 - ln(delta / (2 A F*)),  F = delta / (2 A w),  dF/ddelta = 1 / (2 A (w - 1)).
// F* is inversely proportional to rho, so that ln(2 A F* rho) is a constant of the stage.
ContactLaw::ContactLaw(const LawSettings& settings, const Elastic& material, double length, double roller_radius)
    : kind_(settings.kind),
      linear_(settings.kind == LawKind::linear ? 1 / settings.linear_stiffness : settings.extra_compliance),
      palmgren_(settings.multiplier * kPalmgren / std::pow(length, 0.8)) {
  const double nu = material.poisson;
  unit_ = settings.multiplier * (1 - nu * nu) / (kPi * material.modulus * length);
  const double s_per_rho = 4 / (kPi * contact_modulus(material, material) * length);
  const double bracket = 2 * std::log(2 * settings.depth) + 2 * std::log(4 * roller_radius) - nu / (1 - nu) - 1;
  const double log_peak = (bracket + linear_ / unit_) / 2 - 1 - std::log(s_per_rho);  // ln(F* rho)
  log_scale_ = std::log(2 * unit_) + log_peak;
}

double ContactLaw::approach(double force, double radius) const {
  if (force <= 0) return 0;
  if (kind_ == LawKind::linear) return linear_ * force;
  if (kind_ == LawKind::palmgren) return palmgren_ * std::pow(force, 0.9) + linear_ * force;
  const double w = 1 + log_scale_ - std::log(2 * unit_ * force * radius);
  if (w >= kLeastW) return 2 * unit_ * force * w;
  const double limit = limit_force(radius);
  return 2 * unit_ * limit * kLeastW + 2 * unit_ * (kLeastW - 1) * (force - limit);
}

double ContactLaw::limit_force(double radius) const {
  if (kind_ != LawKind::log) return std::numeric_limits<double>::infinity();
  return std::exp(1 + log_scale_ - kLeastW) / (2 * unit_ * radius);
}

ContactForce ContactLaw::force(double delta, double radius) const {
  if (kind_ == LawKind::log) return log_force(delta, radius);
  if (kind_ == LawKind::palmgren) return palmgren_force(delta);
  return {delta / linear_, 1 / linear_};
}

ContactForce ContactLaw::log_force(double delta, double radius) const {
  const double target = 1 + log_scale_ - std::log(delta * radius);
  if (target < kLeastLog) {
    const double stiffness = 1 / (2 * unit_ * (kLeastW - 1));
    const double limit = limit_force(radius);
    return {limit + (delta - 2 * unit_ * limit * kLeastW) * stiffness, stiffness};
  }
  // w - ln w = target by Newton from an asymptotic start; convex, so that it converges from any w > 1.
  const double log_target = std::log(target);
  double w = target + log_target + log_target / target;
  for (int step = 0; step < 12; ++step) {
    const double next = w * (target - 1 + std::log(w)) / (w - 1);
    const bool done = std::abs(next - w) < 1e-8 * w;  // quadratic: the next error is below 1e-16
    w = next;
    if (done) break;
  }
  return {delta / (2 * unit_ * w), 1 / (2 * unit_ * (w - 1))};
}

ContactForce ContactLaw::palmgren_force(double delta) const {
  const double y = delta / palmgren_;
  double force = y * std::cbrt(std::cbrt(y));  // y^(10/9)
  if (linear_ > 0) {
    // Concave in F: Newton from below stays below and converges; at this start both parts are at most half of delta.
    force = std::min(force, delta / linear_) * 0.46;
    for (int step = 0; step < 60; ++step) {
      const double root = palmgren_ * std::pow(force, 0.9);
      const double correction = (delta - root - linear_ * force) / (0.9 * root / force + linear_);
      force += correction;
      if (std::abs(correction) < 1e-8 * force) break;
    }
  }
  return {force, 1 / (0.9 * palmgren_ * std::pow(force, -0.1) + linear_)};
}

std::string_view law_name(LawKind kind) {
  switch (kind) {
    case LawKind::palmgren:
      return "palmgren";
    case LawKind::log:
      return "log";
    case LawKind::linear:
      return "linear";
  }
  return "";
}

}  // namespace lobewise::contact
