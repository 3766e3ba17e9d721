#include "engine/drive/excitations.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/motion/excitation.h"

namespace lobewise::drive {
namespace {

constexpr const char* kDerived = "derived, docs/theory/motion.md";

/// Lowest and highest speed over the one at which it is judged.
struct Sweep {
  double low = 1, high = 1;
};
Sweep sweep_of(const Drive& drive) {
  const enquiry::Requirement& r = drive.requirement;
  if (!(r.inverter_low < r.inverter_high) || !drive.motor) return {};
  const double per_hertz = drive.motor->rated_speed / r.frequency / drive.input_speed;
  return {std::min(1.0, r.inverter_low * per_hertz), std::max(1.0, r.inverter_high * per_hertz)};
}

/// A wheel with teeth on the output shaft.
struct Toothed {
  const char* name;
  UsualTeeth usual;
};
std::optional<Toothed> toothed(demand::Link link) {
  switch (link) {
    case demand::Link::single_chain:
    case demand::Link::double_chain:
      return Toothed{"polygon of the chain", kChainTeeth};
    case demand::Link::toothed_belt:
      return Toothed{"teeth of the belt", kToothedBelt};
    case demand::Link::pinion:
    case demand::Link::rack_pinion:
      return Toothed{"teeth of the pinion", kPinionTeeth};
    default:
      return std::nullopt;
  }
}

}  // namespace

std::vector<TorsionalExcitation> torsional_excitations(const Drive& drive) {
  const enquiry::Requirement& r = drive.requirement;
  const Sweep sweep = sweep_of(drive);
  const double input = drive.input_speed / (2 * kPi), ratio = drive.build.ratio();
  std::vector<TorsionalExcitation> out;
  const auto band = [&](std::string name, double fewest, double most, bool said) {
    const double order = fewest == most ? fewest : 0;
    if (!r.coupled.speeds_said)  // the speed it is set to is known, the range around it is taken
      out.push_back({name, order, fewest * input, most * input, Lasting::running, said, kDerived, fewest, most, 1, 1});
    out.push_back({r.coupled.speeds_said ? std::move(name) : name + ", over the inverter's range", order,
                   fewest * input * sweep.low, most * input * sweep.high, Lasting::running,
                   said && r.coupled.speeds_said, kDerived, fewest, most, sweep.low, sweep.high});
  };
  const auto add = [&](std::string name, double order) { band(std::move(name), order, order, true); };

  add("a turn of the input shaft: unbalance, misaligned coupling", 1);
  add("twice a turn of the input shaft: misaligned coupling", 2);
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const mechanism::StageGeometry& g = drive.build.stages[i].stage->geometry;
    const double shaft = drive.build.ratio_behind(i) * g.lobes / ratio;  // turns of the stage's input per input turn
    const std::string where = drive.build.stages.size() == 1 ? "" : i == 0 ? ", first stage" : ", second stage";
    for (const motion::Excitation& x :
         motion::stage_excitations({g.lobes, g.pins, g.discs, motion::Fixed::ring}, 2 * kPi))
      if (x.order != 1 && x.sum != motion::Sum::cancels) {
        const bool output = x.name == "output shaft";
        if (!output) add(x.name + where, x.order * shaft);
      }
    if (i > 0) add("a turn of the shaft between the stages", shaft);
  }
  add("a turn of the output shaft", 1 / ratio);
  if (r.coupled.link == demand::Link::coupling) add("twice a turn of the output shaft: misaligned coupling", 2 / ratio);
  if (const std::optional<Toothed> wheel = toothed(r.coupled.link)) {
    if (r.coupled.teeth)
      add(wheel->name, *r.coupled.teeth / ratio);
    else
      band(fmt::format("{}, {:.0f} to {:.0f} teeth taken", wheel->name, wheel->usual.fewest, wheel->usual.most),
           wheel->usual.fewest / ratio, wheel->usual.most / ratio, false);
  }
  if (r.coupled.machine_pulses) add("pulses of the machine", *r.coupled.machine_pulses / ratio);
  if (r.starting != enquiry::Starting::inverter)
    for (const int m : {1, 2})
      out.push_back(
          {m == 1 ? "mains frequency while the motor starts" : "twice the mains frequency while the motor starts", 0,
           m * r.frequency, m * r.frequency, Lasting::start, true, "from memory: electrical transient of a start"});
  return out;
}

std::optional<double> link_stiffness(const Drive& drive, double softness) {
  if (softness <= 0) return std::nullopt;
  return kStiffestLink * drive.requirement.torque * std::pow(10, -softness);
}

double distance(double natural_frequency, const TorsionalExcitation& x) {
  if (natural_frequency < x.low) return distance_from<double>(natural_frequency, x.low);
  return natural_frequency > x.high ? distance_from<double>(natural_frequency, x.high) : 0;
}

std::optional<ForbiddenStiffness> forbidden_stiffness(double natural_frequency, double stiffness,
                                                      const TorsionalExcitation& x, double clear) {
  const auto link = [&](double frequency) -> std::optional<double> {
    if (frequency >= natural_frequency) return std::nullopt;
    return link_that_gives<double>(stiffness, natural_frequency, frequency);
  };
  const std::optional<double> soft = link(x.low * (1 - clear));
  if (!soft) return std::nullopt;
  return ForbiddenStiffness{*soft, link(x.high * (1 + clear))};
}

}  // namespace lobewise::drive
