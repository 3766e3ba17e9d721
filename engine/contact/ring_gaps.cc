#include "engine/contact/ring_gaps.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

// The arrays of the loops below never overlap. GCC asks to be told before it vectorises loops over this many arrays.
#if defined(__GNUC__) && !defined(__clang__)
#define LOBEWISE_INDEPENDENT _Pragma("GCC ivdep")
#else
#define LOBEWISE_INDEPENDENT
#endif

namespace lobewise::contact {
namespace {

using mechanism::dot;
using mechanism::turned;
using mechanism::turned_back;
using mechanism::unit;
using mechanism::Vec2;

/// Largest |x| for which the series below is exact to the last digit.
constexpr double kSeriesRange = 0.3;

/// e^{ix} - 1 without cancellation. Near: Taylor series, |x| <= kSeriesRange (first terms left out: x^12/12!, x^13/13!,
/// below 1e-16 of the value).
template <bool kNear>
inline Vec2 turn_minus_one(double x) {
  if constexpr (kNear) {
    const double s = x * x;
    const double c = s * (-1.0 / 2 + s * (1.0 / 24 + s * (-1.0 / 720 + s * (1.0 / 40320 + s * (-1.0 / 3628800)))));
    const double i =
        x + x * s * (-1.0 / 6 + s * (1.0 / 120 + s * (-1.0 / 5040 + s * (1.0 / 362880 + s * (-1.0 / 39916800)))));
    return {c, i};
  } else {
    const double half = std::sin(x / 2);
    return {-2 * half * half, std::sin(x)};
  }
}

/// Newton converges quadratically: a step of x leaves an error of about N x^2 / 2.
constexpr double kLastStep = 1e-5;
/// Below this share of its value on the trace, the second derivative of the distance says that the centre of curvature
/// is near.
constexpr double kLeastBend = 0.05;

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
  for (auto* array : {&unit_x_, &unit_y_, &ray_x_, &ray_y_, &foot_, &step_, &q_x_, &q_y_, &off_x_, &off_y_, &radial_,
                      &tangential_, &radius_error_, &away_x_, &away_y_})
    array->resize(size_of(rollers_));
  for (int k = 0; k < rollers_; ++k) {
    const Vec2 direction = unit(2 * kPi * k / rollers_);
    unit_x_[size_of(k)] = direction.x;
    unit_y_[size_of(k)] = direction.y;
  }
}

void RingGapFinder::set_offsets(const PartOffsets& offsets, std::size_t disc) {
  for (std::size_t k = 0; k < radial_.size(); ++k) {
    radial_[k] = PartOffsets::of(offsets.roller_radial, k);
    tangential_[k] = PartOffsets::of(offsets.roller_tangential, k);
    radius_error_[k] = PartOffsets::of(offsets.roller_radius, k) + PartOffsets::of(offsets.flank, disc, k);
  }
  turn_offsets();
}

void RingGapFinder::turn_offsets() {
  for (std::size_t k = 0; k < ray_x_.size(); ++k) {
    away_x_[k] = ray_x_[k] * radial_[k] - ray_y_[k] * tangential_[k];
    away_y_[k] = ray_y_[k] * radial_[k] + ray_x_[k] * tangential_[k];
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
  turn_offsets();
}

void RingGapFinder::evaluate(const DiscShift& shift, RingGaps& gaps) {
  pass(shift.u, shift.rotation + relief_, gaps);
  if (relief_ == 0) return;
  pass(shift.u, shift.rotation - relief_, second_);
  for (std::size_t k = 0; k < gaps.gap.size(); ++k) {
    if (second_.gap[k] <= gaps.gap[k]) continue;
    gaps.gap[k] = second_.gap[k];
    gaps.normal_x[k] = second_.normal_x[k];
    gaps.normal_y[k] = second_.normal_y[k];
    gaps.arm[k] = second_.arm[k];
    gaps.radius[k] = second_.radius[k];
    gaps.foot[k] = second_.foot[k];
  }
}

// In the disc frame: q = (roller - c) e^{-i psi}, w(t) the trace, D = q - w(t). At the ideal pose q0 = R e^{it} - e
// e^{iZt} and w(t) differ only by -dR e^{it}; every further change is written as e^{ix} - 1, so that gaps of nanometres
// keep all digits. The loops copy what they need to locals: only then can the compiler see that nothing overlaps, and
// vectorise them.
void RingGapFinder::pass(Vec2 u, double rotation, RingGaps& gaps) {
  const Vec2 turn =
      std::abs(rotation) <= kSeriesRange ? turn_minus_one<true>(-rotation) : turn_minus_one<false>(-rotation);
  const Vec2 u_ideal = turned_back(u, frame_);
  start(turn, u_ideal + turned(u_ideal, turn));
  constexpr int kSteps = 8;
  bool found = false;
  for (int step = 0; step < kSteps && !found; ++step) {
    if (count_ * largest(foot_) <= kSeriesRange)
      foot_step<true>(rotation);
    else
      foot_step<false>(rotation);
    found = lobes_ * largest(step_) < kLastStep;
  }
  if (!found)
    for (std::size_t k = 0; k < foot_.size(); ++k)
      if (!(lobes_ * std::abs(step_[k]) < kLastStep)) foot_[k] = nearest_foot(k, rotation);
  if (count_ * largest(foot_) <= kSeriesRange)
    finish<true>(turn, gaps);
  else
    finish<false>(turn, gaps);
}

/// Foot of a roller that stands outside the centre of curvature of a root: the place of the trace nearest to its
/// centre, half a lobe to either side. Such a gap is wide open; contacts never come here.
double RingGapFinder::nearest_foot(std::size_t k, double rotation) const {
  const Vec2 ray{ray_x_[k], ray_y_[k]};
  const Vec2 offset{off_x_[k], off_y_[k]};
  const auto distance = [&](double foot) {
    const Vec2 d = offset - cut_pitch_ * turned(ray, turn_minus_one<false>(foot)) +
                   eccentricity_ * turned(lobe_, turn_minus_one<false>(count_ * foot));
    return dot(d, d);
  };
  constexpr int kSamples = 64;
  const double spacing = kPi / (lobes_ * kSamples);
  double best = -rotation;
  for (int i = -kSamples / 2; i <= kSamples / 2; ++i)
    if (distance(i * spacing - rotation) < distance(best)) best = i * spacing - rotation;
  double low = best - spacing;
  double high = best + spacing;
  for (int step = 0; step < 100 && high - low > 1e-10 * spacing; ++step) {
    const double third = (high - low) / 3;
    if (distance(low + third) < distance(high - third))
      high -= third;
    else
      low += third;
  }
  return low + (high - low) / 2;
}

/// Roller centres in the disc frame, and the first Newton step from t itself, where everything is known:
/// w' = i (R' ray - Z lobe), w'' = Z^2 lobe - R' ray.
void RingGapFinder::start(Vec2 turn, Vec2 u) {
  const double most = kPi / (4 * lobes_);  // longest step
  const double pitch = pitch_;
  const double cut_pitch = cut_pitch_;
  const double pitch_offset = pitch_offset_;
  const double Z = count_;
  const double lobe_x = eccentricity_ * lobe_.x;
  const double lobe_y = eccentricity_ * lobe_.y;
  const double* ray_x = ray_x_.data();
  const double* ray_y = ray_y_.data();
  const double* away_x = away_x_.data();
  const double* away_y = away_y_.data();
  double* q_x = q_x_.data();
  double* q_y = q_y_.data();
  double* off_x = off_x_.data();
  double* off_y = off_y_.data();
  double* foot = foot_.data();
  const std::size_t n = ray_x_.size();
  LOBEWISE_INDEPENDENT
  for (std::size_t k = 0; k < n; ++k) {
    const double x = pitch * ray_x[k] - lobe_x + away_x[k];
    const double y = pitch * ray_y[k] - lobe_y + away_y[k];
    const double shift_x = x * turn.x - y * turn.y - u.x;
    const double shift_y = x * turn.y + y * turn.x - u.y;
    q_x[k] = x + shift_x;
    q_y[k] = y + shift_y;
    const double d_x = shift_x + away_x[k] - pitch_offset * ray_x[k];
    const double d_y = shift_y + away_y[k] - pitch_offset * ray_y[k];
    off_x[k] = d_x;
    off_y[k] = d_y;
    const double speed_x = Z * lobe_y - cut_pitch * ray_y[k];
    const double speed_y = cut_pitch * ray_x[k] - Z * lobe_x;
    const double rate_x = Z * Z * lobe_x - cut_pitch * ray_x[k];
    const double rate_y = Z * Z * lobe_y - cut_pitch * ray_y[k];
    double step =
        (speed_x * d_x + speed_y * d_y) / (speed_x * speed_x + speed_y * speed_y - (rate_x * d_x + rate_y * d_y));
    step = step > most ? most : step;
    foot[k] = step < -most ? -most : step;
  }
}

template <bool kNear>
void RingGapFinder::foot_step(double rotation) {
  const double cut_pitch = cut_pitch_;
  const double Z = count_;
  const double lobe_x = eccentricity_ * lobe_.x;
  const double lobe_y = eccentricity_ * lobe_.y;
  const double most = kPi / (4 * lobes_);        // longest step
  const double farthest = kPi / (1.5 * lobes_);  // of a foot from where the turned disc faces its roller
  const double* ray_x = ray_x_.data();
  const double* ray_y = ray_y_.data();
  const double* off_x = off_x_.data();
  const double* off_y = off_y_.data();
  double* foot = foot_.data();
  double* last = step_.data();
  const std::size_t n = ray_x_.size();
  LOBEWISE_INDEPENDENT
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 turn = turn_minus_one<kNear>(foot[k]);
    const Vec2 lobe_turn = turn_minus_one<kNear>(Z * foot[k]);
    const double a_x = cut_pitch * (ray_x[k] * turn.x - ray_y[k] * turn.y);
    const double a_y = cut_pitch * (ray_x[k] * turn.y + ray_y[k] * turn.x);
    const double b_x = lobe_x * lobe_turn.x - lobe_y * lobe_turn.y;
    const double b_y = lobe_x * lobe_turn.y + lobe_y * lobe_turn.x;
    const double d_x = off_x[k] - a_x + b_x;
    const double d_y = off_y[k] - a_y + b_y;
    const double r_x = cut_pitch * ray_x[k] + a_x;
    const double r_y = cut_pitch * ray_y[k] + a_y;
    const double l_x = Z * (lobe_x + b_x);
    const double l_y = Z * (lobe_y + b_y);
    const double speed_x = l_y - r_y;
    const double speed_y = r_x - l_x;
    const double rate_x = Z * l_x - r_x;
    const double rate_y = Z * l_y - r_y;
    const double speed = speed_x * speed_x + speed_y * speed_y;
    const double bend = speed - (rate_x * d_x + rate_y * d_y);
    double step = (speed_x * d_x + speed_y * d_y) / bend;
    step = step > most ? most : step;
    step = step < -most ? -most : step;
    foot[k] += step;
    const double astray = foot[k] + rotation;
    last[k] = bend > kLeastBend * speed && astray < farthest && astray > -farthest ? step : 1;
  }
}

template <bool kNear>
void RingGapFinder::finish(Vec2 turn, RingGaps& gaps) {
  const Vec2 ring = turned(frame_, Vec2{1 + turn.x, -turn.y});  // e^{i psi}: disc frame to ring frame
  const double cut_pitch = cut_pitch_;
  const double cut_roller = cut_roller_;
  const double eccentricity = eccentricity_;
  const double roller_offset = roller_offset_;
  const double per_cut_pitch = 1 / cut_pitch_;
  const double own_curvature = 1 / roller_;
  const double K = shortening_;
  const double Z = count_;
  const double bend = K * (Z + 1);
  const double straight = 1 + K * K * Z;
  const Vec2 lobe = lobe_;
  const double* ray_x = ray_x_.data();
  const double* ray_y = ray_y_.data();
  const double* off_x = off_x_.data();
  const double* off_y = off_y_.data();
  const double* q_x = q_x_.data();
  const double* q_y = q_y_.data();
  const double* found = foot_.data();
  const double* radius_error = radius_error_.data();
  double* gap = gaps.gap.data();
  double* normal_x = gaps.normal_x.data();
  double* normal_y = gaps.normal_y.data();
  double* arm = gaps.arm.data();
  double* radius = gaps.radius.data();
  double* foot = gaps.foot.data();
  const std::size_t n = ray_x_.size();
  LOBEWISE_INDEPENDENT
  for (std::size_t k = 0; k < n; ++k) {
    const Vec2 ray_turn = turn_minus_one<kNear>(found[k]);
    const Vec2 lobe_turn = turn_minus_one<kNear>(Z * found[k]);
    const double a_x = ray_x[k] * ray_turn.x - ray_y[k] * ray_turn.y;
    const double a_y = ray_x[k] * ray_turn.y + ray_y[k] * ray_turn.x;
    const double b_x = lobe.x * lobe_turn.x - lobe.y * lobe_turn.y;
    const double b_y = lobe.x * lobe_turn.y + lobe.y * lobe_turn.x;
    const double d_x = off_x[k] - cut_pitch * a_x + eccentricity * b_x;
    const double d_y = off_y[k] - cut_pitch * a_y + eccentricity * b_y;
    const double r_x = ray_x[k] + a_x;
    const double r_y = ray_y[k] + a_y;
    const double l_x = lobe.x + b_x;
    const double l_y = lobe.y + b_y;
    // n = i w' / |w'|, w' = i R' (ray - K' lobe)
    const double m_x = K * l_x - r_x;
    const double m_y = K * l_y - r_y;
    const double squared = m_x * m_x + m_y * m_y;  // 1 + K'^2 - 2 K' cos Nt
    const double per_length = 1 / std::sqrt(squared);
    const double n_x = m_x * per_length;
    const double n_y = m_y * per_length;
    const double k0 =
        (straight - bend * (r_x * l_x + r_y * l_y)) * per_cut_pitch * per_length * per_length * per_length;
    const double conforming = 1 - cut_roller * k0;
    gap[k] = roller_offset - radius_error[k] - (n_x * d_x + n_y * d_y);
    normal_x[k] = n_x * ring.x - n_y * ring.y;
    normal_y[k] = n_x * ring.y + n_y * ring.x;
    arm[k] = q_x[k] * n_y - q_y[k] * n_x;
    radius[k] = conforming / (own_curvature * conforming + k0);  // 1 / (1/r + k0 / (1 - r' k0))
    foot[k] = found[k];
  }
}

}  // namespace lobewise::contact
