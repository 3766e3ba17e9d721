#include "engine/evidence/speed_charts.h"

#include <algorithm>
#include <cmath>

#include "engine/evidence/beside.h"

namespace lobewise::evidence {
namespace {

using drive::Build;
using drive::Drive;

/// Speed asked for and how far it may be off, as limits from one end to the other.
void add_limits(const Drive& drive, double from, double to, Chart& chart) {
  const double asked = drive.requirement.speed, off = drive.requirement.speed_tolerance;
  const auto line = [&](const char* name, double speed) {
    chart.series.push_back({name, {from, to}, {speed, speed}, true});
  };
  if (off > 0) line("slowest allowed", (1 - off) * asked);
  line("asked for", asked);
  if (off > 0) line("fastest allowed", (1 + off) * asked);
}

/// Builds with the same frame at the output and as many stages, the nearest in ratio, by rising ratio.
std::vector<Build> neighbours(const Build& build) {
  constexpr std::size_t kMost = 9;
  std::vector<Build> list;
  for (Build& other : drive::all_builds(*build.range))
    if (&other.frame() == &build.frame() && other.stages.size() == build.stages.size())
      list.push_back(std::move(other));
  const auto away = [&](const Build& other) { return std::abs(std::log(other.ratio() / build.ratio())); };
  std::sort(list.begin(), list.end(), [&](const Build& a, const Build& b) { return away(a) < away(b); });
  if (list.size() > kMost) list.resize(kMost);
  std::sort(list.begin(), list.end(), [](const Build& a, const Build& b) { return a.ratio() < b.ratio(); });
  return list;
}

Chart ratios_chart(const Drive& drive) {
  Chart chart{"speed_of_ratios",
              "Speed that the ratios of this frame give with this motor",
              "Ratio",
              "Speed of the driven shaft",
              Quantity::number,
              Quantity::angular_speed,
              {},
              true,
              false,
              false};
  const int poles = drive.motor ? drive.motor->poles : drive::kUsualPoles.front();
  const std::optional<double> rated = drive.motor ? std::optional(drive.motor->rated_speed) : std::nullopt;
  double index = 0;
  for (const Build& build : neighbours(drive.build)) {
    const std::string name = build.name();
    const std::string ratio = name.substr(name.find(", ") + 2);  // behind the name of the frame
    const bool this_one = name == drive.build.name();
    const double speed = this_one
                             ? drive.output_speed
                             : drive::speeds_with(drive.requirement, build.ratio(), poles, rated).input / build.ratio();
    chart.series.push_back({this_one ? ratio + ", this build" : ratio, {index++}, {speed}, false});
  }
  add_limits(drive, 0, index - 1, chart);
  return chart;
}

Chart load_chart(const Drive& drive, const Evaluation& e, const motion::MotorCurve& curve) {
  Chart chart{"speed_over_load",
              "Speed of the driven shaft over its load, by the motor's own curve",
              "Torque at the output",
              "Speed of the driven shaft",
              Quantity::torque,
              Quantity::angular_speed,
              {},
              false,
              false,
              false};
  const double torque = drive.requirement.torque, ratio = drive.build.ratio();
  constexpr int kSteps = 24;
  constexpr double kMost = 1.5;  // of the working torque
  Series series{"this motor and ratio", {}, {}, false};
  for (int i = 1; i <= kSteps; ++i) {
    const double share = kMost * i / kSteps;
    const double at_motor = share * torque / (ratio * efficiency_at(drive, e, share, e.oil_temperature));
    if (at_motor > curve.catalogue().breakdown_torque) break;
    series.x.push_back(share * torque);
    series.y.push_back(curve.speed_at(at_motor) / ratio);
  }
  add_limits(drive, 0, kMost * torque, chart);
  chart.series.insert(chart.series.begin(), std::move(series));
  chart.series.push_back(
      {"as the proof takes it: full load at the rated speed", {torque}, {drive.output_speed}, false});
  return chart;
}

}  // namespace

std::vector<Chart> speed_charts(const Drive& drive, const Evaluation& e) {
  std::vector<Chart> charts;
  if (drive.build.range != nullptr) charts.push_back(ratios_chart(drive));
  if (const Result<motion::MotorCurve> curve = drive::motor_curve_of(drive, e.coefficients))
    charts.push_back(load_chart(drive, e, *curve));
  return charts;
}

}  // namespace lobewise::evidence
