#include "engine/contact/elastic/symmetry.h"

#include <cmath>
#include <numeric>

#include "engine/base/constants.h"

namespace lobewise::contact::elastic {
namespace {
int modulo(int a, int n) { return ((a % n) + n) % n; }
int raised(int count, int multiple) { return (count + multiple - 1) / multiple * multiple; }
}  // namespace

DiscSymmetry::DiscSymmetry(int lobes, int holes, double hole_offset)
    : lobes_(lobes), holes_(holes), turns_(std::gcd(lobes, holes)) {
  constexpr double kSame = 1e-9;
  for (int half = 0; half < 2 * lobes && mirror_ < 0; ++half) {
    // phi -> 2 alpha - phi maps hole j to the place of hole (2 alpha - 2 offset) M / (2 pi) - j.
    const double shift = (kPi * half / lobes - hole_offset) * holes / kPi;
    if (std::abs(shift - std::round(shift)) > kSame) continue;
    mirror_ = half;
    hole_mirror_ = static_cast<int>(std::lround(shift));
  }
}

double DiscSymmetry::mirror_angle() const { return mirror() ? kPi * mirror_ / lobes_ : 0; }

SampleCounts DiscSymmetry::rounded(SampleCounts counts) const {
  return {raised(counts.flank, 2 * lobes_), counts.hole, raised(counts.bore, turns_)};
}

std::vector<SampleImage> DiscSymmetry::images(SampleCounts counts) const {
  const int all = counts.flank + holes_ * counts.hole + counts.bore;
  std::vector<SampleImage> images;
  for (int mirrored = 0; mirrored < (mirror() ? 2 : 1); ++mirrored)
    for (int turn = 0; turn < turns_; ++turn) {
      SampleImage image;
      image.handedness = mirrored ? -1 : 1;
      image.index.reserve(all);
      const int sign = mirrored ? -1 : 1;
      const int flank_shift = counts.flank / turns_ * turn + (mirrored ? mirror_ * (counts.flank / lobes_) : 0);
      for (int i = 0; i < counts.flank; ++i) image.index.push_back(modulo(sign * i + flank_shift, counts.flank));
      const int hole_shift = holes_ / turns_ * turn + (mirrored ? hole_mirror_ : 0);
      for (int j = 0; j < holes_; ++j)
        for (int i = 0; i < counts.hole; ++i)
          image.index.push_back(counts.flank + modulo(sign * j + hole_shift, holes_) * counts.hole +
                                modulo(sign * i, counts.hole));
      for (int i = 0; i < counts.bore; ++i)
        image.index.push_back(counts.flank + holes_ * counts.hole +
                              modulo(sign * i + counts.bore / turns_ * turn, counts.bore));
      images.push_back(std::move(image));
    }
  return images;
}

}  // namespace lobewise::contact::elastic
