#include <fmt/core.h>

#include <string>

#include "engine/contact/thermal_play.h"
#include "engine/range/range.h"

namespace lobewise::range {
namespace {

std::string micrometres(double metres) { return fmt::format("{:.3g} µm", metres * 1e6); }

/// What is wrong with the play of a stage; empty when it keeps some.
std::string doubt_about_play(const Stage& stage) {
  const mechanism::StageGeometry& g = stage.geometry;
  const double disc = expansion(Material::steel).nominal;
  const double ring = ring_expansion(stage).nominal;
  const auto play = [&](double disc_temperature, double ring_temperature) {
    const double offset = contact::warm_radius_offset<double>(g.radius_offset, g.pitch_radius, disc, disc_temperature,
                                                              ring, ring_temperature, contact::kDrawingTemperature);
    return contact::least_play(g, offset).least();
  };
  constexpr double kDrawn = contact::kDrawingTemperature;
  if (const double least = play(kDrawn, kDrawn); !(least >= 0))
    return fmt::format("as drawn, lobes and rollers overlap by {}: the unit runs preloaded, every roller carries",
                       micrometres(-least));
  if (const double least = play(kColdUnit, kColdUnit); !(least >= 0))
    return fmt::format("at {:.0f} °C lobes and rollers overlap by {}: ring and disc shrink differently",
                       kColdUnit - kZeroCelsius, micrometres(-least));
  if (const double least = play(kWarmRing + kWarmerDisc, kWarmRing); !(least >= 0))
    return fmt::format(
        "with the ring at {:.0f} °C and its disc {:.0f} K warmer, as in a warm-up from the cold, lobes and rollers "
        "overlap by {}: the unit runs preloaded then",
        kWarmRing - kZeroCelsius, kWarmerDisc, micrometres(-least));
  return {};
}

}  // namespace

Errors warnings(const Range& range) {
  Errors found;
  for (std::size_t f = 0; f < range.frames.size(); ++f)
    for (std::size_t i = 0; i < range.frames[f].stages.size(); ++i) {
      const Stage& stage = range.frames[f].stages[i];
      if (std::string doubt = doubt_about_play(stage); !doubt.empty())
        found.push_back({ErrorKind::data, fmt::format("frames[{}].stages[{}].geometry.radius_offset", f, i),
                         micrometres(stage.geometry.radius_offset), std::move(doubt), 0});
    }
  return found;
}

}  // namespace lobewise::range
