#include "engine/drive/build.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace lobewise::drive {
namespace {

const range::Frame* frame_named(const range::Range& range, const std::string& name) {
  for (const range::Frame& frame : range.frames)
    if (frame.name == name) return &frame;
  return nullptr;
}

const range::Stage* stage_with(const range::Frame& frame, int lobes) {
  for (const range::Stage& stage : frame.stages)
    if (stage.geometry.lobes == lobes) return &stage;
  return nullptr;
}

}  // namespace

double Build::ratio() const {
  double ratio = 1;
  for (const StageRef& ref : stages) ratio *= ref.stage->geometry.lobes;
  return ratio;
}

double Build::ratio_behind(std::size_t index) const {
  double ratio = 1;
  for (std::size_t i = index + 1; i < stages.size(); ++i) ratio *= stages[i].stage->geometry.lobes;
  return ratio;
}

double Build::price() const { return pair != nullptr ? pair->price : last().price; }
std::string Build::currency() const { return range != nullptr ? range->currency : ""; }
double Build::mass() const { return frame().housing.mass + (pair != nullptr ? pair->extra_mass : 0); }
double Build::length() const { return frame().dimensions.length + (pair != nullptr ? pair->extra_length : 0); }

std::string Build::name() const {
  if (pair == nullptr) return fmt::format("{}, {}:1", frame().name, last().geometry.lobes);
  return fmt::format("{}, {} × {} = {:.0f}:1", frame().name, first().geometry.lobes, last().geometry.lobes, ratio());
}

BuildName name_of(const Build& build) {
  BuildName name{build.frame().name, build.last().geometry.lobes, "", std::nullopt};
  if (build.pair != nullptr) {
    name.first_frame = build.stages.front().frame->name;
    name.first_lobes = build.first().geometry.lobes;
  }
  return name;
}

std::vector<Build> all_builds(const range::Range& range) {
  std::vector<Build> builds;
  for (const range::Frame& frame : range.frames)
    for (const range::Stage& stage : frame.stages) builds.push_back({{{&frame, &stage}}, nullptr, &range});
  for (const range::TwoStage& pair : range.two_stage) {
    const range::Frame* frame = frame_named(range, pair.frame);
    const range::Frame* first = frame_named(range, pair.first_frame);
    if (frame == nullptr || first == nullptr) continue;  // range::check names such pairs
    const range::Stage* second_stage = stage_with(*frame, pair.second_lobes);
    const range::Stage* first_stage = stage_with(*first, pair.first_lobes);
    if (second_stage == nullptr || first_stage == nullptr) continue;
    builds.push_back({{{first, first_stage}, {frame, second_stage}}, &pair, &range});
  }
  return builds;
}

Result<Build> find_build(const range::Range& range, const BuildName& name) {
  const range::Frame* frame = frame_named(range, name.frame);
  if (frame == nullptr) {
    std::vector<std::string> names;
    for (const range::Frame& f : range.frames) names.push_back(f.name);
    return input_error("build.frame", name.frame, fmt::format("no such frame; there are: {}", fmt::join(names, ", ")));
  }
  std::vector<std::string> there;
  for (const Build& build : all_builds(range)) {
    if (build.frame().name != name.frame) continue;
    const bool two = build.pair != nullptr;
    if (two != (name.first_lobes.has_value() || !name.first_frame.empty())) continue;
    const BuildName candidate = name_of(build);
    const bool same = (!name.lobes || candidate.lobes == name.lobes) &&
                      (name.first_frame.empty() || candidate.first_frame == name.first_frame) &&
                      (!name.first_lobes || candidate.first_lobes == name.first_lobes);
    if (same && (name.lobes || two)) return build;
    there.push_back(two ? fmt::format("{} × {}", *candidate.first_lobes, *candidate.lobes)
                        : fmt::format("{}", *candidate.lobes));
  }
  return input_error("build.lobes", name.lobes ? fmt::format("{}", *name.lobes) : "nothing",
                     fmt::format("frame '{}' is made with: {}", name.frame, fmt::join(there, ", ")));
}

}  // namespace lobewise::drive
