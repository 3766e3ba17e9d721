#include <fmt/format.h>

#include <cmath>

#include "engine/base/quantity.h"
#include "engine/motion/simulate.h"

namespace lobewise::motion {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

void check_number(Errors& errors, bool holds, std::string path, double value, const char* message) {
  if (!holds || !std::isfinite(value)) errors.push_back(input_error(std::move(path), format_number(value, 6), message));
}

}  // namespace

Errors check_scenario(const Scenario& s) {
  Errors errors;
  if (s.chain.size < 1 || s.chain.size > kMaxInertias) {
    errors.push_back(input_error("chain.inertia", std::to_string(s.chain.size),
                                 fmt::format("a chain has 1 to {} inertias", kMaxInertias)));
    return errors;
  }
  for (int i = 0; i < s.chain.size; ++i) {
    const double inertia = s.chain.inertia[at(i)];
    check_number(errors, inertia > 0, fmt::format("chain.inertia[{}]", i), inertia, "must be greater than zero");
  }
  for (int l = 0; l + 1 < s.chain.size; ++l) {
    const Link& link = s.chain.link[at(l)];
    const std::string path = fmt::format("chain.link[{}].", l);
    check_number(errors, link.stiffness > 0, path + "stiffness", link.stiffness, "must be greater than zero");
    check_number(errors, link.cubic >= 0, path + "cubic", link.cubic,
                 "must not be negative: links harden or stay linear");
    check_number(errors, link.damping >= 0, path + "damping", link.damping, "must not be negative");
    check_number(errors, link.play >= 0, path + "play", link.play, "must not be negative");
  }
  const Drive& drive = s.drive;
  check_number(errors, true, "drive.torque", drive.torque, "must be a number");
  check_number(errors, drive.ratio > 0, "drive.ratio", drive.ratio, "must be greater than zero");
  check_number(errors, drive.efficiency > 0 && drive.efficiency <= 1, "drive.efficiency", drive.efficiency,
               "must lie between 0 and 1");
  if (drive.motor && drive.starting.kind != Starting::direct) {
    const StartingMethod& method = drive.starting;
    check_number(errors, method.star_factor > 0 && method.star_factor <= 1, "drive.starting.star_factor",
                 method.star_factor, "must lie between 0 and 1");
    check_number(errors, method.switch_share > 0 && method.switch_share < 1, "drive.starting.switch_share",
                 method.switch_share, "must lie between 0 and 1");
    check_number(errors, method.pause >= 0, "drive.starting.pause", method.pause, "must not be negative");
    check_number(errors, method.initial_voltage >= 0 && method.initial_voltage <= 1, "drive.starting.initial_voltage",
                 method.initial_voltage, "must lie between 0 and 1");
    check_number(errors, method.kind == Starting::star_delta || method.ramp_time > 0, "drive.starting.ramp_time",
                 method.ramp_time, "must be greater than zero");
    check_number(errors, method.torque_limit > 0, "drive.starting.torque_limit", method.torque_limit,
                 "must be greater than zero");
  }
  check_number(errors, true, "load.active", s.load.active, "must be a number");
  check_number(errors, s.load.friction >= 0, "load.friction", s.load.friction, "must not be negative");
  check_number(errors, s.load.curve_torque >= 0, "load.curve_torque", s.load.curve_torque, "must not be negative");
  check_number(errors, s.load.curve_speed > 0, "load.curve_speed", s.load.curve_speed, "must be greater than zero");
  check_number(errors, s.load.curve_exponent >= 1, "load.curve_exponent", s.load.curve_exponent, "must be at least 1");
  check_number(errors, true, "speed", s.speed, "must be a number");
  check_number(errors, true, "wound_torque", s.wound_torque, "must be a number");
  check_number(errors, s.duration > 0, "duration", s.duration, "must be greater than zero");
  check_number(errors, s.sample_interval == 0 || s.sample_interval >= 1e-6 * s.duration, "sample_interval",
               s.sample_interval, "must be zero or give at most a million samples");
  check_number(errors, s.after_start == 0 || (s.after_start >= 1 && s.after_start <= 1e6), "after_start", s.after_start,
               "0 or 1 to 1e6");
  check_number(errors, s.tolerance >= 1e-12 && s.tolerance <= 1e-4, "tolerance", s.tolerance,
               "must lie between 1e-12 and 1e-4");
  double before = 0;
  for (std::size_t i = 0; i < s.events.size(); ++i) {
    const std::string path = fmt::format("events[{}].", i);
    check_number(errors, s.events[i].time >= before, path + "time", s.events[i].time,
                 "must not be negative nor before the event above it");
    check_number(errors, s.events[i].value >= 0, path + "value", s.events[i].value, "must not be negative");
    if (s.events[i].kind == EventKind::jam && s.chain.size < 2) {
      errors.push_back(input_error(path + "kind", "jam", "a jam needs at least two inertias with a link between them"));
    }
    before = s.events[i].time;
  }
  return errors;
}

}  // namespace lobewise::motion
