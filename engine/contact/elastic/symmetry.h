#pragma once
// Turns and mirror images that map a disc with its output holes onto itself: what is solved for one load serves all
// its images.
#include <vector>

namespace lobewise::contact::elastic {

/// Samples on the whole flank, on each hole, on the bore.
struct SampleCounts {
  int flank = 0, hole = 0, bore = 0;
};

/// Where each sample goes; samples are numbered flank first, then hole by hole, then bore.
struct SampleImage {
  std::vector<int> index;
  double handedness = 1;  ///< -1 for a mirror image: tangential components change sign
};

class DiscSymmetry {
 public:
  /// @param holes        number of output holes, 0 for none
  /// @param hole_offset  angle of hole 0 from the lobe root on the x axis [rad]
  DiscSymmetry(int lobes, int holes, double hole_offset);

  [[nodiscard]] int turns() const { return turns_; }          ///< the disc looks the same `turns` times a revolution
  [[nodiscard]] bool mirror() const { return mirror_ >= 0; }  ///< it is its own mirror image about some axis
  [[nodiscard]] double mirror_angle() const;                  ///< angle of that axis, 0 without one [rad]
  /// The counts raised until every image of a sample is a sample.
  [[nodiscard]] SampleCounts rounded(SampleCounts counts) const;
  /// All images, the first the disc itself. The samples start at the x axis (flank), on the radius through the hole's
  /// centre (hole), at `mirror_angle` (bore). Precondition: counts are `rounded` (a zero stays zero).
  [[nodiscard]] std::vector<SampleImage> images(SampleCounts counts) const;

 private:
  int lobes_, holes_, turns_;
  int mirror_ = -1;      ///< the axis stands at mirror_ half lobes, pi mirror_ / N
  int hole_mirror_ = 0;  ///< hole j goes to hole_mirror_ - j
};

}  // namespace lobewise::contact::elastic
