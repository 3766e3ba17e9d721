#include "engine/tolerance/unit_sampler.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/contact/ring_gaps.h"
#include "engine/mechanism/kinematics.h"
#include "engine/uncertainty/distributions.h"

namespace lobewise::tolerance {
namespace {

/// Coordinates of a point: what a unit has in common, and the same of its twin.
enum Coordinate { kPitch, kRollerBatch, kProfileBatch, kHoleBatch, kPinBatch, kWarmth, kCoordinates };

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The lobe that stands before a roller: the whole part of (t N)/(2 pi), t = theta + f/N.
int facing_lobe(const mechanism::StageGeometry& stage, double disc_crank_angle, int roller) {
  const double lobes = stage.lobes;
  const double place = roller * lobes / stage.rollers() + disc_crank_angle / (2 * kPi);
  const auto lobe = static_cast<int>(std::floor(place - lobes * std::floor(place / lobes)));
  return std::min(lobe, stage.lobes - 1);
}

/// Turn that closes a gap. What presses already where it has hardly a lever presses the disc against its eccentric: no
/// turn frees it, and it counts with a fifth of the longest lever.
double turn_to_touch(double gap, double arm, double longest) {
  constexpr double kLeastShare = 0.2;
  return gap / (gap < 0 ? std::max(std::abs(arm), kLeastShare * longest) : std::abs(arm));
}

/// Normal deviates of parts, by a hash of their place.
class Own {
 public:
  Own(std::uint64_t seed, std::uint32_t number) : seed_(uncertainty::mixed(seed, number)) {}
  double draw(Source source, bool twin, std::uint64_t part) const {
    const std::uint64_t place = (static_cast<std::uint64_t>(source) * 2 + (twin ? 1 : 0)) << 32U;
    const std::uint64_t bits = uncertainty::mixed(seed_, place + part) >> 11U;
    return uncertainty::normal_quantile((static_cast<double>(bits) + 0.5) * 0x1.0p-53);
  }

