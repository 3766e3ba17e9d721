#pragma once
// Tables of constant size whose level width doubles when a value falls outside, so that no full scale must be known.

#include <array>
#include <vector>

#include "engine/demand/rainflow.h"

namespace lobewise::demand {

/// What was seen at one level of torque.
struct Level {
  double time = 0;         ///< [s]
  double turns = 0;        ///< integral of |speed| over time [rad]
  double torque_time = 0;  ///< integral of torque over time [N m s]; over time = mean torque of the level

  [[nodiscard]] double torque() const { return torque_time / time; }  ///< mean torque [N m]; time > 0
  [[nodiscard]] double speed() const { return turns / time; }         ///< mean speed [rad/s]; time > 0
};

/// Time and turns at levels of torque, for bearings. Precondition: every value pushed is finite, duration >= 0.
class TimeAtLevel {
 public:
  /// @param width  first level width [N m], > 0; a hundredth of the rated torque is a good choice
  explicit TimeAtLevel(double width) : width_(width) {}
  /// Torque [N m] (sign = direction of load) held for `duration` [s] at `speed` [rad/s].
  void push(double torque, double speed, double duration);
  [[nodiscard]] double width() const { return width_; }
  /// Levels with time > 0, from the lowest torque to the highest.
  [[nodiscard]] std::vector<Level> levels() const;
  [[nodiscard]] double time() const;  ///< whole time [s]

 private:
  static constexpr int kHalf = 128;
  double width_;
  std::array<Level, 2 * kHalf> bins_{};
};

/// Rainflow cycles by range and mean, for shafts and pins. Preconditions as above.
class CycleTable {
 public:
  explicit CycleTable(double width) : width_(width) {}
  void push(const Cycle& cycle);
  [[nodiscard]] double width() const { return width_; }
  /// Non-empty cells; range is the upper edge of its level (never less than what was counted), mean the middle of its
  /// level.
  [[nodiscard]] std::vector<Cycle> cycles() const;

 private:
  static constexpr int kRanges = 64, kHalf = 32;
  void widen();
  double width_;
  std::array<std::array<double, 2 * kHalf>, kRanges> cells_{};
};

}  // namespace lobewise::demand
