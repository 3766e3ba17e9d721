#include "engine/drive/peak_case.h"

#include <algorithm>
#include <cmath>

#include "engine/strength/pulses.h"
#include "engine/strength/torque_cycles.h"

namespace lobewise::drive {
namespace {

constexpr double kHour = 3600;

/// Whether an event counts for fatigue: it is planned or comes often, and is no assumption of ours.
bool counts(const Event& event) { return event.routine && event.source != EventSource::assumed && event.count > 0; }

/// What counts for fatigue: planned events and those that come often, and the cycles of a log, which hold its shocks.
/// What does not rise above the working torque is no pulse.
std::vector<Pulse> pulses_of(const Drive& drive, const std::vector<Event>& events, const Coefficients& c) {
  const demand::DutySpectrum& spectrum = drive.requirement.spectrum;
  const double working = drive.requirement.torque * c.torque_factor;
  std::vector<Pulse> out;
  for (std::size_t i = 0; i < events.size(); ++i) {
    const Event& event = events[i];
    if (!counts(event)) continue;
    if (event.source == EventSource::logged && spectrum.cycles_logged) continue;
    if (event.torque > working || event.before < 0) out.push_back({event.torque, event.before, event.count, i});
  }
  if (spectrum.cycles_logged)
    for (const demand::Cycle& cycle : spectrum.cycles) {
      const double high = (std::abs(cycle.mean) + cycle.range / 2) * c.torque_factor;
      if (high > working)
        out.push_back(
            {high, high - cycle.range * c.torque_factor, cycle.count * drive.requirement.life / kHour, std::nullopt});
    }
  return out;
}

/// Adds the sizes up by n S^k.
/// @param share  of the count that meets the part
void add_up(const std::vector<Pulse>& pulses, double share, PulseUse& out) {
  double sum = 0, largest = -1;
  for (std::size_t i = 0; i < pulses.size(); ++i) {
    const double damage = share * pulses[i].count * std::pow(out.sizes[i], out.exponent);
    sum += damage;
    if (damage <= largest) continue;
    largest = damage;
    out.hardest = i;
  }
  out.equivalent = std::pow(sum / strength::kKneeCycles, 1 / out.exponent);
}

PulseUse of_part(Part part, std::size_t stage, double exponent) {
  PulseUse out;
  out.part = part;
  out.stage = stage;
  out.exponent = exponent;
  return out;
}

PulseUse pins_use(const Drive& drive, const Transmission& passed, std::size_t i, const std::vector<Pulse>& pulses) {
  PulseUse out = of_part(Part::pins, i, pin_exponent());
  const range::Stage& stage = *drive.build.stages[i].stage;
  for (const Pulse& pulse : pulses)
    out.sizes.push_back(hardest_pin(stage, *drive.tables[i], pulse.peak * passed.stage[i]).stress);
  add_up(pulses, strength::pin_share(out.exponent), out);
  out.use = out.equivalent / strength::kPinBendingLimit.nominal;
  return out;
}

PulseUse shaft_use(const Drive& drive, Part section, double working, const std::vector<Pulse>& pulses) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const double diameter = pulse_diameter(drive, section);
  const double S_e = endurance(shaft, diameter), S_ut = shaft.tensile_strength;
  PulseUse out = of_part(section, 0, strength::woehler_exponent(S_ut, S_e));
  for (const Pulse& pulse : pulses) {
    const ShaftPulse moments = shaft_pulse(drive, section, pulse, working);
    out.sizes.push_back(moments.amplitude);
    out.mean = std::max(out.mean, moments.mean);
  }
  add_up(pulses, 1, out);
  if (out.equivalent > 0)
    out.use = strength::kShaftSafety.nominal / strength::pulse_safety(out.equivalent, out.mean, diameter, S_e, S_ut);
  return out;
}

PulseUse key_use(const Drive& drive, const std::vector<Pulse>& pulses) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const strength::KeyStress unit = strength::parallel_key(key_of(shaft), 1, shaft.diameter);
  const double pressure = std::max(unit.hub_pressure, unit.shaft_pressure);
  PulseUse out = of_part(Part::key, 0, key_exponent());
  for (const Pulse& pulse : pulses)  // where the torque turns round, both flanks are struck
    out.sizes.push_back(pressure * (pulse.peak + std::max(0.0, -pulse.before)));
  add_up(pulses, 1, out);
  out.use = out.equivalent / (strength::kKeyPulsating.nominal * strength::kKeyYield.nominal);
  return out;
}

/// Share of what the input shaft bears: its torque is not that of the output in every event.
double input_shaft_use(const Drive& drive, const Transmission& passed, const PathPart& part, const Event& event) {
  const range::Stage& stage = *drive.build.stages[part.stage].stage;
  const double force = drive.tables[part.stage]->at(
      event.torque * passed.stage[part.stage] * drive.tables[part.stage]->hardest_disc(), &MeshLevel::bearing_largest);
  const double torque = part.stage == 0 ? input_torque(event, passed) : event.torque * passed.stage[part.stage - 1];
  const double stress = input_shaft_stress(stage, force, torque);
  return stress * (event.routine ? kRoutineSafety : 1.0) / kInputShaftYield.nominal;
}

}  // namespace

