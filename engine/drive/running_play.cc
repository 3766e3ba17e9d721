#include "engine/drive/running_play.h"

#include <algorithm>
#include <limits>

#include "engine/drive/cold.h"
#include "engine/drive/thermal.h"

namespace lobewise::drive {
namespace {

/// Breakdown over rated torque where no motor is known. Common practice, no source.
constexpr double kBreakdown = 3;

/// Most power that can be lost in the unit [W].
double most_power(const Drive& drive) {
  const double rated =
      drive.motor ? drive.motor->rated_torque * drive.input_speed : drive.requirement.torque * drive.requirement.speed;
  const double breakdown = drive.motor ? drive.motor->breakdown : kBreakdown;
  return std::max(1.0, breakdown) * rated;
}

}  // namespace

double radius_offset_at(const range::Stage& stage, const BodyTemperatures& at, const Coefficients& c) {
  const double disc = range::expansion(range::Material::steel).nominal;
  const double ring = range::ring_expansion(stage).nominal + c.ring_expansion_shift;
  return contact::warm_radius_offset<double>(stage.geometry.radius_offset, stage.geometry.pitch_radius, disc, at.disc,
                                             ring, at.ring, contact::kDrawingTemperature);
}

double least_play(const Build& build, const BodyTemperatures& at, const Coefficients& c) {
  double least = std::numeric_limits<double>::infinity();
  for (const StageRef& ref : build.stages)
    least = std::min(least, contact::least_play(ref.stage->geometry, radius_offset_at(*ref.stage, at, c)).least());
  return least;
}

std::size_t tightest_stage(const Build& build, const BodyTemperatures& at, const Coefficients& c) {
  const auto play = [&](const StageRef& ref) {
    return contact::least_play(ref.stage->geometry, radius_offset_at(*ref.stage, at, c)).least();
  };
  const auto found = std::min_element(build.stages.begin(), build.stages.end(),
                                      [&](const StageRef& a, const StageRef& b) { return play(a) < play(b); });
  return static_cast<std::size_t>(found - build.stages.begin());
}

BodyTemperatures bodies(double oil, double housing, const Coefficients& c) {
  return {oil + c.disc_excess * (oil - housing), housing};
}

std::vector<heat::WarmUpPoint> cold_warm_up(const Drive& drive, double hottest, const Coefficients& c) {
  const double from = coldest(drive, c);
  const Running full = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  const double most = most_power(drive);
  const auto loss = [&](double oil) {
    return std::min(most, running_losses(drive.build, drive.tables, drive.oil, full, oil, c).places.total());
  };
  return heat::quick_warm_up(housing_of(drive, from, c), heat::LossCurve(loss, from, std::max(hottest, from + 30)));
}

}  // namespace lobewise::drive
