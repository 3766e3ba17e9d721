#include "engine/demand/histogram.h"

#include <cmath>

namespace lobewise::demand {
namespace {

int half_down(int index) { return index >= 0 ? index / 2 : (index - 1) / 2; }

}  // namespace

void TimeAtLevel::push(double torque, double speed, double duration) {
  while (torque < -kHalf * width_ || torque >= kHalf * width_) {
    std::array<Level, 2 * kHalf> merged{};
    for (int i = -kHalf; i < kHalf; ++i) {
      const Level& from = bins_[static_cast<std::size_t>(i + kHalf)];
      Level& to = merged[static_cast<std::size_t>(half_down(i) + kHalf)];
      to.time += from.time;
      to.turns += from.turns;
      to.torque_time += from.torque_time;
    }
    bins_ = merged;
    width_ *= 2;
  }
  Level& level = bins_[static_cast<std::size_t>(static_cast<int>(std::floor(torque / width_)) + kHalf)];
  level.time += duration;
  level.turns += std::fabs(speed) * duration;
  level.torque_time += torque * duration;
}

std::vector<Level> TimeAtLevel::levels() const {
  std::vector<Level> found;
  for (const Level& level : bins_)
    if (level.time > 0) found.push_back(level);
  return found;
}

double TimeAtLevel::time() const {
  double sum = 0;
  for (const Level& level : bins_) sum += level.time;
  return sum;
}

void CycleTable::widen() {
  std::array<std::array<double, 2 * kHalf>, kRanges> merged{};
  for (int r = 0; r < kRanges; ++r)
    for (int m = -kHalf; m < kHalf; ++m)
      merged[static_cast<std::size_t>(r / 2)][static_cast<std::size_t>(half_down(m) + kHalf)] +=
          cells_[static_cast<std::size_t>(r)][static_cast<std::size_t>(m + kHalf)];
  cells_ = merged;
  width_ *= 2;
}

void CycleTable::push(const Cycle& cycle) {
  while (cycle.range >= kRanges * width_ || cycle.mean < -kHalf * width_ || cycle.mean >= kHalf * width_) widen();
  const auto row = static_cast<std::size_t>(std::floor(cycle.range / width_));
  const auto column = static_cast<std::size_t>(static_cast<int>(std::floor(cycle.mean / width_)) + kHalf);
  cells_[row][column] += cycle.count;
}

std::vector<Cycle> CycleTable::cycles() const {
  std::vector<Cycle> found;
  for (int r = 0; r < kRanges; ++r)
    for (int m = -kHalf; m < kHalf; ++m)
      if (const double count = cells_[static_cast<std::size_t>(r)][static_cast<std::size_t>(m + kHalf)]; count > 0)
        found.push_back({(r + 1) * width_, (m + 0.5) * width_, count});
  return found;
}

}  // namespace lobewise::demand
