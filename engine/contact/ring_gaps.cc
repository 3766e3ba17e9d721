#include "engine/contact/ring_gaps.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::contact {
namespace {

using mechanism::turned;
using mechanism::turned_back;
using mechanism::unit;
using mechanism::Vec2;

/// Largest |x| for which the series below is exact to the last digit.
constexpr double kSeriesRange = 0.3;

/// e^{ix} - 1 without cancellation. Near: Taylor series, |x| <= kSeriesRange (remainder x^13/13! < 3e-17).
template <bool kNear>
inline Vec2 turn_minus_one(double x) {
  if constexpr (kNear) {
    const double s = x * x;
    const double c = -s / 2 * (1 - s / 12 * (1 - s / 30 * (1 - s / 56 * (1 - s / 90 * (1 - s / 132)))));
    const double i = x * (1 - s / 6 * (1 - s / 20 * (1 - s / 42 * (1 - s / 72 * (1 - s / 110)))));
    return {c, i};
  } else {
    const double half = std::sin(x / 2);
    return {-2 * half * half, std::sin(x)};
  }
}

double largest(const std::vector<double>& values) {
  double most = 0;
  for (const double value : values) most = std::max(most, std::abs(value));
  return most;
}

std::size_t size_of(int count) { return static_cast<std::size_t>(count); }

}  // namespace

RingGaps::RingGaps(int rollers)
    : gap(size_of(rollers)),
      normal_x(size_of(rollers)),
      normal_y(size_of(rollers)),
      arm(size_of(rollers)),
      radius(size_of(rollers)),
      foot(size_of(rollers)) {}

RingGapFinder::RingGapFinder(const mechanism::StageGeometry& stage)
    : rollers_(stage.rollers()),
      lobes_(stage.lobes),
      count_(stage.rollers()),
      pitch_(stage.pitch_radius),
      eccentricity_(stage.eccentricity),
      roller_(stage.roller_radius),
      cut_pitch_(stage.cut_pitch_radius()),
      roller_offset_(stage.roller_offset),
      cut_roller_(stage.cut_roller_radius()),
      shortening_(stage.eccentricity * stage.rollers() / stage.cut_pitch_radius()),
      relief_(stage.flank_relief),
      pitch_offset_(stage.radius_offset),
      second_(stage.rollers()) {
  for (auto* array : {&unit_x_, &unit_y_, &ray_x_, &ray_y_, &foot_, &step_, &q_x_, &q_y_, &off_x_, &off_y_})
    array->resize(size_of(rollers_));
  for (int k = 0; k < rollers_; ++k) {
    const Vec2 direction = unit(2 * kPi * k / rollers_);
    unit_x_[size_of(k)] = direction.x;
    unit_y_[size_of(k)] = direction.y;
  }
}

void RingGapFinder::set_crank(double disc_crank_angle) {
  const Vec2 back = unit(disc_crank_angle / lobes_);  // e^{-i psi}
  frame_ = {back.x, -back.y};
  lobe_ = turned(unit(disc_crank_angle), back);  // Z t = Z th + Z f/N = f + f/N modulo a turn
  for (std::size_t k = 0; k < unit_x_.size(); ++k) {
    ray_x_[k] = unit_x_[k] * back.x - unit_y_[k] * back.y;
    ray_y_[k] = unit_x_[k] * back.y + unit_y_[k] * back.x;
  }
}

bool RingGapFinder::evaluate(const DiscShift& shift, RingGaps& gaps) {
  if (relief_ == 0) return pass(shift.u, shift.rotation, gaps);
  if (!pass(shift.u, shift.rotation + relief_, gaps) || !pass(shift.u, shift.rotation - relief_, second_)) return false;
  for (std::size_t k = 0; k < gaps.gap.size(); ++k) {
    if (second_.gap[k] <= gaps.gap[k]) continue;
    gaps.gap[k] = second_.gap[k];
    gaps.normal_x[k] = second_.normal_x[k];
    gaps.normal_y[k] = second_.normal_y[k];
    gaps.arm[k] = second_.arm[k];
    gaps.radius[k] = second_.radius[k];
    gaps.foot[k] = second_.foot[k];
  }
  return true;
}

// In the disc frame: q = (roller - c) e^{-i psi}, w(t) the trace, D = q - w(t). At the ideal pose q0 = R e^{it} - e
// e^{iZt} and w(t) differ only by -dR e^{it}; every further change is written as e^{ix} - 1, so that gaps of nanometres
// keep all digits.
bool RingGapFinder::pass(Vec2 u, double rotation, RingGaps& gaps) {
  const Vec2 turn =
      std::abs(rotation) <= kSeriesRange ? turn_minus_one<true>(-rotation) : turn_minus_one<false>(-rotation);
  const Vec2 u_disc = turned_back(u, frame_) + turned(turned_back(u, frame_), turn);
  const std::size_t n = ray_x_.size();
  const double lobe_x = eccentricity_ * lobe_.x;
  const double lobe_y = eccentricity_ * lobe_.y;
  for (std::size_t k = 0; k < n; ++k) {
    const double x = pitch_ * ray_x_[k] - lobe_x;
    const double y = pitch_ * ray_y_[k] - lobe_y;
    const double shift_x = x * turn.x - y * turn.y - u_disc.x;
    const double shift_y = x * turn.y + y * turn.x - u_disc.y;
    q_x_[k] = x + shift_x;
    q_y_[k] = y + shift_y;
    off_x_[k] = shift_x - pitch_offset_ * ray_x_[k];
    off_y_[k] = shift_y - pitch_offset_ * ray_y_[k];
    // First Newton step from t itself: w' = i (R' ray - Z lobe), w'' = Z^2 lobe - R' ray, all known.
    const double d_x = -(cut_pitch_ * ray_y_[k] - count_ * lobe_y);
    const double d_y = cut_pitch_ * ray_x_[k] - count_ * lobe_x;
    const double dd_x = count_ * count_ * lobe_x - cut_pitch_ * ray_x_[k];
    const double dd_y = count_ * count_ * lobe_y - cut_pitch_ * ray_y_[k];
    const double along = d_x * off_x_[k] + d_y * off_y_[k];
    foot_[k] = along / (d_x * d_x + d_y * d_y - (dd_x * off_x_[k] + dd_y * off_y_[k]));
  }
  // Newton converges quadratically: a step of x leaves an error of about N x^2 / 2.
  constexpr double kLastStep = 1e-5;
  constexpr int kSteps = 30;
  bool found = false;
  for (int step = 0; step < kSteps && !found; ++step) {
    const bool near = count_ * largest(foot_) <= kSeriesRange;
    found = lobes_ * (near ? foot_step<true>() : foot_step<false>()) < kLastStep;
  }
  if (count_ * largest(foot_) <= kSeriesRange)
    finish<true>(rotation, gaps);
  else
    finish<false>(rotation, gaps);
  return found;
}