std::string label(const Pulse& pulse, const std::vector<Event>& events, const Drive& drive) {
  return pulse.event ? label(events[*pulse.event], drive) : "the cycles of the log";
}

double pin_exponent() { return strength::pulse_exponent(strength::kPinYield, strength::kPinBendingLimit.nominal); }
double key_exponent() { return strength::pulse_exponent(1.0, strength::kKeyPulsating.nominal); }

double pulse_diameter(const Drive& drive, Part section) {
  // At the key the notch factors stand for the keyway, on the whole diameter.
  const range::OutputShaft& shaft = drive.build.frame().output;
  return section == Part::shaft_seat ? shaft.seat_diameter : shaft.diameter;
}

ShaftPulse shaft_pulse(const Drive& drive, Part section, const Pulse& pulse, double working) {
  const bool key = section == Part::keyed_end;
  ShaftPulse out;
  out.K_f = key ? strength::kKeywayBending.nominal : strength::kShoulderBending.nominal;
  out.K_fs = key ? strength::kKeywayTorsion.nominal : strength::kShoulderTorsion.nominal;
  const double bending = section_of(drive, section).bending;
  const double back = pulse.event ? -std::min(working, pulse.peak) : pulse.before;
  const auto moment = [&](double bent, double turned) {
    return std::hypot(2 * out.K_f * bending * bent, std::sqrt(3.0) * out.K_fs * turned);
  };
  out.amplitude = moment((pulse.peak - back) / 2, (pulse.peak - pulse.before) / 2);
  out.mean = moment(std::abs(pulse.peak + back) / 2, std::abs(pulse.peak + pulse.before) / 2);
  return out;
}

double borne(const PathPart& part, const Event& event) { return event.routine ? part.routine : part.marks; }

namespace {

PartPeak hardest_for(const Drive& drive, const PeakCase& all, std::size_t p) {
  const PathPart& part = all.parts[p];
  PartPeak worst{p, 0, -1};
  for (std::size_t i = 0; i < all.events.size(); ++i) {
    const Event& event = all.events[i];
    if (event.source == EventSource::assumed) continue;
    const double use = part.part == Part::input_shaft ? input_shaft_use(drive, all.passed, part, event)
                                                      : event.torque / borne(part, event);
    if (use > worst.use) worst = {p, i, use};
  }
  return worst;
}

AssumedPeak first_to_give_way(const PeakCase& all, std::size_t event) {
  AssumedPeak peak{event, 0, borne(all.parts.front(), all.events[event]), false};
  for (std::size_t p = 1; p < all.parts.size(); ++p)
    if (const double limit = borne(all.parts[p], all.events[event]); limit < peak.limit)
      peak = {event, p, limit, false};
  return peak;
}

/// The hardest event that is no assumption, with the pull of the link lifting the unit.
AssumedPeak lifted(const PeakCase& all, std::size_t p) {
  AssumedPeak peak{0, p, 0, true};
  double use = -1;
  for (std::size_t i = 0; i < all.events.size(); ++i) {
    const Event& event = all.events[i];
    const double limit = event.routine ? all.parts[p].routine_lifted : all.parts[p].marks_lifted;
    if (event.source == EventSource::assumed || event.torque / limit <= use) continue;
    use = event.torque / limit;
    peak.event = i;
    peak.limit = limit;
  }
  return peak;
}

}  // namespace

PeakCase peak_case(const Drive& drive, const Peaks& peaks, const RunningLosses& full, const Coefficients& c,
                   const ColdStart* cold) {
  PeakCase out;
  out.passed = transmission_of(drive, full, c);
  out.events = events_of(drive, peaks, out.passed, c, cold);
  out.parts = torque_path(drive, out.passed);
  for (std::size_t p = 0; p < out.parts.size(); ++p) {
    if (out.parts[p].marks < out.parts[out.weakest].marks) out.weakest = p;
    out.promised.push_back(hardest_for(drive, out, p));
  }
  for (std::size_t i = 0; i < out.events.size(); ++i)
    if (out.events[i].source == EventSource::assumed) out.assumed.push_back(first_to_give_way(out, i));
  for (std::size_t p = 0; p < out.parts.size(); ++p)
    if (out.parts[p].marks_lifted > 0) out.assumed.push_back(lifted(out, p));
  if (std::none_of(out.events.begin(), out.events.end(), counts)) return out;
  out.pulses = pulses_of(drive, out.events, c);
  const double working = drive.requirement.torque * c.torque_factor;
  for (std::size_t i = drive.build.stages.size(); i-- > 0;)
    out.fatigue.push_back(pins_use(drive, out.passed, i, out.pulses));
  out.fatigue.push_back(shaft_use(drive, Part::shaft_seat, working, out.pulses));
  const range::OutputShaft& shaft = drive.build.frame().output;
  if (shaft.key_length > shaft.key_width) {
    out.fatigue.push_back(shaft_use(drive, Part::keyed_end, working, out.pulses));
    out.fatigue.push_back(key_use(drive, out.pulses));
  } else {
    out.fatigue.push_back(shaft_use(drive, Part::shaft_end, working, out.pulses));
  }
  return out;
}

}  // namespace lobewise::drive
