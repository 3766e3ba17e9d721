#include "engine/mechanism/profile.h"

#include "engine/base/constants.h"

namespace lobewise::mechanism {
namespace {

/// Parameter t near `start` where the profile crosses the polar angle `angle`; Newton on arg p(t).
double parameter_at(const Profile& profile, double start, double angle) {
  double t = start;
  for (int step = 0; step < 20; ++step) {
    const Vec2 p = turned_back(profile.point(t), unit(angle));
    const double correction =
        std::atan2(p.y, p.x) * dot(p, p) / cross(p, turned_back(profile.point_derivative(t), unit(angle)));
    t -= correction;
    if (std::abs(correction) < 1e-15) break;
  }
  return t;
}

}  // namespace

Profile::Profile(const StageGeometry& stage)
    : radius_(stage.cut_pitch_radius()),
      roller_radius_(stage.cut_roller_radius()),
      eccentricity_(stage.eccentricity),
      shortening_(stage.eccentricity * stage.rollers() / stage.cut_pitch_radius()),
      lobes_(stage.lobes),
      rollers_(stage.rollers()) {}

BodyFlank::BodyFlank(const StageGeometry& stage)
    : profile_(stage),
      relief_(stage.flank_relief),
      root_t_(relief_ > 0 ? parameter_at(profile_, -relief_, -relief_) : 0),
      tip_t_(relief_ > 0 ? parameter_at(profile_, kPi / stage.lobes - relief_, kPi / stage.lobes - relief_)
                         : kPi / stage.lobes) {}

BodyFlank::Place BodyFlank::place(int lobe, double share) const {
  const double lobe_angle = 2 * kPi * lobe / profile_.lobes();
  // The falling flank is the mirror image of the rising one about the lobe's middle.
  if (share <= 0.5) return {lobe_angle + root_t_ + 2 * share * (tip_t_ - root_t_), relief_};
  return {lobe_angle + 2 * kPi / profile_.lobes() - (root_t_ + 2 * (1 - share) * (tip_t_ - root_t_)), -relief_};
}

Vec2 BodyFlank::point(int lobe, double share) const {
  const Place at = place(lobe, share);
  return turned(profile_.point(at.t), unit(at.turn));
}

Vec2 BodyFlank::inner_normal(int lobe, double share) const {
  const Place at = place(lobe, share);
  return turned(profile_.inner_normal(at.t), unit(at.turn));
}

double BodyFlank::curvature(int lobe, double share) const { return profile_.curvature(place(lobe, share).t); }

std::vector<Vec2> outline(const StageGeometry& stage, int points_per_lobe) {
  const BodyFlank flank(stage);
  std::vector<Vec2> points;
  points.reserve(static_cast<std::size_t>(stage.lobes) * static_cast<std::size_t>(points_per_lobe));
  for (int lobe = 0; lobe < stage.lobes; ++lobe)
    for (int i = 0; i < points_per_lobe; ++i)
      points.push_back(flank.point(lobe, static_cast<double>(i) / points_per_lobe));
  return points;
}

}  // namespace lobewise::mechanism
