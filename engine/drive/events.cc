#include "engine/drive/events.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/strength/peak_torque.h"
#include "engine/strength/pulses.h"

namespace lobewise::drive {
namespace {

constexpr double kHour = 3600;

}  // namespace

std::string label(const Event& event, const Drive& drive) {
  switch (event.kind) {
    case EventKind::start:
      return "the start";
    case EventKind::cold_start:
      return "the start after a cold night";
    case EventKind::reversal:
      return "the reversal from rest";
    case EventKind::shock: {
      const std::string& what = drive.requirement.spectrum.shocks[event.shock].what;
      return what.empty() ? std::string("the stated shock") : fmt::format("“{}”", what);
    }
    case EventKind::load_drop:
      return "the loss of the load";
    case EventKind::jam:
      return "the jam";
    case EventKind::plugging:
      break;
  }
  return "the reversal at full speed";
}

const char* words(EventSource source) {
  switch (source) {
    case EventSource::computed:
      return "computed";
    case EventSource::stated:
      return "stated";
    case EventSource::logged:
      return "from the log";
    case EventSource::assumed:
      break;
  }
  return "assumed";
}

Transmission transmission_of(const Drive& drive, const RunningLosses& full, const Coefficients& c) {
  Transmission out;
  const double torque = full.stages.back().torque;
  for (const StageRunning& stage : full.stages) out.stage.push_back(stage.torque / torque);
  out.input = full.input_torque / torque;
  if (!drive.motor) return out;
  double own = 0;
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    // Seen at the input: the stages before this one have turned it down.
    const double down =
        drive.build.ratio() / (drive.build.ratio_behind(i) * drive.build.stages[i].stage->geometry.lobes);
    own += drive.build.stages[i].stage->input_inertia / (down * down);
  }
  out.own_share = own / (own + drive.motor->inertia * c.motor_inertia_factor);
  return out;
}

double input_torque(const Event& event, const Transmission& passed) {
  return strength::input_torque(event.torque, event.input, passed.own_share, event.motor_torque);
}

std::vector<Event> events_of(const Drive& drive, const Peaks& peaks, const Transmission& passed, const Coefficients& c,
                             const ColdStart* found) {
  const enquiry::Requirement& requirement = drive.requirement;
  const double working = requirement.torque * c.torque_factor;
  const double years = requirement.running_per_year > 0 ? requirement.life / requirement.running_per_year : 0;
  const double hours_a_year = requirement.running_per_year / kHour;
  std::vector<Event> events;
  const auto add = [&](Event event) {
    event.count = event.per_year * years;
    event.motor_torque *= passed.input;  // brought from the output to the motor's shaft
    event.input = passed.input;
    events.push_back(event);
  };
  if (drive.motor) {
    // While it runs up the motor gives its breakdown torque, at rest what it starts with.
    const double pull = peaks.start > peaks.run_up ? peaks.pull : peaks.pull_jam;
    const double starts = requirement.starts_per_hour * hours_a_year;
    const double days = requirement.hours_per_day > 0 ? requirement.running_per_year / requirement.hours_per_day : 0;
    const double cold = std::min(starts, days);
    add({EventKind::start, EventSource::computed, 0, peaks.start, 0, pull, starts - cold, 0, true});
    const ColdPeak first = cold_peak(drive, found != nullptr ? *found : cold_start(drive, coldest(drive, c), c), c);
    add({EventKind::cold_start, EventSource::computed, 0, first.torque, 0, 0, cold, 0, true});
    events.back().motor_torque = first.given;
    events.back().input = first.input;
    const double reversals = requirement.spectrum.reversals_per_hour * hours_a_year;
    if (reversals > 0) {
      add({EventKind::reversal, EventSource::computed, 0, peaks.start_bound, -working, pull, reversals, 0, true});
      if (peaks.plugging > 0)
        add({EventKind::plugging, EventSource::assumed, 0, peaks.plugging, -working, peaks.pull, reversals, 0, true});
    }
  }
  for (std::size_t i = 0; i < requirement.spectrum.shocks.size(); ++i) {
    const demand::SpectrumShock& shock = requirement.spectrum.shocks[i];
    Event event;
    event.kind = EventKind::shock;
    event.source = shock.logged ? EventSource::logged : EventSource::stated;
    event.shock = i;
    event.torque = std::abs(shock.torque) * c.torque_factor;
    event.before = std::min(working, event.torque);
    event.motor_torque = working;
    event.per_year = shock.per_year;
    event.routine = shock.per_year * years > strength::kFatigueFrom;
    add(event);
  }
  add({EventKind::load_drop, EventSource::computed, 0, working, working, working, 0, 0, false});
  add({EventKind::jam, EventSource::assumed, 0, std::max(peaks.jam, working), working, peaks.pull_jam, 1, 0, false});
  return events;
}

}  // namespace lobewise::drive
