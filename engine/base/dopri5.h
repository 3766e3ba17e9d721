#pragma once
// One step of an explicit Runge-Kutta pair with error estimate and dense output. The caller owns step control and
// events; nothing is allocated.
#include <algorithm>
#include <array>
#include <cmath>

namespace lobewise {

/// Dormand-Prince 5(4) for y' = f(t, y) with up to `Capacity` components.
///
///   start(t, y, f)            sets the state and evaluates f once
///   error = attempt(h, f, w)  tries a step; error <= 1 meets the tolerances w; state unchanged
///   at(share, i)              component i inside the tried step, share 0..1, continuous extension of order 4
///   accept()                  moves to the end of the tried step (first slope of the next step = last of this)
///
/// `f` is callable as f(t, y, dydt) with State arguments; components beyond the size are never touched.
/// Source: J. R. Dormand, P. J. Prince, J. Comput. Appl. Math. 6 (1980) 19-26; continuous extension and its
/// coefficients: E. Hairer, S. P. Norsett, G. Wanner, Solving Ordinary Differential Equations I, II.6 (from memory).
/// Checked by: tests/unit/base/dopri5_test.cc (measured orders of step and dense output).
template <int Capacity>
class Dopri5 {
 public:
  using State = std::array<double, Capacity>;

  explicit Dopri5(int size) : size_(size) {}

  template <class F>
  void start(double t, const State& y, F&& f) {
    t_ = t;
    y_ = y;
    f(t_, y_, k_[0]);
  }

  /// @param weight  permitted local error of each component, > 0
  /// @returns root mean square of error / weight
  template <class F>
  double attempt(double h, F&& f, const State& weight) {
    h_ = h;
    State y{};
    stage(h, y, {1.0 / 5});
    f(t_ + h / 5, y, k_[1]);
    stage(h, y, {3.0 / 40, 9.0 / 40});
    f(t_ + 3 * h / 10, y, k_[2]);
    stage(h, y, {44.0 / 45, -56.0 / 15, 32.0 / 9});
    f(t_ + 4 * h / 5, y, k_[3]);
    stage(h, y, {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729});
    f(t_ + 8 * h / 9, y, k_[4]);
    stage(h, y, {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656});
    f(t_ + h, y, k_[5]);
    stage(h, next_, {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84});
    f(t_ + h, next_, k_[6]);
    double sum = 0;
    for (int i = 0; i < size_; ++i) {
      const auto j = static_cast<std::size_t>(i);
      const double error = h * (71.0 / 57600 * k_[0][j] - 71.0 / 16695 * k_[2][j] + 71.0 / 1920 * k_[3][j] -
                                17253.0 / 339200 * k_[4][j] + 22.0 / 525 * k_[5][j] - 1.0 / 40 * k_[6][j]);
      sum += (error / weight[j]) * (error / weight[j]);
    }
    return std::sqrt(sum / size_);
  }

  [[nodiscard]] double at(double share, int component) const {
    const auto j = static_cast<std::size_t>(component);
    const double rest = 1 - share;
    const double difference = next_[j] - y_[j];
    const double bend = h_ * k_[0][j] - difference;
    const double twist = difference - h_ * k_[6][j] - bend;
    const double fifth = h_ * (-12715105075.0 / 11282082432.0 * k_[0][j] + 87487479700.0 / 32700410799.0 * k_[2][j] -
                               10690763975.0 / 1880347072.0 * k_[3][j] + 701980252875.0 / 199316789632.0 * k_[4][j] -
                               1453857185.0 / 822651844.0 * k_[5][j] + 69997945.0 / 29380423.0 * k_[6][j]);
    return y_[j] + share * (difference + rest * (bend + share * (twist + rest * fifth)));
  }
  /// The whole state inside the tried step.
  [[nodiscard]] State at(double share) const {
    State y{};
    for (int i = 0; i < size_; ++i) {
      y[static_cast<std::size_t>(i)] = at(share, i);
    }
    return y;
  }

  void accept() {
    t_ += h_;
    y_ = next_;
    k_[0] = k_[6];
  }

  [[nodiscard]] double time() const { return t_; }
  [[nodiscard]] double step() const { return h_; }
  [[nodiscard]] const State& state() const { return y_; }
  [[nodiscard]] const State& tried_state() const { return next_; }

  /// Step length to try next: 0.9 h error^(-1/5), at most five times and at least a fifth of h.
  [[nodiscard]] static double next_step(double h, double error) {
    return h * std::clamp(0.9 * std::pow(std::max(error, 1e-12), -0.2), 0.2, 5.0);
  }

 private:
  template <std::size_t Count>
  void stage(double h, State& y, const double (&a)[Count]) const {
    for (int i = 0; i < size_; ++i) {
      const auto j = static_cast<std::size_t>(i);
      double sum = 0;
      for (std::size_t s = 0; s < Count; ++s) {
        sum += a[s] * k_[s][j];
      }
      y[j] = y_[j] + h * sum;
    }
  }

  int size_;
  double t_ = 0;
  double h_ = 0;
  State y_{};
  State next_{};
  std::array<State, 7> k_{};
};

}  // namespace lobewise
