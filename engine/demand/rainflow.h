#pragma once
// Rainflow counting as samples arrive: memory grows with the number of distinct levels, never with the length of the
// log.

#include <cmath>
#include <vector>

namespace lobewise::demand {

/// A counted load cycle.
struct Cycle {
  double range = 0;  ///< peak minus valley, unit of the signal
  double mean = 0;   ///< half of peak plus valley
  double count = 0;  ///< 1 for a closed cycle, 0.5 for a half cycle; may be a sum in a table
};

/// Rainflow counter, ASTM E1049-85 section 5.4.4 (from memory), fed sample by sample.
///
/// Samples are rounded to whole multiples of `resolution` (0: taken as they are). The ranges that wait on the stack
/// fall strictly, so with a resolution the stack never holds more points than there are levels between the extremes.
/// `finish` counts what still waits as half cycles and may be called once.
class Rainflow {
 public:
  /// @param resolution  level width, unit of the signal, >= 0
  explicit Rainflow(double resolution = 0) : resolution_(resolution) {}

  /// @param value  next sample, finite
  /// @param sink   called as sink(Cycle) for every cycle that closes
  template <class Sink>
  void push(double value, Sink&& sink) {
    if (resolution_ > 0) value = std::round(value / resolution_) * resolution_;
    if (stack_.empty()) {
      stack_.push_back(value);
      last_ = value;
      return;
    }
    if (value == last_) return;
    const bool rising = value > last_;
    if (moving_ && rising != rising_) {
      stack_.push_back(last_);
      reduce(sink);
    }
    moving_ = true;
    rising_ = rising;
    last_ = value;
  }

  template <class Sink>
  void finish(Sink&& sink) {
    if (moving_) {
      stack_.push_back(last_);
      reduce(sink);
    }
    for (std::size_t i = 1; i < stack_.size(); ++i) emit(stack_[i - 1], stack_[i], 0.5, sink);
    stack_.clear();
    moving_ = false;
  }

  /// Turning points that wait for a partner.
  [[nodiscard]] std::size_t waiting() const { return stack_.size(); }

 private:
  template <class Sink>
  static void emit(double a, double b, double count, Sink& sink) {
    sink(Cycle{std::fabs(b - a), 0.5 * (a + b), count});
  }

  template <class Sink>
  void reduce(Sink& sink) {
    while (stack_.size() >= 3) {
      const std::size_t n = stack_.size();
      const double newest = std::fabs(stack_[n - 1] - stack_[n - 2]);
      const double before = std::fabs(stack_[n - 2] - stack_[n - 3]);
      if (newest < before) return;
      if (n == 3) {  // the older range holds the starting point
        emit(stack_[0], stack_[1], 0.5, sink);
        stack_.erase(stack_.begin());
      } else {
        emit(stack_[n - 3], stack_[n - 2], 1.0, sink);
        stack_[n - 3] = stack_[n - 1];
        stack_.resize(n - 2);
      }
    }
  }

  double resolution_;
  std::vector<double> stack_;
  double last_ = 0;
  bool moving_ = false;
  bool rising_ = false;
};

}  // namespace lobewise::demand