 private:
  std::uint64_t seed_;
};

}  // namespace

UnitSampler::UnitSampler(const mechanism::StageGeometry& stage, const Widths& widths, std::uint64_t seed)
    : stage_(stage),
      widths_(widths),
      seed_(uncertainty::mixed(seed, 11)),
      points_(2 * kCoordinates, uncertainty::mixed(seed, 7) | 1U) {}

MadeUnit UnitSampler::unit(std::uint32_t number, const Sources& twin) const {
  const Own own(seed_, number);
  const double scale = 1 / (6 * widths_.capability);
  const auto is_twin = [&](Source source) { return twin[static_cast<std::size_t>(source)]; };
  const auto point = [&](Coordinate coordinate, Source source) {
    return points_.at(number, coordinate + (is_twin(source) ? kCoordinates : 0));
  };
  const auto common = [&](Coordinate coordinate, Source source, double width) {
    return width * scale * uncertainty::normal_quantile(point(coordinate, source));
  };
  std::array<std::uint64_t, kSources> drawn{};
  const auto each = [&](Source source, double width) {
    return width * scale * own.draw(source, is_twin(source), drawn[static_cast<std::size_t>(source)]++);
  };
  const auto fill = [&](std::vector<double>& list, int count, Source source, double width, double shared) {
    list.resize(at(count));
    for (double& value : list) value = shared + each(source, width);
  };
  MadeUnit unit;
  contact::PartOffsets& o = unit.offsets;
  const int Z = stage_.rollers(), M = stage_.pins;
  const double pitch = common(kPitch, Source::pitch_circle, widths_.pitch_radius);
  fill(o.roller_radial, Z, Source::roller_place, widths_.roller_position, pitch);
  fill(o.roller_tangential, Z, Source::roller_place, widths_.roller_position, 0);
  fill(o.roller_radius, Z, Source::roller_radius, widths_.roller_radius,
       common(kRollerBatch, Source::roller_radius, widths_.roller_radius_batch));
  fill(o.pin_radial, M, Source::pins, widths_.pin_position, 0);
  fill(o.pin_tangential, M, Source::pins, widths_.pin_position, 0);
  fill(o.pin_radius, M, Source::pins, widths_.pin_radius, common(kPinBatch, Source::pins, widths_.pin_radius_batch));
  const double holes = common(kHoleBatch, Source::holes, widths_.hole_radius_batch);
  const double profile = common(kProfileBatch, Source::profile, widths_.profile_batch);
  for (auto* lists : {&o.hole_radial, &o.hole_tangential, &o.hole_radius, &unit.lobe_form})
    lists->resize(at(stage_.discs));
  for (std::size_t d = 0; d < at(stage_.discs); ++d) {
    fill(o.hole_radial[d], M, Source::holes, widths_.hole_position, 0);
    fill(o.hole_tangential[d], M, Source::holes, widths_.hole_position, 0);
    fill(o.hole_radius[d], M, Source::holes, widths_.hole_radius, holes);
    fill(unit.lobe_form[d], stage_.lobes, Source::profile, widths_.profile_form, profile);
  }
  unit.warmth = point(kWarmth, Source::temperature);
  return unit;
}

void face_lobes(const mechanism::StageGeometry& stage, double crank_angle, MadeUnit& unit) {
  unit.offsets.flank.resize(at(stage.discs));
  for (int d = 0; d < stage.discs; ++d) {
    const double f = mechanism::disc_crank_angle(stage, crank_angle, d);
    std::vector<double>& flank = unit.offsets.flank[at(d)];
    flank.resize(at(stage.rollers()));
    for (int k = 0; k < stage.rollers(); ++k) flank[at(k)] = unit.lobe_form[at(d)][at(facing_lobe(stage, f, k))];
  }
}

std::array<double, kAngles> stated_angles(const mechanism::StageGeometry& stage) {
  // An odd number of turns over eight meets eight phases of the crank.
  const int turns = stage.lobes % 2 == 1 ? stage.lobes : stage.lobes + 1;
  std::array<double, kAngles> angles{};
  for (int i = 0; i < kAngles; ++i) angles[at(i)] = 2 * kPi * turns * i / kAngles;
  return angles;
}

PlayOfUnits::PlayOfUnits(const mechanism::StageGeometry& stage) : stage_(stage) {
  contact::RingGapFinder finder(stage);
  contact::RingGaps gaps(stage.rollers());
  const double K = stage.shortening();
  for (const double phi : stated_angles(stage))
    for (int d = 0; d < stage.discs; ++d) {
      const double f = mechanism::disc_crank_angle(stage, phi, d);
      finder.set_crank(f);
      finder.evaluate({}, gaps);
      for (int k = 0; k < stage.rollers(); ++k) {
        const double x = f - mechanism::roller_angle(stage, k);
        rings_.push_back({gaps.gap[at(k)], contact::roller_gap_change(K, x, 1, 0, 0),
                          contact::roller_gap_change(K, x, 0, 1, 0), gaps.arm[at(k)], facing_lobe(stage, f, k)});
      }
      const mechanism::Vec2 crank = mechanism::unit(f);
      for (int j = 0; j < stage.pins; ++j) {
        const mechanism::Vec2 pin = mechanism::pin_centre(stage, phi, j);
        const mechanism::Vec2 outward = (1 / mechanism::norm(pin)) * pin;
        pins_.push_back({mechanism::dot(outward, crank), mechanism::dot(mechanism::quarter_turn(outward), crank),
                         mechanism::cross(pin, crank)});
      }
    }
}

PlayOfUnits::Play PlayOfUnits::of(const MadeUnit& unit, double growth) const {
  constexpr double kFar = std::numeric_limits<double>::infinity();
  const contact::PartOffsets& o = unit.offsets;
  Play play{kFar, -kFar, 0};
  double most_forward = -kFar, least_forward = kFar;
  auto ring = rings_.begin();
  auto pin = pins_.begin();
  for (int angle = 0; angle < kAngles; ++angle) {
    double forward = kFar, backward = kFar;
    for (std::size_t d = 0; d < at(stage_.discs); ++d) {
      double disc[2] = {kFar, kFar}, hole[2] = {kFar, kFar};  // counter-clockwise, clockwise
      for (std::size_t k = 0; k < o.roller_radial.size(); ++k, ++ring) {
        const double gap = ring->gap + ring->radial * (o.roller_radial[k] - growth) +
                           ring->tangential * o.roller_tangential[k] - o.roller_radius[k] -
                           unit.lobe_form[d][at(ring->lobe)];
        double& least = disc[ring->arm < 0 ? 0 : 1];
        least = std::min(least, turn_to_touch(gap, ring->arm, stage_.eccentricity * stage_.lobes));
      }
      for (std::size_t j = 0; j < o.pin_radial.size(); ++j, ++pin) {
        const double gap = stage_.hole_clearance + o.hole_radius[d][j] - o.pin_radius[j] +
                           pin->along_radial * (o.pin_radial[j] - o.hole_radial[d][j]) +
                           pin->along_tangential * (o.pin_tangential[j] - o.hole_tangential[d][j]);
        double& least = hole[pin->arm < 0 ? 0 : 1];
        least = std::min(least, turn_to_touch(gap, pin->arm, stage_.pin_circle_radius));
      }
      forward = std::min(forward, disc[0] + hole[0]);
      backward = std::min(backward, disc[1] + hole[1]);
    }
    play.lost_motion = std::min(play.lost_motion, forward + backward);
    play.widest = std::max(play.widest, forward + backward);
    most_forward = std::max(most_forward, forward);
    least_forward = std::min(least_forward, forward);
  }
  play.transmission_error = most_forward - least_forward;
  return play;
}

}  // namespace lobewise::tolerance
