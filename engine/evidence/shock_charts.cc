#include "engine/evidence/shock_charts.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;

/// Peak of a jam over its angle, before anything slips.
class JamOverAngle {
 public:
  JamOverAngle(const Drive& drive, const Evaluation& e)
      : drive_(drive),
        pull_(e.peaks.pull_jam),
        inertia_(drive::torsion_of(drive, e.coefficients).motor_inertia),
        chain_(drive::characteristic_of(drive, e.coefficients)) {}
  [[nodiscard]] double operator()(double angle) const {
    return motion::jam_within(chain_, pull_, drive_.requirement.torque, inertia_, drive_.output_speed, angle);
  }

 private:
  const Drive& drive_;
  double pull_, inertia_;
  motion::Characteristic chain_;
};

/// A line across a chart of torques.
Series level(std::string name, double x_from, double x_to, double torque) {
  return {std::move(name), {x_from, x_to}, {torque, torque}, true};
}

/// Bars: torque at which each part marks. Lines: the hardest events.
Chart path_chart(const Context& context) {
  const drive::PeakCase& peak = context.nominal.peak;
  Chart chart{"torque_path",
              "Torque at which each part begins to keep marks, and what may happen",
              "Part",
              "Torque at the output shaft",
              Quantity::number,
              Quantity::torque,
              {},
              true,
              false,
              true};
  double index = 0;
  for (const drive::PathPart& part : peak.parts)
    if (std::isfinite(part.marks)) chart.series.push_back({label(part, context.drive), {index++}, {part.marks}, false});
  std::vector<const drive::Event*> events;
  for (const drive::Event& event : peak.events)
    // A start after a cold night that is no harder, and what does not rise above running, would only cover other lines.
    if (event.torque > context.drive.requirement.torque &&
        std::none_of(events.begin(), events.end(), [&](const auto* other) { return other->torque == event.torque; }))
      events.push_back(&event);
  std::stable_sort(events.begin(), events.end(), [](const auto* a, const auto* b) { return a->torque > b->torque; });
  constexpr std::size_t kLines = 5;
  if (events.size() > kLines) events.resize(kLines);
  for (const drive::Event* event : events)
    chart.series.push_back(level(label(*event, context.drive), 0, index - 1, event->torque));
  chart.series.push_back(level("working torque", 0, index - 1, context.drive.requirement.torque));
  return chart;
}

Chart jam_chart(const Context& context) {
  Chart chart{"jam_over_angle",
              "Peak torque of a jam over the angle in which it stops",
              "Stop angle",
              "Peak torque",
              Quantity::angle,
              Quantity::torque,
              {},
              false,
              false,
              true};
  const JamOverAngle peak(context.drive, context.nominal);
  Series series{"peak", {}, {}, false};
  for (int i = 0; i <= 40; ++i) {
    const double angle = 0.5 * kPi / 180 * std::pow(90.0, i / 40.0);  // 0.5 to 45 degrees
    series.x.push_back(angle);
    series.y.push_back(peak(angle));
  }
  const double from = series.x.front(), to = series.x.back();
  chart.series.push_back(std::move(series));
  chart.series.push_back(level("five times the working torque", from, to, 5 * context.drive.requirement.torque));
  chart.series.push_back(level("permanent marks begin", from, to, context.nominal.peak.marks()));
  return chart;
}

Chart event_chart(const Context& context) {
  Chart chart{"event_peaks",
              "Peak torque at the output of what may happen, followed in time",
              "Event",
              "Peak torque",
              Quantity::number,
              Quantity::torque,
              {},
              true,
              false,
              false};
  double index = 0;
  for (const drive::ShockRun& run : context.events)
    if (run.outcome) chart.series.push_back({run.label, {index++}, {run.peak()}, false});
  if (!chart.series.empty())
    chart.series.push_back(level("permanent marks begin", 0, index - 1, context.nominal.peak.marks()));
  return chart;
}

void add_transient(const Result<motion::Outcome>& run, const char* id, const char* title, std::vector<Chart>& out) {
  if (!run) return;
  Chart chart{id, title, "Time", "Torque at the output", Quantity::time, Quantity::torque, {}, false, false, false};
  Series s{"reducer", {}, {}, false};
  for (const motion::Sample& sample : run->samples) {
    s.x.push_back(sample.time);
    s.y.push_back(sample.link_torque[0]);
  }
  chart.series.push_back(std::move(s));
  out.push_back(std::move(chart));
}

}  // namespace

std::optional<double> jam_angle_for(const Drive& drive, const Evaluation& e, double torque) {
  const JamOverAngle peak(drive, e);
  if (peak(0) <= torque) return std::nullopt;
  double low = 0, high = 2 * kPi;
  if (peak(high) > torque) return high;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (peak(middle) > torque ? low : high) = middle;
  }
  return high;
}

std::vector<Chart> shock_charts(const Context& context) {
  std::vector<Chart> out{path_chart(context), jam_chart(context)};
  if (Chart events = event_chart(context); !events.series.empty()) out.push_back(std::move(events));
  add_transient(context.first_moments, "start_transient", "The first moments of a start", out);
  add_transient(context.jam, "jam_transient", "The jam, in time, if nothing slips", out);
  return out;
}

}  // namespace lobewise::evidence
