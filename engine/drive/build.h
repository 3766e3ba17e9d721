#pragma once
// A build: one frame with one stage, or a smaller frame's stage in front of it.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/range/range.h"

namespace lobewise::drive {

struct StageRef {
  const range::Frame* frame = nullptr;  ///< whose stage it is; lives as long as the range
  const range::Stage* stage = nullptr;
};

struct Build {
  std::vector<StageRef> stages;  ///< from the input to the output
  const range::TwoStage* pair = nullptr;
  const range::Range* range = nullptr;  ///< it belongs to

  [[nodiscard]] const range::Frame& frame() const { return *stages.back().frame; }  ///< with the output shaft
  [[nodiscard]] const range::Stage& last() const { return *stages.back().stage; }
  [[nodiscard]] const range::Stage& first() const { return *stages.front().stage; }
  [[nodiscard]] double ratio() const;  ///< input speed over output speed, without sign
  [[nodiscard]] double price() const;
  [[nodiscard]] std::string currency() const;  ///< of the price; empty when the range is not known
  [[nodiscard]] double mass() const;           ///< [kg]
  [[nodiscard]] double length() const;         ///< [m]
  [[nodiscard]] std::string name() const;      ///< e.g. `ring-160, 17:1` or `ring-160, 11 × 29 = 319:1`
  /// Reduction between the output of stage `index` and the output shaft.
  [[nodiscard]] double ratio_behind(std::size_t index) const;
};

/// What names a build.
struct BuildName {
  std::string frame;
  std::optional<int> lobes;
  std::string first_frame;
  std::optional<int> first_lobes;
};
[[nodiscard]] BuildName name_of(const Build& build);

/// Every build of a range; the range must outlive them.
[[nodiscard]] std::vector<Build> all_builds(const range::Range& range);
/// The build of that name. Errors: no such frame, ratio or pair, with what there is.
[[nodiscard]] Result<Build> find_build(const range::Range& range, const BuildName& name);

}  // namespace lobewise::drive