template <bool kNear>
double RingGapFinder::foot_step() {
  const std::size_t n = ray_x_.size();
  const double most = kPi / (4 * lobes_);
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 turn = turn_minus_one<kNear>(foot_[k]);
    const Vec2 lobe_turn = turn_minus_one<kNear>(count_ * foot_[k]);
    const double a_x = cut_pitch_ * (ray_x_[k] * turn.x - ray_y_[k] * turn.y);
    const double a_y = cut_pitch_ * (ray_x_[k] * turn.y + ray_y_[k] * turn.x);
    const double b_x = eccentricity_ * (lobe_.x * lobe_turn.x - lobe_.y * lobe_turn.y);
    const double b_y = eccentricity_ * (lobe_.x * lobe_turn.y + lobe_.y * lobe_turn.x);
    const double off_x = off_x_[k] - a_x + b_x;
    const double off_y = off_y_[k] - a_y + b_y;
    const double ray_x = cut_pitch_ * ray_x_[k] + a_x;
    const double ray_y = cut_pitch_ * ray_y_[k] + a_y;
    const double lobe_x = eccentricity_ * lobe_.x + b_x;
    const double lobe_y = eccentricity_ * lobe_.y + b_y;
    const double d_x = -(ray_y - count_ * lobe_y);
    const double d_y = ray_x - count_ * lobe_x;
    const double dd_x = count_ * count_ * lobe_x - ray_x;
    const double dd_y = count_ * count_ * lobe_y - ray_y;
    const double along = d_x * off_x + d_y * off_y;
    const double step = along / (d_x * d_x + d_y * d_y - (dd_x * off_x + dd_y * off_y));
    step_[k] = std::min(std::max(step, -most), most);
    foot_[k] += step_[k];
  }
  return largest(step_);
}

template <bool kNear>
void RingGapFinder::finish(double rotation, RingGaps& gaps) {
  const Vec2 ring = turned(frame_, unit(rotation));  // e^{i psi}: disc frame to ring frame
  const double bend = shortening_ * (count_ + 1);
  const double straight = 1 + shortening_ * shortening_ * count_;
  const std::size_t n = ray_x_.size();
  double* __restrict gap = gaps.gap.data();
  double* __restrict normal_x = gaps.normal_x.data();
  double* __restrict normal_y = gaps.normal_y.data();
  double* __restrict arm = gaps.arm.data();
  double* __restrict radius = gaps.radius.data();
  double* __restrict foot = gaps.foot.data();
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 turn = turn_minus_one<kNear>(foot_[k]);
    const Vec2 lobe_turn = turn_minus_one<kNear>(count_ * foot_[k]);
    const double a_x = ray_x_[k] * turn.x - ray_y_[k] * turn.y;
    const double a_y = ray_x_[k] * turn.y + ray_y_[k] * turn.x;
    const double b_x = lobe_.x * lobe_turn.x - lobe_.y * lobe_turn.y;
    const double b_y = lobe_.x * lobe_turn.y + lobe_.y * lobe_turn.x;
    const double off_x = off_x_[k] - cut_pitch_ * a_x + eccentricity_ * b_x;
    const double off_y = off_y_[k] - cut_pitch_ * a_y + eccentricity_ * b_y;
    const double ray_x = ray_x_[k] + a_x;
    const double ray_y = ray_y_[k] + a_y;
    const double lobe_x = lobe_.x + b_x;
    const double lobe_y = lobe_.y + b_y;
    // n = i w' / |w'|, w' = i R' (ray - K' lobe)
    const double m_x = shortening_ * lobe_x - ray_x;
    const double m_y = shortening_ * lobe_y - ray_y;
    const double squared = m_x * m_x + m_y * m_y;  // 1 + K'^2 - 2 K' cos Nt
    const double length = std::sqrt(squared);
    const double n_x = m_x / length;
    const double n_y = m_y / length;
    const double cos_nt = ray_x * lobe_x + ray_y * lobe_y;
    const double k0 = (straight - bend * cos_nt) / (cut_pitch_ * squared * length);
    gap[k] = roller_offset_ - (n_x * off_x + n_y * off_y);
    normal_x[k] = n_x * ring.x - n_y * ring.y;
    normal_y[k] = n_x * ring.y + n_y * ring.x;
    arm[k] = q_x_[k] * n_y - q_y_[k] * n_x;
    radius[k] = 1 / (1 / roller_ + k0 / (1 - cut_roller_ * k0));
    foot[k] = foot_[k];
  }
}

}  // namespace lobewise::contact
